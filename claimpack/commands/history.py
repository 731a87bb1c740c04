"""`claimpack history`: every change with its time, who made it, and why."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from claimpack.commands.options import Json

if TYPE_CHECKING:
    from claimpack.commands.say import Say
    from claimpack.core.events import Event

_LATEST = 50


def history(
    context: typer.Context,
    claim: Annotated[
        str,
        typer.Argument(metavar="[CLAIM]", help="The claim's number; without it, the whole book.", show_default=False),
    ] = "",
    limit: Annotated[
        int | None,
        typer.Option(
            min=0,
            metavar="N",
            help=f"Only the latest so many, 0 for all; default: all of a claim, {_LATEST} of the book.",
            show_default=False,
        ),
    ] = None,
    json: Json = False,
) -> int:
    """Every change, with time, who and why."""
    from claimpack.commands.gather import is_folder, the_book
    from claimpack.commands.say import Say
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
    say = Say(context.obj)
    if json:
        told = [event.model_dump(mode="json") | {"at": event.at.isoformat()} for event in events]
        say.document({"claim": claim or None, "events": told})
        return 0
    for event in events:
        _tell(say, event, named=not claim)
    count = book.chain_end()[0] if not claim else 0
    if count > len(events):
        say.note(f"The latest {len(events)} of {count} changes. All: claimpack history --limit 0")
    return 0


def _tell(say: Say, event: Event, *, named: bool) -> None:
    """A line of when, who and what, then why and the facts below it."""
    from claimpack.commands.say import harmless

    about = f"{event.claim}  " if named else ""
    counted = f" (counts from {event.on})" if event.on != event.at.date() else ""
    when = say.styled(f"{event.at:%Y-%m-%d %H:%M}", "quiet")
    seal = say.styled(event.hash[:10], "quiet")
    say.answer(f"{when}  {about}{harmless(event.who)}: {event.what}{counted}, revision {event.revision}  {seal}")
    if event.why:
        say.item("·", f"because: {event.why}", indent=18)
    if event.facts:
        told = "; ".join(f"{name.replace('_', ' ')}: {fact}" for name, fact in event.facts.items() if fact)
        say.item("·", told, indent=18)
