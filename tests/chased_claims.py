"""Claims that a letter is about, under terms by which silence accepts, and what the letter says."""

from datetime import date
from decimal import Decimal

from claimpack.core.events.standing import Answer, Payment, Standing
from claimpack.core.payment.chasing import Chased, matter
from claimpack.core.payment.letters.chase_letter import letter
from claimpack.core.payment.letters.letter import Sender, as_text
from claimpack.core.plans.terms import Terms
from claimpack.core.values.periods import period

TERMS = Terms(
    id="x",
    name="x",
    cites="Code 57.253",
    answer_within="P45D",
    silence="accepted",
    pay_within="P30D",
    read_on="2026-01-01",
)
FILED = {
    "state": "filed",
    "filed": date(2026, 1, 2),
    "received": date(2026, 1, 2),
    "claimed": Decimal("150.00"),
    "currency": "USD",
    "reference": "R-77",
}
ACCEPTED = {**FILED, "state": "accepted", "accepted_on": date(2026, 1, 10), "accepted": Decimal("120.00")}
SENDER = Sender(name="Quarry Road", phone="555-0142", dealer_number="QR-1")
SILENT, LATE = date(2026, 2, 17), date(2026, 3, 19)


def chased(terms=TERMS, **facts):
    known = {**FILED, **facts}
    known.setdefault("first_filed", known["filed"])
    return Chased("26-0001", "Halden", "CS-70 cut-off saw", "HC70-1", Standing(**known), terms)


def written(about, today):
    return as_text(letter(about, matter(about, today), SENDER, today))


PAID_AND_TAKEN = {
    **ACCEPTED,
    "payments": (Payment(on=date(2026, 2, 1), amount="120.00"), Payment(on=date(2026, 3, 1), amount="-20.00")),
}


REFUSED_ON = date(2026, 3, 1)


def answered_late(answer, **facts):
    late = Answer(on=REFUSED_ON, answer=answer, amount=facts.get("accepted"))
    return chased(**{"state": answer, "answers": (late,), "answered": REFUSED_ON, **facts})


def contesting(answer, today=date(2026, 3, 2), **facts):
    return " ".join(written(answered_late(answer, **facts), today).split())


REACHING = TERMS.model_copy(update={"audit_reach": period("P1Y")})
TAKEN_LATE = {
    **ACCEPTED,
    "payments": (Payment(on=date(2026, 2, 1), amount="120.00"), Payment(on=date(2027, 3, 1), amount="-20.00")),
}
LATER = date(2027, 3, 1)
