"""`claimpack history`: every change with its time, who made it and why; in full, the values before and after."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json
from claimpack.commands.desk.wrapping import wrapped
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.core.values.words import more_than

if TYPE_CHECKING:
    from claimpack.book.book import Book
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.editing.changes import Difference
    from claimpack.core.events.events import Event

# The history of a whole book runs into thousands of events; the latest are what somebody looks for.
_LATEST = 50
_INDENT = 18
# An import or a merge may touch every key; the rest is in --json.
_MOST_CHANGES = 20
_LONGEST_VALUE = 80
_LONGEST_SHORT = 160


def history(
    context: Context,
    claim: Annotated[
        str,
        Argument(metavar="[CLAIM]", help="The claim's number; without it, the whole book."),
    ] = "",
    limit: Annotated[
        int | None,
        Option(
            min=0,
            metavar="N",
            help=f"Only the latest so many, 0 for all; default: all of a claim, {_LATEST} of the book.",
        ),
    ] = None,
    full: Annotated[bool, Option("--full", help="Every fact, and the values before and after.")] = False,
    json: Json = False,
) -> int:
    """Every change, with time, who and why."""
    from claimpack.commands.desk.gather import is_folder, the_book
    from claimpack.commands.desk.say import Say
    from claimpack.errors import BadInput

    if claim and is_folder(context.obj, claim):
        raise BadInput(
            f"{claim} is a claim folder", "Only the book keeps a history.", "Put it into the book: claimpack import"
        )
    book = the_book(context.obj)
    if claim:
        book.get(claim)
    latest = limit if limit is not None or claim else _LATEST
    events = book.history(claim, latest or None)
    changes = _changes(book, claim, events) if claim and (full or json) else {}
    say = Say(context.obj)
    if json:
        told = [event.model_dump(mode="json") | {"at": event.at.isoformat()} for event in events]
        say.document({"claim": claim or None, "events": told} | ({"changes": _as_json(changes)} if claim else {}))
        return 0
    for event in events:
        if full:
            _tell(say, event, changes.pop(event.revision, ()), named=not claim)
        else:
            _tell_short(say, event, named=not claim)
    count = book.event_count() if not claim else 0
    if count > len(events):
        say.note(f"The latest {len(events)} of {count} changes. All: claimpack history --limit 0")
    if events and not full:
        say.note(f"Every fact and value: claimpack {' '.join(('history', *([claim] if claim else [])))} --full")
    return 0


def _changes(book: Book, claim: str, events: Sequence[Event]) -> dict[int, tuple[Difference, ...]]:
    """What each revision of a claim that is told changed; its first one is all new."""
    from claimpack.book.lookups import versions
    from claimpack.core.claims.editing.changes import by_revision

    revisions = [event.revision for event in events]
    return by_revision(versions(book.engine, claim, min(revisions) - 1, max(revisions))) if revisions else {}


def _as_json(changes: dict[int, tuple[Difference, ...]]) -> list[dict[str, Any]]:
    return [{"revision": revision, **each._asdict()} for revision, found in changes.items() for each in found]


def _tell_short(say: Say, event: Event, *, named: bool) -> None:
    """When, who, what and why; of a long why its beginning."""
    from claimpack.commands.screen.listing import shortened

    counted = f" on {event.on}" if event.on != event.at.date() else ""
    memo = f"memo {event.facts['memo']}" if event.facts.get("memo") else ""
    said = " ".join(part for part in (event.what, event.facts.get("answer"), event.facts.get("amount"), memo) if part)
    why = event.why or event.facts.get("changed", "")
    about = f"{event.claim}  " if named else ""
    _tell_when(say, event, shortened(f"{about}{event.who}: {said}{counted}{f': {why}' if why else ''}", _LONGEST_SHORT))


def _tell(say: Say, event: Event, changed: Sequence[Difference], *, named: bool) -> None:
    """When, who and what, then why and the facts below it; values before and after in place of the changed keys."""
    _tell_head(say, event, f"{event.claim}  " if named else "")
    from claimpack.core.claims.forgetting import PROVING

    if event.why:
        say.item("·", f"because: {event.why}", indent=_INDENT)
    left_out = PROVING if event.what == "erased" else ("changed",) if changed else ()
    facts = {name: fact for name, fact in event.facts.items() if fact and name not in left_out}
    if facts:
        told = "; ".join(f"{name.replace('_', ' ')}: {fact}" for name, fact in facts.items())
        say.item("·", told, indent=_INDENT)
    for each in changed[:_MOST_CHANGES]:
        _tell_change(say, each)
    if more := more_than(changed, _MOST_CHANGES):
        say.item("·", f"{more}; all: claimpack history {event.claim} --json", indent=_INDENT)


def _tell_head(say: Say, event: Event, about: str) -> None:
    """When, who and what."""
    from claimpack.core.values.harmless import harmless

    counted = f" (counts from {event.on})" if event.on != event.at.date() else ""
    told = f"{about}{harmless(event.who)}: {event.what}{counted}, revision {event.revision}"
    _tell_when(say, event, f"{told}  {event.hash[:10]}", event.hash[:10])


def _tell_when(say: Say, event: Event, told: str, seal: str = "") -> None:
    """When, and what is told of it, ended by its seal; on a terminal too narrow for the line, the rest under it."""
    columns = say.world.columns()
    lines = wrapped(told, max(columns - _INDENT, _INDENT)) if columns else [told]
    lines[-1] = f"{lines[-1].removesuffix(seal)}{say.styled(seal, 'quiet')}"
    say.answer(f"{say.styled(f'{event.at:%Y-%m-%d %H:%M}', 'quiet')}  {lines[0]}")
    for line in lines[1:]:
        say.answer(f"{' ' * _INDENT}{line}")


def _tell_change(say: Say, difference: Difference) -> None:
    from claimpack.core.claims.editing.changes import shortened

    key, before, after = shortened(difference, _LONGEST_VALUE)
    say.item("·", f"{key}: {before or 'nothing'} -> {after or 'nothing'}", indent=_INDENT)
