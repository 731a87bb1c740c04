"""`claimpack show`: everything about a claim on one screen."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import ClaimArgument, Json, Plans, Today
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date
    from pathlib import Path

    from claimpack.commands.desk.gather import Case
    from claimpack.commands.desk.world import World
    from claimpack.commands.screen.telling_claim import ClaimTold


def show(
    context: Context,
    claim: ClaimArgument,
    revision: Annotated[int | None, Option(min=1, metavar="N", help="As it once was.")] = None,
    toml: Annotated[bool, Option("--toml", help="Print the claim as claim.toml tells it.")] = False,
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Show a claim on one screen."""
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.desk.say import Say
    from claimpack.commands.screen.telling_claim import tell_claim

    say = Say(context.obj)
    if revision:
        told = _once(context.obj, claim, revision)
    else:
        told = _now(context.obj, gather(context.obj, claim, plans, today, only_looks=True), plans)
    if json:
        say.document(_json(told))
    elif toml:
        from claimpack.folder.claim_toml import claim_to_toml

        say.content(claim_to_toml(told.claim).encode())
    else:
        tell_claim(say, told)
    return 0


def _now(world: World, case: Case, plans: Sequence[Path] | None) -> ClaimTold:
    """A claim as it stands."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.gather import the_book
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.commands.screen.telling_claim import ClaimTold
    from claimpack.core.events.standing import Standing
    from claimpack.core.judging.claim_summary import summary_of
    from claimpack.core.payment.lost_money import lost_money
    from claimpack.core.payment.next_step import waits_for
    from claimpack.core.payment.silence import standing_as_of
    from claimpack.core.plans.terms import NOT_KNOWN
    from claimpack.core.steps.filing import unsent
    from claimpack.core.steps.listed import listed, stood
    from claimpack.core.steps.notes import notes_of

    entry, claim, assessment = case.entry, case.claim, case.assessment
    desk = Desk(world, plans=plans).shops.desk_of(entry.standing.shop) if entry else None
    terms = TermsInForce(desk, None).of_ours(claim) if desk else NOT_KNOWN
    standing = standing_as_of(entry.standing, terms, assessment.today) if entry else None
    # what went out is what lists know of it, whatever its plan says since
    summary = entry.summary if entry and entry.standing.filed else summary_of(assessment)
    as_listed = listed(claim, 0, summary, stood(standing or Standing()))
    waits = waits_for(as_listed, terms, assessment.today)
    unread = terms.unread if terms and as_listed.filed else ""
    history = the_book(world, case.shop).history(claim.number) if entry else []
    revision = entry.revision if entry else None
    lost, newer = lost_money(history), unsent(history)
    return ClaimTold(
        claim, standing, revision, assessment, waits, lost, newer, assessment.maker_name, notes_of(history), unread
    )


def _once(world: World, number: str, revision: int) -> ClaimTold:
    """A claim as it stood after one of its revisions.

    Raises:
        NotFound: there is no such claim, or no such revision.
        BadInput: the claim is a folder, which has one state only.
    """
    from claimpack.commands.desk.gather import is_folder, the_book
    from claimpack.commands.screen.telling_claim import ClaimTold
    from claimpack.core.events.fold import stand
    from claimpack.core.judging.claim_summary import maker_shown
    from claimpack.errors import BadInput

    if is_folder(world, number):
        raise BadInput(f"{number} is a claim folder", "Only the book keeps earlier revisions.", "Leave --revision out.")
    book = the_book(world)
    entry = book.get(number)
    claim = book.revision(number, revision)
    events = [event for event in book.history(number) if event.revision <= revision]
    return ClaimTold(claim, stand(events), revision, None, "", maker=maker_shown(claim, entry.summary))


def _json(told: ClaimTold) -> dict[str, Any]:
    """The claim, where it stands and its revision; amounts that follow from the standing stand beside it."""
    from claimpack.core.values.money import coins, plain

    standing = told.standing
    keys: dict[str, Any] = {
        "claim": told.claim.model_dump(mode="json"),
        "standing": standing.model_dump(mode="json", exclude=None if standing.shop else {"shop"}) if standing else None,
        "revision": told.revision,
    }
    if standing:
        sums = {name: getattr(standing, name) for name in _SUMS}
        keys["standing"] |= {name: plain(coins(amount, standing.currency)) for name, amount in sums.items()}
    if told.assessment:
        keys |= {
            "verdict": told.assessment.verdict,
            "complete": told.assessment.complete,
            "missing": [item.what.plainly() for item in told.assessment.missing if item.blocks_filing],
            "next": told.waits_for,
            "terms_unread": told.terms_unread or None,
            "notes": [
                {"on": note.on.isoformat(), "who": note.who, "text": note.text, "again": _iso(note.again)}
                for note in told.notes
            ],
            "corrected_and_not_sent": told.unsent.on.isoformat() if told.unsent else None,
        }
    return keys


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None


_SUMS = ("claimed", "paid", "outstanding", "refused_rest", "written_off", "rest_written_off")
