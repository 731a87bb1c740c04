"""The journal: every movement of money on claims as an entry with two accounts, for any accounting program."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import Literal

from claimpack.core.events.events import Event
from claimpack.core.events.fold import Folding
from claimpack.core.events.standing import Standing
from claimpack.core.facts.record import Record
from claimpack.core.settlement.accounts import Accounts
from claimpack.core.steps.listed import ListedClaim
from claimpack.core.values.money import ZERO, Number, coins
from claimpack.errors import BadInput, WrongState

Movement = Literal["payment", "charge-back", "write-off", "reversal"]


class JournalEntry(Record):
    """One movement: the amount, above zero, goes to the debit of one account and to the credit of another.

    `id` names the movement for ever, so that an entry that was taken over is known again.
    """

    id: str
    on: date
    claim: str
    maker: str
    movement: Movement
    memo: str
    because: str
    debit: str
    credit: str
    amount: Number
    currency: str


def journal(
    events: Iterable[Event], claims: Mapping[str, ListedClaim], accounts: Mapping[str, Accounts]
) -> list[JournalEntry]:
    """Every movement of money on some claims, in the order they were recorded.

    Args:
        events: everything that happened to them.
        claims: the claims as lists know them, by number.
        accounts: the accounts of each claim, by its number: those of its own shop for its maker.

    Raises:
        BadInput: what makers owe is under the account that money goes to.
        WrongState: the movements of a claim do not come to what the book says of it.

    Source: double entry, general references; which account is which is the shop's.
    """
    _refuse_one_account_twice(accounts.values())
    foldings: dict[str, Folding] = {}
    found: list[JournalEntry] = []
    for event in events:
        if event.claim not in claims:
            continue
        folding = foldings.setdefault(event.claim, Folding())
        before = folding.standing
        # what an event moved is what it changed in the fold: so undoing needs no entries of its own kind
        folding.take(event)
        found += _entries(event, claims[event.claim], before, folding.standing, accounts[event.claim])
    _refuse_unbalanced(found, claims, accounts)
    return found


def _entries(
    event: Event, claim: ListedClaim, before: Standing, after: Standing, accounts: Accounts
) -> list[JournalEntry]:
    """What an event moved: told by what stood before and after it, so that what was undone is reversed as it was."""
    currency = after.currency or before.currency
    moved: tuple[tuple[str, Decimal, str, str], ...] = (
        (_PAID, after.paid - before.paid, accounts.money, accounts.receivable),
        (_GIVEN_UP, after.written_off - before.written_off, accounts.written_off, accounts.receivable),
    )
    # a payment undone carries the memo of the one it takes back, so that both are found under it
    undone = before.payments[-1].memo if event.what == "payment undone" and before.payments else ""
    return [
        JournalEntry(
            id=f"{event.hash[:16]}-{which}",
            on=event.on,
            claim=event.claim,
            maker=claim.maker,
            movement=_MOVEMENTS.get((event.what, which), "reversal"),
            memo=event.facts.get("memo", undone),
            because=event.why,
            debit=debit if amount > 0 else credit,
            credit=credit if amount > 0 else debit,
            amount=coins(abs(amount), currency),
            currency=currency,
        )
        for which, amount, debit, credit in moved
        if amount
    ]


_PAID, _GIVEN_UP = "p", "w"
_MOVEMENTS: Mapping[tuple[str, str], Movement] = {
    ("paid", _PAID): "payment",
    ("charged back", _PAID): "charge-back",
    ("written off", _GIVEN_UP): "write-off",
}


def _refuse_unbalanced(
    found: Iterable[JournalEntry], claims: Mapping[str, ListedClaim], accounts: Mapping[str, Accounts]
) -> None:
    """Refuse entries that do not come to what the book keeps of a claim: money in, less money taken back."""
    paid: dict[str, Decimal] = {}
    for entry in found:
        if entry.id.endswith(_PAID):
            # the journal is added up by its own entries, and not by what they were made of
            sign = 1 if entry.credit == accounts[entry.claim].receivable else -1
            paid[entry.claim] = paid.get(entry.claim, ZERO) + sign * entry.amount
    wrong = [number for number, claim in claims.items() if paid.get(number, ZERO) != claim.paid]
    if wrong:
        raise WrongState(
            f"the movements of claim {wrong[0]} do not come to what was paid for it",
            "Another program, or a damaged disk, changed what was kept.",
            "See what else was changed: claimpack shop verify",
        )


def _refuse_one_account_twice(accounts: Iterable[Accounts]) -> None:
    twice = next((one for one in accounts if one.receivable in (one.money, one.written_off)), None)
    if twice:
        raise BadInput(
            f"shop.toml, [accounts]: {twice.receivable!r} is what makers owe, and where money goes as well",
            "An entry takes an amount from one account to another.",
            "Give what makers owe an account of its own: receivable.",
        )


def balances(entries: Iterable[JournalEntry]) -> dict[str, dict[str, Decimal]]:
    """Debits less credits of every account by currency; those of one currency come to nothing together."""
    found: dict[str, dict[str, Decimal]] = {}
    for entry in entries:
        for account, amount in ((entry.debit, entry.amount), (entry.credit, -entry.amount)):
            sums = found.setdefault(account, {})
            sums[entry.currency] = sums.get(entry.currency, ZERO) + amount
    return dict(sorted(found.items()))


def by_movement(entries: Iterable[JournalEntry]) -> dict[str, dict[str, Decimal]]:
    """What each kind of movement comes to, by currency, in the order of their names; none is taken off another."""
    found: dict[str, dict[str, Decimal]] = {}
    for entry in entries:
        sums = found.setdefault(entry.movement, {})
        sums[entry.currency] = sums.get(entry.currency, ZERO) + entry.amount
    return dict(sorted(found.items()))


def within(entries: Iterable[JournalEntry], since: date | None, until: date | None) -> list[JournalEntry]:
    """The entries from a day to a day, both in; None for no limit."""
    return [one for one in entries if (since is None or one.on >= since) and (until is None or one.on <= until)]
