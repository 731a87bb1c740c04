"""`claimpack export --journal`: movements of money as entries for an accounting program."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from claimpack.commands.desk.shops import not_ours

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date
    from decimal import Decimal

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.settlement.accounts import Accounts
    from claimpack.core.steps.listed import ListedClaim


def write_journal(
    desk: Desk, say: Say, numbers: list[str] | None, to: Path, days: tuple[str, str], *, bom: bool
) -> dict[str, Any]:
    """Write the entries of some claims, or of all, from a day to a day.

    Raises:
        BadInput: a day is none.
        WrongState: they do not come to what the book says of a claim; or nobody said where its shop's accounts are.
    """
    from claimpack.commands.desk.named_files import write_named
    from claimpack.core.settlement.journal import JournalEntry, balances, by_movement, journal, within
    from claimpack.core.values.money import summed
    from claimpack.lists.ledger_sheets import Sheet, as_csv, with_shops

    claims = {row.number: row for row in desk.book.claims() if numbers is None or row.number in numbers}
    accounts = _accounts(desk, claims)
    with say.progress("Movements", 1) as advance:
        # of the whole history first: what a claim was paid before decides what a movement is
        entries = journal(desk.book.each_event(), claims, accounts)
        advance()
    # narrowed afterwards, for the reason above
    entries = within(entries, _day(days[0], "--since"), _day(days[1], "--until"))
    headings = tuple(JournalEntry.declared)
    rows = [[getattr(entry, name) for name in headings] for entry in entries]
    sheet = with_shops(Sheet("Journal", headings, rows), desk.shops.told)
    path = desk.world.path(to)
    write_named(desk.world, path, as_csv(sheet, bom=bom))
    debits = summed((entry.currency, entry.amount) for entry in entries)
    return {
        "file": str(to if str(to) == "-" else path),
        "entries": len(entries),
        **_plainly({"debits": debits}),
        "movements": _plainly(by_movement(entries)),
        "balances": _plainly(balances(entries)),
    }


def _plainly(sums: Mapping[str, Mapping[str, Decimal]]) -> dict[str, dict[str, str]]:
    from claimpack.core.values.money import coins, plain

    return {name: {code: plain(coins(amount, code)) for code, amount in some.items()} for name, some in sums.items()}


def _accounts(desk: Desk, claims: Mapping[str, ListedClaim]) -> dict[str, Accounts]:
    """The accounts of each claim, by its number: those of its own shop for its maker."""
    found: dict[tuple[str, str], Accounts] = {}
    for number, claim in claims.items():
        of = desk.shops.whose(number), claim.maker
        if of not in found:
            theirs = desk.shops.desk_of(of[0])
            if theirs is None:
                raise not_ours(desk.shop, number, of[0])
            settings = theirs.shop.settings
            money = settings.account_for(*theirs.spellings(claim.maker))
            found[of] = settings.accounts.model_copy(update={"money": money})
    return {number: found[desk.shops.whose(number), claim.maker] for number, claim in claims.items()}


def _day(written: str, option: str) -> date | None:
    from claimpack.commands.desk.options import a_date

    return a_date(written, option) if written else None
