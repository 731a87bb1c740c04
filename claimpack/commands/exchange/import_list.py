"""A list of claims that a shop kept elsewhere taken into the book: shown first, all or none, taken back by its id."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING, NamedTuple

from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import more_than
from claimpack.errors import BadInput, NotFound, WrongState

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.events.events import NewEvent
    from claimpack.core.steps.taken_over import TakenOver
    from claimpack.lists.claim_lists import ListMapping, ListRead
    from claimpack.lists.spreadsheets import SheetRead

LISTS = (".csv", ".xlsx", ".xlsm")
_MOST_SHOWN = 40
_MOST_IMPORTS = 8


class ListWanted(NamedTuple):
    """A list to be taken in: the file as it was named, where it lies, its mapping, where to write the guessed one."""

    file: Path
    path: Path
    mapping: Path | None
    write_mapping: Path | None
    dry_run: bool
    yes: bool


class Coming(NamedTuple):
    """A claim of a list, its place, what it says, what happened; `revision` is that in the book of one undone."""

    place: int
    said: TakenOver
    entry: Entry
    events: tuple[NewEvent, ...]
    revision: int


def import_list(desk: Desk, say: Say, wanted: ListWanted, *, json: bool) -> int:
    """Show what a list says, and take it in once the user agrees.

    Raises:
        BadInput: the list or its mapping cannot be read; every row and column that is wrong is named.
    """
    from claimpack.commands.desk.named_files import goes_to_stdout, write_named
    from claimpack.commands.talk.yes_or_no import agrees
    from claimpack.core.steps.filing import IMPORT
    from claimpack.file_contents import content_hash
    from claimpack.lists.claim_lists import ListReading, guessed, mapping_from, mapping_text, rows_of
    from claimpack.lists.spreadsheets import read_sheet

    path, file = wanted.path, str(wanted.file)
    sheet = read_sheet(path, file)
    mapping = mapping_from(desk.world.path(wanted.mapping), sheet) if wanted.mapping else guessed(sheet)
    if wanted.write_mapping:
        write_named(desk.world, desk.world.path(wanted.write_mapping), mapping_text(mapping).encode())
        if goes_to_stdout(wanted.write_mapping):
            return 0
        say.path(desk.world.path(wanted.write_mapping))
        say.note(f"Correct it, then: claimpack import {quote(file)} --mapping {quote(str(wanted.write_mapping))}")
        return 0
    settings = desk.shop.settings
    rows = rows_of(sheet, mapping, ListReading(desk.plans, settings.currency or "", settings.dates, desk.day))
    imported = f"{desk.day}-{content_hash(path)[:8]}"
    if any(event.facts.get(IMPORT) == imported for event in desk.book.told(IMPORT)):
        imported = f"{imported}-{desk.world.now():%H%M%S}"
    coming = _coming(desk, sheet, mapping, rows, imported)
    odd = [*rows.left_out, *_odd(coming)]
    if not json:
        _show(say, sheet, mapping, coming, guess=wanted.mapping is None)
        _show_odd(say, odd)
    if wanted.dry_run:
        return _told(say, imported, coming, odd, json=json, taken=False)
    if not agrees(say, f"Take {how_many(len(coming), 'claim')} into the book?", wanted.yes, json=json):
        return 4
    _take(desk, coming)
    return _told(say, imported, coming, odd, json=json, taken=True)


def _coming(desk: Desk, sheet: SheetRead, mapping: ListMapping, read: ListRead, imported: str) -> list[Coming]:
    """The claims of a list with their histories.

    Raises:
        BadInput: a row cannot be read, says what cannot be, or its number is in the book; every one is named.
    """
    from claimpack.book.tables.entries import Entry
    from claimpack.core.steps.taken_over import claim_of
    from claimpack.core.steps.taken_over_history import history_of
    from claimpack.errors import ClaimpackError
    from claimpack.lists.claim_lists import in_a_row, refusal

    known = {entry.claim.number: entry for entry in desk.book.entries([row.number for _, row in read.rows])}
    found, problems = list[Coming](), list(read.problems)
    for place, row in ((row.place, taken) for row, taken in read.rows):
        before = known.get(row.number)
        happened = desk.book.history(row.number) if before else []
        try:
            _must_be_free(row.number, before, happened)
            claim = claim_of(row, "", {key: f"column {heading!r}" for key, heading in mapping.columns.items()})
            history = history_of(row, imported, desk.day, happened)
        except ClaimpackError as error:
            told = [each.strip() for each in error.problems or (error.what,)]
            problems += [(place, in_a_row(place, each, mapping)) for each in told]
            continue
        summary = desk.summary_of(claim, (), history.standing)
        revision = before.revision if before else 0
        entry = Entry(claim, 1, history.standing, summary)
        found.append(Coming(place, row, entry, history.events, revision))
    if problems:
        raise refusal(sheet.file, [told for _, told in sorted(problems, key=lambda each: each[0])])
    return found


def _must_be_free(number: str, before: Entry | None, happened: Sequence[object]) -> None:
    """Refuse a number that is in the book, but where its import was taken back."""
    from claimpack.core.steps.taken_over_history import UNDONE

    if before and UNDONE not in getattr(happened[-1], "facts", {}):
        raise BadInput(f"number: claim {number} is already in the book")


def _take(desk: Desk, coming: Sequence[Coming]) -> None:
    """Put every claim into the book in one transaction.

    Raises:
        WrongState: a claim that comes in again was changed meanwhile.
    """
    again = {each.entry.claim.number: each for each in coming if each.revision}
    fresh = [(each.entry, each.events) for each in coming if not each.revision]
    with desk.changing_all(list(again), fresh) as changings:
        for changing in changings:
            each = again[changing.claim.number]
            if changing.entry.revision != each.revision:
                raise WrongState(f"claim {changing.claim.number} was changed meanwhile", do="Try again.")
            changing.keep(each.entry.claim, *each.events, files=())


def _show(say: Say, sheet: SheetRead, mapping: ListMapping, coming: Sequence[Coming], *, guess: bool) -> None:
    """Which column was taken for what, every claim as it would stand, and what is odd."""
    from claimpack.commands.screen.columns import ScreenColumn, tell_columns
    from claimpack.core.payment.ledger import state_in_words
    from claimpack.core.values.money import coins, plain

    say.heading("Columns, as their headings suggest" if guess else "Columns")
    say.table([(key, heading) for key, heading in mapping.columns.items()])
    left = [heading for heading in sheet.headings if heading not in mapping.columns.values()]
    if left:
        say.quiet_item(f"not taken: {', '.join(left)}")
    say.heading(f"{how_many(len(coming), 'claim')} of {sheet.file}")
    shown = [each.entry for each in coming[:_MOST_SHOWN]]
    money = [(each.standing, each.standing.currency) for each in shown]
    columns = [
        ScreenColumn("Row", [str(each.place) for each in coming[:_MOST_SHOWN]], right=True),
        ScreenColumn("Claim", [each.claim.number for each in shown]),
        ScreenColumn("Maker", [each.summary.maker_name or each.claim.maker for each in shown], lesser=2, most=20),
        ScreenColumn("State", [state_in_words(each.standing) for each in shown]),
        ScreenColumn("Filed", [str(each.standing.filed or "") for each in shown], lesser=1),
        ScreenColumn("Claimed", [plain(coins(each.claimed, code)) if code else "" for each, code in money], right=True),
        ScreenColumn("Paid", [plain(coins(each.paid, code)) if each.paid else "" for each, code in money], right=True),
        ScreenColumn(
            "Outstanding", [plain(coins(each.outstanding, code)) if code else "" for each, code in money], right=True
        ),
    ]
    tell_columns(say, columns, indent=0)
    if more := more_than(coming, _MOST_SHOWN):
        say.note(f"{more.capitalize()}.")


def _show_odd(say: Say, odd: Sequence[str]) -> None:
    if odd:
        say.heading("Odd")
    for told in odd:
        say.item(say.mark("unknown"), told)


def _odd(coming: Sequence[Coming]) -> list[str]:
    """What is odd about claims that can be taken in all the same."""
    from claimpack.core.steps.taken_over import oddities

    rows = [(each.place, each.said, each.entry.standing, each.entry.summary.verdict) for each in coming]
    return oddities(rows)[:_MOST_SHOWN]


def _told(say: Say, imported: str, coming: Sequence[Coming], odd: Sequence[str], *, json: bool, taken: bool) -> int:
    """What was taken in, or would be, and how to take it back."""
    from claimpack.core.payment.ledger import money_facts
    from claimpack.core.values.money import in_money, summed

    standings = [each.entry.standing for each in coming]
    if json:
        claims = [money_facts(each.entry.claim.number, each.entry.standing) for each in coming]
        say.document({"import": imported if taken else None, "taken": taken, "claims": claims, "odd": list(odd)})
        return 0
    sums = summed((each.currency, each.outstanding) for each in standings if each.currency)
    outstanding = ", ".join(in_money(amount, code) for code, amount in sums.items()) or "nothing"
    say.answer()
    say.answer(
        f"{how_many(len(coming), 'claim')} {'taken in' if taken else 'would be taken in'}, {outstanding} outstanding"
    )
    if taken:
        say.note(f"To take all of it back: claimpack import --undo {imported}")
    return 0


def undo_import(desk: Desk, say: Say, imported: str, *, yes: bool, json: bool) -> int:
    """Take the import of a list back: every claim withdrawn, its payments and answers undone; the history keeps both.

    Raises:
        NotFound: there is no such import.
        WrongState: a claim was changed since; nothing is taken back then.
    """
    from claimpack.commands.talk.yes_or_no import agrees
    from claimpack.core.steps.filing import IMPORT
    from claimpack.core.steps.taken_over_history import undoing

    every = [each for each in desk.book.told(IMPORT) if each.what == "imported"]
    events = [each for each in every if each.facts[IMPORT] == imported]
    if not events:
        known = list(dict.fromkeys(each.facts[IMPORT] for each in every))
        there = f"There are: {', '.join(known[-_MOST_IMPORTS:])}." if known else "No list was ever taken in."
        raise NotFound(f"there is no import {imported}", do=there)
    revisions = {event.claim: event.revision for event in events}
    numbers = sorted(revisions)
    if not agrees(say, f"Take {how_many(len(numbers), 'claim')} back?", yes, json=json):
        return 4
    histories = {number: desk.book.history(number) for number in numbers}
    with desk.changing_all(numbers) as changings:
        changed = [each.claim.number for each in changings if each.entry.revision != revisions[each.claim.number]]
        if changed:
            raise WrongState(
                f"{', '.join(changed[:5])} of import {imported} changed since it came in",
                "What was done since would be taken back with it.",
                "Withdraw the others one by one: claimpack withdraw CLAIM --because TEXT",
            )
        for changing in changings:
            happened = histories[changing.claim.number]
            changing.keep(changing.claim, *undoing(happened, imported, desk.day, f"import {imported} taken back"))
    if json:
        say.document({"undone": imported, "claims": numbers})
        return 0
    say.answer(f"{how_many(len(numbers), 'claim')} of import {imported} taken back; a corrected list may come in again")
    return 0
