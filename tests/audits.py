"""Claims as an audit looks at them, changed where a test needs it."""

from __future__ import annotations

import datetime as dt
import hashlib
from typing import Any

from builders import TODAY, a_claim

from claimpack.book.tables.rows import KeptFile
from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures
from claimpack.core.auditing.report.audit import audit, chosen_rules
from claimpack.core.events.standing import Standing

MEASURES = Measures(TODAY)
RECEIPT = KeptFile("papers/receipt.pdf", "ee" * 32, 100)
FILED_ON = dt.date(2026, 2, 25)
DRAFT = Standing(state="draft")
FILED = Standing(state="filed", filed=FILED_ON, currency="USD", claimed="100.00")
REFUSED = Standing(state="refused", filed=FILED_ON)
WITHDRAWN = Standing(state="withdrawn", filed=FILED_ON)


def an_audited(number: str = "26-0001", serial: str = "HC70-1", **changes: Any) -> AuditedClaim:
    """A filed claim with its receipt, for a unit of that serial number; changed as `a_claim` is."""
    changes = {"number": number, "unit__serials": [{"role": "unit", "value": serial}], **changes}
    own_receipt = RECEIPT._replace(sha256=hashlib.sha256(number.encode()).hexdigest())
    return AuditedClaim(a_claim(**changes), standing=FILED, files=(own_receipt,))


def with_pictures(audited: AuditedClaim, *pictures: KeptFile) -> AuditedClaim:
    """A claim that shows these pictures as well."""
    claim = audited.claim
    keys = claim.model_dump(mode="json") | {"photos": [{"file": picture.path} for picture in pictures]}
    return audited._replace(claim=type(claim).model_validate(keys), files=(*audited.files, *pictures))


def a_picture(path: str = "photos/a.jpg", sha256: str = "ab" * 32, likeness: str = "", taken: str = "") -> KeptFile:
    """A kept picture."""
    return KeptFile(path, sha256, 1000, dt.datetime.fromisoformat(taken) if taken else None, likeness)


def found_by(rule: str, *claims: AuditedClaim, measures: Measures = MEASURES) -> list[Irregularity]:
    """What one rule finds in claims."""
    return list(audit(claims, measures, chosen_rules([rule])).found)


def shows(number, *pictures, serial=""):
    return with_pictures(an_audited(number, serial or number), *pictures)


def with_shot(audited, shot):
    photos = tuple(photo.model_copy(update={"shot": shot}) for photo in audited.claim.photos)
    return audited._replace(claim=audited.claim.model_copy(update={"photos": photos}))
