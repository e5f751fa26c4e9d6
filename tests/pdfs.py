"""Small PDFs for tests, written by hand after ISO 32000-1, 7.5; an independent reader opens them."""

FONTS = b"<< /Font << /F1 5 0 R >> >>"


def a_pdf(words: str = "Truss and tie letter") -> bytes:
    """One page that says `words` (no brackets in them)."""
    drawn = f"BT /F1 18 Tf 72 720 Td ({words}) Tj ET".encode("latin-1")
    objects = (
        b"<< /Type /Catalog /Pages 2 0 R >>",
        b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 612 792] /Contents 4 0 R /Resources %s >>" % FONTS,
        b"<< /Length %d >>\nstream\n%s\nendstream" % (len(drawn), drawn),
        b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
    )
    body, places = b"%PDF-1.4\n", []
    for number, one in enumerate(objects, 1):
        places.append(len(body))
        body += b"%d 0 obj\n%s\nendobj\n" % (number, one)
    table = b"".join(b"%010d 00000 n \n" % place for place in places)
    return (
        body
        + b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1)
        + table
        + b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (len(objects) + 1, len(body))
    )
