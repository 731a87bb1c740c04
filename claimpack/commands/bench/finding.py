"""`claimpack finding`: what was measured, beside its limits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import BookClaim, Json
from claimpack.commands.line.declared import Argument, Context, Family, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.core.facts.failure import Finding

finding_app = Family(help="Write down what was measured.")
"""The commands about findings."""

_NAMED = {"what": "WHAT", "value": "VALUE", "unit": "UNIT", "low": "--low", "high": "--high"}


# A reading below zero begins with a dash, and is no option.
@finding_app.command("add", takes_any_dash=True)
def add_finding(
    context: Context,
    claim: BookClaim,
    what: Annotated[str, Argument(metavar="WHAT", help="What was measured, as in compression.")],
    value: Annotated[str, Argument(metavar="VALUE", help="The reading.")],
    unit: Annotated[str, Argument(metavar="UNIT", help="As in psi.")] = "",
    low: Annotated[str, Option(metavar="LIMIT", help="The least that the maker allows.")] = "",
    high: Annotated[str, Option(metavar="LIMIT", help="The most that the maker allows.")] = "",
    json: Json = False,
) -> int:
    """Add a measured value, and say whether it is within limits."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.measurements import against_limits, refuse_commas
    from claimpack.core.facts.failure import Finding
    from claimpack.core.facts.keys import record_from

    keys = {"what": what, "value": value, "unit": unit, "low": low, "high": high}
    # 1,200 is above a thousand or above one, and nobody could tell later
    refuse_commas([(f"finding add: {_NAMED[key]}", keys[key]) for key in ("value", "low", "high")])
    _must_be_limits(low, high)
    found = record_from(Finding, keys, "finding add", _NAMED)
    with Desk(context.obj).changing(number_of(claim)) as changing:
        findings = (*changing.claim.findings, found)
        reads = f"{found.what} {found.value} {found.unit}".strip()
        changing.keep(changing.claim.model_copy(update={"findings": findings}), why=f"finding {reads}")
    say = Say(context.obj)
    if json:
        say.document({"claim": claim, **_as_json(len(findings), found)})
        return 0
    _tell(say, len(findings), found)
    if against_limits(found) is None and (found.low or found.high):
        say.note(f"To correct it: claimpack set {claim} 'findings[{len(findings)}].value' VALUE")
    if not found.low and not found.high:
        say.note("No limits were given; the maker's manual has them: --low LIMIT --high LIMIT")
    return 0


@finding_app.command("list")
def list_findings(context: Context, claim: BookClaim, json: Json = False) -> int:
    """List what was measured, with its limits."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say

    say = Say(context.obj)
    findings = Desk(context.obj).book.get(number_of(claim)).claim.findings
    if json:
        say.document({"claim": claim, "findings": [_as_json(n, found) for n, found in enumerate(findings, start=1)]})
        return 0
    for place, found in enumerate(findings, start=1):
        _tell(say, place, found)
    if not findings:
        say.note(f"Nothing was measured yet: claimpack finding add {claim} WHAT VALUE [UNIT]")
    return 0


@finding_app.command("remove")
def remove_finding(
    context: Context,
    claim: BookClaim,
    place: Annotated[int, Argument(metavar="N", help="Which one, as listed.")],
    json: Json = False,
) -> int:
    """Take a finding off a claim."""
    from claimpack.commands.desk.one_claim import take_off
    from claimpack.commands.desk.say import Say

    found = take_off(context.obj, claim, place, "findings", "what")
    say = Say(context.obj)
    if json:
        say.document({"claim": claim, "removed": _as_json(place, found)})
    else:
        say.answer(f"{claim}: {found.what} {found.value} {found.unit}".rstrip() + " removed")
    return 0


def _must_be_limits(low: str, high: str) -> None:
    from claimpack.core.claims.measurements import number_in
    from claimpack.errors import BadInput

    least, most = number_in(low), number_in(high)
    if least is not None and most is not None and least > most:
        raise BadInput(
            f"--low {low} is above --high {high}",
            "No reading could be within such limits.",
            "Swap them, or correct the one that is wrong.",
        )


def _tell(say: Say, place: int, found: Finding) -> None:
    from claimpack.core.claims.measurements import against_limits, limits_in_words

    stands = against_limits(found)
    limits = limits_in_words(found)
    words = {"within": "within limits", "below": "OUT OF LIMITS, too low", "above": "OUT OF LIMITS, too high"}
    told = words[stands] if stands else "cannot be compared with its limits" if limits else "no limits given"
    # out of limits is what a claim is about, and still marked as it measured
    mark = say.mark({"within": "pass", None: "unknown"}.get(stands, "fail"))
    reads = f"{found.what} {found.value} {found.unit}".rstrip()
    say.item(mark, f"{place}  {reads}: {told}{f' ({limits})' if limits else ''}", indent=0)


def _as_json(place: int, found: Finding) -> dict[str, Any]:
    from claimpack.core.claims.measurements import against_limits

    stands = against_limits(found)
    within = None if stands is None else stands == "within"
    return {"n": place, **found.model_dump(mode="json"), "within": within, "standing": stands}
