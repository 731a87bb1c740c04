"""What happens to a claim of 150.00 USD and its held parts, and the way to every state."""

from __future__ import annotations

from datetime import date

from claimpack.core.events.events import NewEvent

DAY = date(2026, 3, 1)
LATER = date(2026, 4, 2)


def happened(what, on=DAY, why="", **facts):
    return NewEvent(what=what, on=on, why=why, facts=facts)


OPENED = happened("opened")
FILED = happened("filed", claimed="150.00", currency="USD", received="2026-03-03", reference="R-7", revision="2")
ACCEPTED = happened("answered", answer="accepted")
REFUSED = happened("answered", answer="refused", form="yes", why="no receipt")
QUESTIONED = happened("answered", answer="questioned")
WITHDRAWN = happened("withdrawn")
REOPENED = happened("reopened")
UNDONE = happened("answer undone")
PAYMENT_UNDONE = happened("payment undone")


def paid(amount, on=DAY):
    return happened("paid", on, amount=amount)


def accepted_in_part(amount, on=DAY):
    return happened("answered", on, answer="part", amount=amount)


def written_off(amount):
    return happened("written off", amount=amount)


def part(what, index="1", **facts):
    return happened(f"part {what}", part=index, **facts)


WAY_TO = {
    "draft": [OPENED],
    "filed": [OPENED, FILED],
    "questioned": [OPENED, FILED, QUESTIONED],
    "accepted": [OPENED, FILED, ACCEPTED],
    "refused": [OPENED, FILED, REFUSED],
    "paid": [OPENED, FILED, ACCEPTED, paid("150.00")],
    "written off": [OPENED, FILED, REFUSED, written_off("150.00")],
    "withdrawn": [OPENED, FILED, WITHDRAWN],
}

PART_WAY_TO = {
    "held": [],
    "called back": [part("called back", send_by="2026-03-20")],
    "sent": [part("called back"), part("sent")],
    "released": [part("released", rule="hold over")],
    "scrapped": [part("released"), part("scrapped")],
}
