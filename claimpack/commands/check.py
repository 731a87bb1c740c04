"""`claimpack check`: the verdict with every reason, the amounts, what is missing, the dates to keep."""

from __future__ import annotations

import typer

from claimpack.commands.options import ClaimArgument, Json, Plans, Today


def check(
    context: typer.Context, claim: ClaimArgument, plans: Plans = None, today: Today = "", json: Json = False
) -> int:
    """Judge a claim, price it, name what is missing."""
    from claimpack.commands.gather import gather
    from claimpack.commands.say import Say
    from claimpack.commands.telling import note_no_plan, tell
    from claimpack.core.assessment import as_json
    from claimpack.core.following import filed_otherwise

    case = gather(context.obj, claim, plans, today)
    say = Say(context.obj)
    if json:
        say.document(as_json(case.assessment))
    else:
        tell(say, case.assessment)
        note_no_plan(say, case.assessment)
        amounts = case.assessment.amounts
        standing = case.entry.standing if case.entry else None
        other = filed_otherwise(standing, case.claim.number, amounts.claimed) if standing and amounts else ""
        if other:
            say.note(other)
        for file in case.unlisted:
            say.note(f"{file} is in the photos folder, but the claim does not list it.")
    return case.assessment.exit_code
