from datetime import date
from decimal import Decimal

import pytest
from new_events import FILED, OPENED, accepted_in_part, paid

from claimpack.core.events.fold import stand
from claimpack.core.settlement.booking import total_of
from claimpack.core.settlement.matching import match
from claimpack.core.settlement.statement import KnownClaim, Statement, StatementRow
from claimpack.errors import BadInput

DAY = date(2026, 3, 20)


def known(number, *happened, serial="HC70-1", reference="R-7", part="H70-4410", ours=True):
    """A claim of 150.00 USD that is filed."""
    words = [word.replace("-", "").casefold() for word in (serial, reference, part)]
    standing = stand([OPENED, FILED, *happened])
    return KnownClaim(number, ours, "Halden", standing, 2, (words[0],), words[1], (words[2],))


def row(amount, place=2, **named):
    return StatementRow(place, Decimal(amount), **named)


def matched(rows, *claims, said=None, by_amount=None, anyway=""):
    statement = Statement("CM-1", DAY, "hash", "USD", tuple(rows))
    return match(statement, claims, by_amount or {}, said or {}, anyway)


def kinds(found):
    return [(one.claim.number, one.kind) for one in found.matches]


ONE = known("26-0001")
OTHER = known("26-0002", serial="HC70-2", reference="R-8", part="H70-4411")


@pytest.mark.parametrize(
    "named",
    [{"number": "26-0001"}, {"number": "26 0001"}, {"reference": "r7"}, {"number": "R-7"}, {"serial": "HC70 1"}],
    ids=["number", "number with a blank", "reference", "the maker's number as number", "serial"],
)
def test_a_row_goes_to_the_claim_that_it_names(named):
    assert kinds(matched([row("150.00", **named)], ONE, OTHER)) == [("26-0001", "paid in full")]


@pytest.mark.parametrize(
    ("amount", "kind", "difference"),
    [
        ("149.99", "short", "0.01"),
        ("150.00", "paid in full", "0.00"),
        ("150.01", "over", "-0.01"),
        ("0", "short", "150.00"),
    ],
)
def test_a_row_is_short_in_full_or_over_by_what_is_outstanding(amount, kind, difference):
    found = matched([row(amount, number="26-0001")], ONE).matches[0]
    assert (found.kind, found.difference) == (kind, Decimal(difference))


def test_what_was_accepted_in_part_is_paid_in_full_by_that_part():
    found = matched([row("90.00", number="26-0001")], known("26-0001", accepted_in_part("90.00")))
    assert kinds(found) == [("26-0001", "paid in full")]


def test_rows_about_one_claim_are_added_up():
    rows = [row("100.00", 2, number="26-0001"), row("50.00", 3, reference="R-7")]
    assert kinds(matched(rows, ONE)) == [("26-0001", "paid in full")]


def test_more_than_is_outstanding_is_booked_with_a_reason_alone():
    rows = [row("160.00", number="26-0001")]
    events = [matched(rows, ONE, anyway=why).matches[0].events for why in ("", "Interest.")]
    assert (events[0], [event.why for event in events[1]]) == ((), ["Interest."])


def test_an_amount_below_zero_is_a_charge_back_with_the_memo_as_its_reason():
    found = matched([row("-20.00", number="26-0001")], known("26-0001", paid("150.00"))).matches[0]
    assert (found.kind, [(event.what, event.facts["amount"], event.why) for event in found.events]) == (
        "charge-back",
        [("charged back", "20.00", "memo CM-1")],
    )


def test_payment_and_charge_back_of_one_claim_are_kept_apart():
    rows = [row("150.00", 2, number="26-0001"), row("-20.00", 3, number="26-0001")]
    assert [event.what for event in matched(rows, ONE).matches[0].events] == ["paid", "charged back"]


def test_events_carry_the_memo_and_the_mark_of_the_file():
    facts = matched([row("150.00", number="26-0001")], ONE).matches[0].events[0].facts
    assert facts == {"amount": "150.00", "memo": "CM-1", "statement": "hash"}


CANNOT = [
    (known("26-0001", paid("50.00")), "-60.00"),
    (ONE, "-10.00"),
    (KnownClaim("26-0001", True, "Halden", stand([OPENED]), 1), "150.00"),
    (KnownClaim("26-0001", True, "Halden", stand([OPENED, FILED]).model_copy(update={"currency": "CAD"}), 1), "150.00"),
]


@pytest.mark.parametrize(
    ("claim", "amount"), CANNOT, ids=["more back than came", "back of nothing", "a draft", "another currency"]
)
def test_what_cannot_be_is_not_booked_and_says_why(claim, amount):
    found = matched([row(amount, number="26-0001")], claim).matches[0]
    assert (found.kind, found.events, bool(found.reasons)) == ("cannot be booked", (), True)


UNKNOWN = [
    ([row("150.00", number="26-0001", serial="HC70-2")], ("26-0001", "26-0002")),
    ([row("150.00", number="26-9999")], ()),
    ([row("150.00")], ()),
    ([row("149.00", part="H70-4410")], ()),
    ([row("149.00", number="26-9999", serial="HC70-1")], ()),
]


@pytest.mark.parametrize(
    ("rows", "perhaps"),
    UNKNOWN,
    ids=["two names disagree", "nobody knows it", "nothing named", "a part at another amount", "a stray number"],
)
def test_a_row_that_is_about_no_claim_for_certain_is_left(rows, perhaps):
    found = matched(rows, ONE, OTHER)
    assert (found.matches, [one.perhaps for one in found.unknown]) == ((), [perhaps])


def test_an_amount_alone_names_no_claim_but_may_hint_at_one():
    found = matched([row("150.00")], ONE, by_amount={Decimal("150.00"): ["26-0001"]})
    assert (found.matches, found.unknown[0].perhaps) == ((), ("26-0001",))


def test_a_part_returned_and_the_amount_together_name_a_claim():
    assert kinds(matched([row("150.00", part="H70 4410")], ONE, OTHER)) == [("26-0001", "paid in full")]


def test_of_two_claims_on_one_unit_the_amount_decides():
    again = known("26-0003", paid("100.00"))
    assert kinds(matched([row("50.00", serial="HC70-1")], ONE, again)) == [("26-0003", "paid in full")]


def test_two_claims_that_both_fit_are_left_to_a_person():
    found = matched([row("150.00", serial="HC70-1")], ONE, known("26-0003"))
    assert (found.matches, found.unknown[0].perhaps) == ((), ("26-0001", "26-0003"))


def test_a_claim_on_another_maker_is_named_and_left():
    assert "Halden" in matched([row("150.00", number="26-0001")], known("26-0001", ours=False)).unknown[0].why


def test_somebody_may_say_which_claim_a_row_is_about():
    found = matched([row("150.00", 7)], ONE, said={7: [("26-0001", None)]})
    assert [(one.claim.number, one.by) for one in found.matches] == [("26-0001", "said")]


BOTH = row("300.00", 7, number="26-0001 / 26-0002")


def test_a_row_that_pays_all_of_two_claims_is_parted_between_them():
    found = matched([BOTH], ONE, OTHER)
    assert kinds(found) == [("26-0001", "paid in full"), ("26-0002", "paid in full")]


def test_a_row_that_pays_two_claims_in_part_is_asked_about():
    found = matched([BOTH._replace(amount=Decimal("250.00"))], ONE, OTHER)
    assert (found.matches, found.unknown[0].perhaps) == ((), ("26-0001", "26-0002"))


def test_somebody_may_say_how_much_of_a_row_each_claim_has():
    said = {7: [("26-0001", Decimal("100.00")), ("26-0002", Decimal("200.00"))]}
    assert [(one.claim.number, one.paid) for one in matched([BOTH], ONE, OTHER, said=said).matches] == said[7]


def test_amounts_that_do_not_come_to_the_row_are_refused():
    with pytest.raises(BadInput):
        matched([BOTH], ONE, OTHER, said={7: [("26-0001", Decimal("100.00")), ("26-0002", Decimal("100.00"))]})


@pytest.mark.parametrize(("anyway", "kind"), [("", "cannot be booked"), ("Two parts of it.", "paid in full")])
def test_two_rows_that_say_the_same_are_counted_both_on_a_reason_alone(anyway, kind):
    rows = [row("75.00", 2, number="26-0001"), row("75.00", 3, number="26-0001", same_as=2)]
    assert kinds(matched(rows, ONE, anyway=anyway)) == [("26-0001", kind)]


def test_a_claim_that_nothing_is_paid_for_books_nothing():
    found = matched([row("0", number="26-0001", because="wear")], ONE).matches[0]
    assert (found.events, found.kind, found.difference) == ((), "short", Decimal("150.00"))


def test_a_row_of_nothing_about_no_claim_is_left_silently():
    assert matched([row("0", number="Paid in March")], ONE).unknown == ()


def test_a_serial_alone_names_its_one_claim_though_it_is_paid_short():
    assert kinds(matched([row("149.00", serial="HC70-1")], ONE, OTHER)) == [("26-0001", "short")]


def test_money_taken_back_goes_to_the_one_claim_on_the_unit_that_had_so_much():
    paid_for = known("26-0003", paid("150.00"))
    assert kinds(matched([row("-150.00", serial="HC70-1")], ONE, paid_for)) == [("26-0003", "charge-back")]


@pytest.mark.parametrize(
    ("named", "claims"),
    [({"serial": "HC70-1"}, [ONE, known("26-0003", paid("150.00"))]), ({"part": "H70-4410"}, [ONE])],
    ids=["one open and one paid on the unit", "a part returned"],
)
def test_an_amount_of_nothing_tells_no_claims_apart(named, claims):
    assert matched([row("0", **named)], *claims) == ((), ())


def test_a_mark_alone_is_no_number_of_the_makers():
    assert matched([row("150.00", reference="-")], known("26-0001", reference="")).matches == ()


def test_a_claim_on_another_maker_is_not_meant_by_the_unit():
    found = matched([row("150.00", serial="HC70-1")], ONE, known("26-0003", ours=False))
    assert kinds(found) == [("26-0001", "paid in full")]


def test_a_row_with_a_claim_on_another_maker_among_its_numbers_is_not_parted():
    assert matched([BOTH], ONE, OTHER._replace(is_of_maker=False)).matches == ()


def test_a_row_with_a_number_that_nobody_knows_among_its_numbers_is_not_parted():
    assert matched([BOTH], ONE).matches == ()


def test_a_number_with_a_mark_in_it_is_not_taken_apart():
    claims = [known(number) for number in ("41/42", "41", "42")]
    assert kinds(matched([row("300.00", number="41/42")], *claims)) == [("41/42", "over")]


def test_an_amount_that_is_said_for_one_claim_must_be_the_whole_row():
    with pytest.raises(BadInput):
        matched([row("150.00", 7)], ONE, said={7: [("26-0001", Decimal("100.00"))]})


def test_what_is_booked_of_a_statement_is_what_came_in_less_what_was_taken_back():
    rows = [row("150.00", 2, number="26-0001"), row("-20.00", 3, number="26-0001"), row("160.00", 4, number="26-0002")]
    assert total_of(matched(rows, ONE, OTHER).matches, "USD") == "130.00 USD"


@pytest.mark.parametrize(
    ("names", "said"), [({"number": "26-0001", "part": "H70-4410"}, "26-0001 H70-4410"), ({}, "no name")]
)
def test_a_row_is_told_by_what_it_names(names, said):
    assert row("150.00", **names).named == said
