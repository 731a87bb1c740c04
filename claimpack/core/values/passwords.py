"""Passwords in addresses of databases: they are for the server alone, never for a screen, a log or a file."""

from __future__ import annotations

import re

_IN_USER = r"(://[^/?#:@\s]*:)[^\s\"']*@"
_IN_QUERY = r"(?i)([?&][a-z_]*(?:password|passfile|passwd|pwd)=)[^&#\s\"']*"


def without_password(text: str) -> str:
    """Text with stars for the password of every URL in it, whether before the host or among the options.

    Source: RFC 3986 section 3.2.1 (the user's part of an address and its password); section 7.5 (not to be shown).
    """
    if "://" not in text:
        return text
    return re.sub(_IN_QUERY, r"\1***", re.sub(_IN_USER, r"\1***@", text))
