"""A claim as a mail with its files attached, for a person to open, look at and send."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from datetime import datetime
from email.headerregistry import Address
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime
from typing import NamedTuple

from claimpack.core.values.typed.mail import mail_address


class Mail(NamedTuple):
    """A mail that nobody has sent: addresses alone, the sender's with a name; PDFs by the name they get."""

    sender: str
    sender_name: str
    to: str
    subject: str
    body: str
    attached: Sequence[tuple[str, bytes]]


def as_message(mail: Mail, written: datetime) -> bytes:
    """The mail as the file that mail programs open as a draft; the same bytes for the same mail and moment.

    Args:
        mail: what it says. Line breaks in the subject become blanks; a sender without an address is left to the
            mail program.
        written: the moment it was written.

    Raises:
        ValueError: the address of the maker or the shop is none.

    Source: RFC 5322 (the form of a message), RFC 2183 (attachments); X-Unsent: 1 has mail programs open it as a draft.
    """
    message = EmailMessage(policy=SMTP)
    if mail.sender:
        message["From"] = Address(_one_line(mail.sender_name), addr_spec=mail_address(mail.sender))
    message["To"] = Address(addr_spec=mail_address(mail.to))
    message["Subject"] = _one_line(mail.subject)
    message["Date"] = format_datetime(written)
    message["X-Unsent"] = "1"
    # In letters of seven bits alone every mail server hands it on as it is.
    message.set_content(mail.body, cte="quoted-printable")
    for name, content in mail.attached:
        message.add_attachment(content, maintype="application", subtype="pdf", filename=name)
    # Chosen at random, it would make another file of the same mail every time.
    marks = hashlib.sha256(repr((mail[:-1], [name for name, _ in mail.attached])).encode())
    for _, content in mail.attached:
        marks.update(content)
    if mail.attached:
        message.set_boundary(f"=_claimpack_{marks.hexdigest()[:32]}")
    return message.as_bytes()


def _one_line(text: str) -> str:
    return " ".join(text.split())
