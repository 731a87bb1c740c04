from datetime import date

import pytest

from claimpack.core.events import Happening
from claimpack.core.next_step import what_next
from claimpack.core.states import stand


def happened(what, **facts):
    return Happening(what=what, on=date(2026, 3, 2), facts=facts)


def standing(*more):
    """A claim filed for 159.70, and what happened to it since."""
    return stand([happened("opened"), happened("filed", claimed="159.70", currency="USD"), *more])


ACCEPTED = happened("answered", answer="accepted")
PAID = happened("paid", amount="100.00")


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ([], "claimpack answer 26-1"),
        ([ACCEPTED], "claimpack pay 26-1"),
        ([PAID], "59.70 USD is still to come"),
        ([happened("answered", answer="refused", form="yes")], "Only form was wrong"),
        ([happened("answered", answer="refused")], "claimpack write-off 26-1"),
        ([happened("answered", answer="questioned")], "claimpack file 26-1"),
        ([happened("withdrawn"), happened("reopened")], "claimpack file 26-1"),
    ],
)
def test_what_to_do_next_follows_from_where_a_claim_stands(more, said):
    assert said in what_next("26-1", standing(*more))[0]


def test_a_paid_claim_leaves_nothing_to_do():
    assert what_next("26-1", standing(happened("paid", amount="159.70"))) == ()
