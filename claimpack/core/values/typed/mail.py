"""Addresses of mail as people type them: one, in one line, and nothing beside it."""

from __future__ import annotations

import re
from typing import Annotated, Any

from claimpack.core.values.marks import BeforeValidator, Field
from claimpack.core.values.written import WrittenAs

_LONGEST = 254
_ADDRESS = r"[A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]{1,64}@[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)+"


def mail_address(value: Any) -> str:
    """One address such as `warranty@maker.example.com`.

    Raises:
        ValueError: it is none, or something stands beside it: what has a line break would become a line of its own
            among those that tell a mail where to go.

    Source: RFC 5321 section 4.1.2 and 4.5.3.1 (mailboxes and their lengths), without quoted names and comments.
    """
    text = value.strip(" ") if isinstance(value, str) else ""
    if isinstance(value, str) and any(mark in value for mark in "\r\n"):
        raise ValueError(f"{value!r} has a line break in it, and an address is one line")
    if not re.fullmatch(_ADDRESS, text) or len(text) > _LONGEST:
        raise ValueError(f"{value!r} is no mail address such as warranty@maker.example.com")
    return text


MailAddress = Annotated[
    str, WrittenAs(Annotated[str, Field(pattern=f"^ *({_ADDRESS}) *$")]), BeforeValidator(mail_address)
]
"""One mail address."""
