from __future__ import annotations

import pytest
from builders import a_claim

from claimpack.core.payment.approval_letter import evidence_named

FINDING = {"what": "compression", "value": "42", "unit": "psi"}
PHOTOS = [{"file": "photos/a.jpg"}, {"file": "photos/b.jpg"}]
NO_PAPER = {"proof": {"kind": "receipt"}}


@pytest.mark.parametrize(
    ("changes", "pages", "said"),
    [
        ({"findings": [FINDING], "photos": PHOTOS}, 3, ("1 finding, 2 photos, receipt.pdf, on 3 pages",)),
        ({"photos": PHOTOS, **NO_PAPER}, 1, ("2 photos, on 1 page",)),
        ({"photos": PHOTOS}, 0, ()),
        (NO_PAPER, 2, ()),
    ],
    ids=["all", "photos alone", "no page", "nothing to show"],
)
def test_what_goes_along_is_counted_and_named(changes, pages, said):
    assert evidence_named(a_claim(**changes), pages) == said
