"""The own authority and its certificate, judged by OpenSSL: it holds for this machine and for nothing else."""

import socket
import ssl
import stat
import threading
from datetime import timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec

from webapp.core import clock
from webapp.phone import files
from webapp.phone.files import secure
from webapp.values.errors import BadInput

NAMES = ("shed.local", "192.168.1.20", "0.0.0.0")


def shaken(certificate, key, authority_pem, name) -> str:
    """What OpenSSL says of a handshake with a server that shows this certificate under this name."""
    serving = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    serving.load_cert_chain(certificate, key)
    asking = ssl.create_default_context(cadata=authority_pem)
    ours, theirs = socket.socketpair()

    def serve() -> None:
        try:
            with serving.wrap_socket(ours, server_side=True) as wrapped:
                wrapped.recv(1)
        except OSError:
            ours.close()

    thread = threading.Thread(target=serve)
    thread.start()
    try:
        with asking.wrap_socket(theirs, server_hostname=name) as wrapped:
            wrapped.send(b"x")
        return "trusted"
    except ssl.SSLCertVerificationError as refused:
        return refused.verify_message
    finally:
        theirs.close()
        thread.join()


def pem(made) -> str:
    return ssl.DER_cert_to_PEM_cert(made.authority)


@pytest.mark.parametrize("name", ["localhost", "127.0.0.1", "192.168.1.20", "shed.local"])
def test_a_phone_that_trusts_the_authority_trusts_this_machine_by_each_of_its_names(tmp_path, name):
    made = secure(tmp_path, "shed", NAMES)
    assert shaken(made.certificate, made.key, pem(made), name) == "trusted"


def test_another_name_is_refused_and_so_is_a_phone_that_does_not_trust_it(tmp_path):
    made = secure(tmp_path, "shed", NAMES)
    other = secure(tmp_path / "other", "other", NAMES)
    assert "192.168.1.21" in shaken(made.certificate, made.key, pem(made), "192.168.1.21")
    assert shaken(made.certificate, made.key, pem(other), "localhost") != "trusted"


def test_whoever_had_the_authoritys_key_could_still_not_pretend_to_be_a_public_site(tmp_path):
    """Name constraints, RFC 5280 section 4.2.1.10, as OpenSSL holds them."""
    made = secure(tmp_path, "shed", NAMES)
    authority = x509.load_der_x509_certificate(made.authority)
    key = serialization.load_pem_private_key((tmp_path / "https" / "authority.key").read_bytes(), None)
    own = ec.generate_private_key(ec.SECP256R1())
    forged = (
        x509.CertificateBuilder()
        .subject_name(x509.Name([]))
        .issuer_name(authority.subject)
        .public_key(own.public_key())
        .serial_number(7)
        .not_valid_before(clock.now() - timedelta(days=1))
        .not_valid_after(clock.now() + timedelta(days=30))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName("bank.example.org")]), critical=True)
        .sign(key, hashes.SHA256())
    )
    (tmp_path / "forged.crt").write_bytes(forged.public_bytes(serialization.Encoding.PEM))
    (tmp_path / "forged.key").write_bytes(
        own.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    )
    said = shaken(tmp_path / "forged.crt", tmp_path / "forged.key", pem(made), "bank.example.org")
    assert said == "permitted subtree violation"


def test_the_same_names_keep_the_certificate_and_a_new_address_keeps_the_authority(tmp_path):
    first = secure(tmp_path, "shed", NAMES)
    body = first.certificate.read_bytes()
    assert secure(tmp_path, "shed", NAMES).certificate.read_bytes() == body
    moved = secure(tmp_path, "shed", (*NAMES, "192.168.1.77"))
    assert moved.certificate.read_bytes() != body
    assert moved.authority == first.authority, "no phone has to trust anything again"
    assert shaken(moved.certificate, moved.key, pem(first), "192.168.1.77") == "trusted"


def test_it_lasts_no_longer_than_phones_take_and_is_made_anew_before_it_ends(tmp_path, monkeypatch):
    """397 days: CA/Browser Forum Baseline Requirements, section 6.3.2."""
    made = secure(tmp_path, "shed", NAMES)
    body = made.certificate.read_bytes()
    found = x509.load_pem_x509_certificate(body)
    assert found.not_valid_after_utc - found.not_valid_before_utc <= timedelta(days=397)
    later = clock.now() + timedelta(days=380)
    monkeypatch.setattr(files.clock, "now", lambda: later)
    again = secure(tmp_path, "shed", NAMES)
    assert again.certificate.read_bytes() != body
    assert again.authority == made.authority


def test_the_keys_are_readable_by_their_owner_only(tmp_path):
    secure(tmp_path, "shed", NAMES)
    modes = {stat.S_IMODE(file.stat().st_mode) for file in (tmp_path / "https").iterdir()}
    assert modes == {0o600}
    assert stat.S_IMODE((tmp_path / "https").stat().st_mode) == 0o700


def test_a_spoiled_file_is_said_and_not_written_over(tmp_path):
    secure(tmp_path, "shed", NAMES)
    spoiled = tmp_path / "https" / "authority.crt"
    spoiled.write_text("not a certificate")
    with pytest.raises(BadInput, match="no certificate or key"):
        secure(tmp_path, "shed", NAMES)
    assert spoiled.read_text() == "not a certificate"
