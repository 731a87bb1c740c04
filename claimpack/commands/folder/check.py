"""`claimpack check`: the verdict with every reason, the amounts, what is missing, the dates to keep."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import ClaimArgument, Json, Plans, Today
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.gather import Case
    from claimpack.commands.desk.world import World
    from claimpack.core.clauses.picture_doubts import PictureDoubt


def check(
    context: Context,
    claim: ClaimArgument,
    why: Annotated[bool, Option("--why", help="Also say why a window does not apply.")] = False,
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Judge a claim, price it, name what is missing."""
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.desk.say import Say
    from claimpack.commands.screen.telling import note_elsewhere, note_no_plan, tell

    case = gather(context.obj, claim, plans, today, only_looks=True)
    say = Say(context.obj)
    # Once the repair is done there is little left to take again, and looking at every picture takes its time.
    pictures = [] if case.claim.dates.repaired else _pictures_doubted(case)
    if json:
        from claimpack.core.judging.assessment_json import as_json

        doubted = [{"file": file, **doubt._asdict()} for file, doubt in pictures]
        say.document({**as_json(case.assessment), "pictures": None if case.claim.dates.repaired else doubted})
    else:
        tell(say, case.assessment, case.assessment.maker_name, named=str(claim), why=why)
        note_no_plan(say, case.assessment)
        if case.entry:
            note_elsewhere(say, case.assessment)
        unsent = _unsent(context.obj, case)
        other = _filed_otherwise(case)
        for told in (f"Corrected {unsent}" if unsent else "", other):
            if told:
                say.note(told)
        for file, doubt in pictures:
            say.note(doubt.said(file))
        for file in case.unlisted:
            say.note(f"{file} is in the photos folder, but the claim does not list it.")
    return case.assessment.exit_code


def _pictures_doubted(case: Case) -> list[tuple[str, PictureDoubt]]:
    """What to look at again in the pictures of a claim, with the name of each."""
    from claimpack.commands.pictures.photo_filing import picture_notes

    return picture_notes(case)


def _filed_otherwise(case: Case) -> str:
    """That the maker has another amount than the claim comes to now; empty where it has this one, or none."""
    amounts = case.assessment.amounts
    if case.entry is None or amounts is None:
        return ""
    from claimpack.core.events.transitions import filed_otherwise

    return filed_otherwise(case.entry.standing, case.claim.number, amounts.claimed)


def _unsent(world: World, case: Case) -> str:
    """When the claim was corrected after the maker got it; empty where the maker has this version, or none."""
    if case.entry is None or case.entry.standing.filed is None:
        return ""
    from claimpack.commands.desk.gather import the_book
    from claimpack.core.steps.filing import unsent

    found = unsent(the_book(world, case.shop).history(case.claim.number))
    return found.told(case.claim.number) if found else ""
