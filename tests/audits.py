"""Claims as an audit looks at them, changed where a test needs it."""

from __future__ import annotations

import datetime as dt
from typing import Any

from builders import TODAY, a_claim, a_plan

from claimpack.book.rows import KeptFile
from claimpack.core.audit import RULES, AcrossRule, audit
from claimpack.core.audited import AuditedClaim, Irregularity, Measures
from claimpack.core.plan import Plan
from claimpack.core.standing_of import standing_of

MEASURES = Measures(TODAY)
RECEIPT = KeptFile("papers/receipt.pdf", "ee" * 32, 100)
FILED = dt.date(2026, 2, 25)
