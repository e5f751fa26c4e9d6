"""The builder's own certificate authority and this machine's certificate, as files below the data folder.

The authority is made once and lasts ten years. The certificate is made anew when the names change, or a month before
it ends; it lasts 397 days, since phones refuse longer ones (CA/Browser Forum Baseline Requirements 6.3.2). Keys are
readable by the owner of the folder only, are part of no copy, and the authority is bound (`rules/names.py`).
"""

import hashlib
import ipaddress
import os
import secrets
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from webapp.core import clock
from webapp.phone.rules.names import Names, bounds, names_of, networks
from webapp.values.errors import BadInput

FOLDER = "https"
AUTHORITY_LASTS = timedelta(days=3650)
CERTIFICATE_LASTS = timedelta(days=397)
RENEWED_BEFORE = timedelta(days=30)
CLOCKS_DIFFER = timedelta(hours=25)
"""a phone whose clock is behind takes a new certificate too"""


@dataclass(frozen=True, slots=True)
class Secured:
    """What https is served with: the machine's certificate and key as files, the authority in DER for phones."""

    certificate: Path
    key: Path
    authority: bytes

    @property
    def digest(self) -> bytes:
        """SHA-256 of the authority, what a phone shows as its fingerprint."""
        return hashlib.sha256(self.authority).digest()


def secure(data: Path, machine: str, asked: Iterable[str]) -> Secured:
    """The certificate for all names in `asked`; what is missing or does not fit any more is made.

    Raises BadInput when a file there is no certificate or key: it is never written over silently.
    """
    folder = data / FOLDER
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    names = names_of(asked)
    try:
        key, authority = _authority(folder, machine, names)
        made = _certificate(folder, key, authority, names)
    except ValueError:
        raise BadInput(
            f"A file in {folder} is no certificate or key. Move that folder away; a new authority is then made, and "
            "each phone has to trust it once more."
        ) from None
    return Secured(made, folder / "machine.key", authority.public_bytes(serialization.Encoding.DER))


def _authority(folder: Path, machine: str, names: Names) -> tuple[ec.EllipticCurvePrivateKey, x509.Certificate]:
    key_file, file = folder / "authority.key", folder / "authority.crt"
    if key_file.exists() and file.exists():
        found = x509.load_pem_x509_certificate(file.read_bytes())
        if found.not_valid_after_utc - RENEWED_BEFORE > clock.now() and _may_sign(found, names):
            return _read_key(key_file), found
        _put_aside(key_file, file)
    key = ec.generate_private_key(ec.SECP256R1())
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"Studbay on {machine}"[:64])])
    permitted: list[x509.GeneralName] = [x509.DNSName(name) for name in bounds(names)]
    permitted += [x509.IPAddress(ipaddress.ip_network(network)) for network in networks(names)]
    made = (
        _begun(subject, subject, key.public_key(), AUTHORITY_LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs=True), critical=True)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    _write_key(key_file, key)
    _write(file, made.public_bytes(serialization.Encoding.PEM))
    return key, made


def _may_sign(authority: x509.Certificate, names: Names) -> bool:
    """Whether its bounds reach all own names; a name typed later needs another authority."""
    permitted = authority.extensions.get_extension_for_class(x509.NameConstraints).value.permitted_subtrees or []
    reached = {str(each.value) for each in permitted}
    return {*bounds(names), *networks(names)} <= reached


def _certificate(folder: Path, key: ec.EllipticCurvePrivateKey, authority: x509.Certificate, names: Names) -> Path:
    key_file, file = folder / "machine.key", folder / "machine.crt"
    if key_file.exists() and file.exists() and _still_fits(file, authority, names):
        _read_key(key_file)
        return file
    own = ec.generate_private_key(ec.SECP256R1())
    known: list[x509.GeneralName] = [x509.DNSName(name) for name in names.hosts]
    known += [x509.IPAddress(ipaddress.ip_address(address)) for address in names.addresses]
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "Studbay")])
    identifier = x509.AuthorityKeyIdentifier.from_issuer_public_key(key.public_key())
    made = (
        _begun(subject, authority.subject, own.public_key(), CERTIFICATE_LASTS)
        .add_extension(x509.SubjectAlternativeName(known), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(identifier, critical=False)
        .sign(key, hashes.SHA256())
    )
    _write_key(key_file, own)
    _write(file, made.public_bytes(serialization.Encoding.PEM))
    return file


def _still_fits(file: Path, authority: x509.Certificate, names: Names) -> bool:
    found = x509.load_pem_x509_certificate(file.read_bytes())
    known = found.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    hosts = set(known.get_values_for_type(x509.DNSName))
    addresses = {str(address) for address in known.get_values_for_type(x509.IPAddress)}
    try:
        found.verify_directly_issued_by(authority)
    except Exception:  # noqa: BLE001 (whatever is wrong with it, it is not ours any more)
        return False
    lasts = found.not_valid_after_utc - RENEWED_BEFORE > clock.now()
    return lasts and hosts == set(names.hosts) and addresses == set(names.addresses)


def _begun(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, lasts: timedelta
) -> x509.CertificateBuilder:
    now: datetime = clock.now()
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - CLOCKS_DIFFER)
        .not_valid_after(now - CLOCKS_DIFFER + lasts)
    )


def _usage(signs: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs,
        key_cert_sign=signs,
        crl_sign=signs,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _read_key(file: Path) -> ec.EllipticCurvePrivateKey:
    key = serialization.load_pem_private_key(file.read_bytes(), None)
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise ValueError(file.name)
    return key


def _write_key(file: Path, key: ec.EllipticCurvePrivateKey) -> None:
    _write(
        file,
        key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()),
    )


def _write(file: Path, body: bytes) -> None:
    """Whole or not at all, readable by the owner only from its first byte on."""
    passing = file.with_name(f".{file.name}.{secrets.token_hex(4)}")
    opened = os.open(passing, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(opened, "wb") as out:
        out.write(body)
    passing.replace(file)


def _put_aside(*files: Path) -> None:
    for file in files:
        file.replace(file.with_name(f"before-{file.name}"))
