"""What to do next with a claim, so that whoever has just recorded a step need not look it up."""

from __future__ import annotations

from claimpack.core.assessment import Assessment
from claimpack.core.money import in_money
from claimpack.core.states import Standing


def what_next(number: str, standing: Standing) -> tuple[str, ...]:
    """What to do next with a claim, a sentence each; empty where nothing is left.

    Source: common practice, no source.
    """
    if standing.state == "draft":
        return (f"It is a draft again; file it with: claimpack file {number}",)
    if standing.state == "questioned":
        return (f"Answer the maker, correct the claim where it asks, and send it in again: claimpack file {number}",)
    if standing.state == "refused":
        return (_after_refusal(number, standing),)
    if standing.state == "filed":
        return (f"When the maker answers: claimpack answer {number} accepted|part|refused|questioned --on DATE",)
    waited_for = (_of_the_money(number, standing),) if standing.state == "accepted" else ()
    return (*waited_for, *of_the_rest(number, standing))


def before_the_work(assessment: Assessment) -> tuple[str, ...]:
    """What comes before any other step: the maker's approval where it is lacking; empty where it is not.

    Source: repairing first loses the claim: common practice, no source.
    """
    lacking, number = assessment.approval_wanted, assessment.claim.number
    if lacking is None:
        return ()
    late = assessment.claim.dates.repaired is not None
    first = "Before it is filed" if late else "First, before the repair"
    said = f"{first}: {lacking.what}. {lacking.why}"
    return (said, f"Ask the maker; its number goes in with: claimpack set {number} approval.number NUMBER")


def _after_refusal(number: str, standing: Standing) -> str:
    again = f"put it right and send it in again: claimpack file {number}"
    if standing.refused_for_form:
        return f"Only form was wrong; {again}"
    return f"If the maker is mistaken, {again}; else give it up: claimpack write-off {number} --because TEXT"


def _of_the_money(number: str, standing: Standing) -> str:
    if not standing.payments:
        return f"When the money comes: claimpack pay {number} AMOUNT --on DATE"
    short = f"{in_money(standing.outstanding, standing.currency)} is still to come"
    return f"{short}; chase it, or give it up: claimpack write-off {number} --because TEXT"


def of_the_rest(number: str, standing: Standing) -> tuple[str, ...]:
    """What may become of what the maker refused of a claim it accepted in part; empty where nothing is refused.

    Source: common practice, no source.
    """
    if not standing.refused_rest:
        return ()
    rest = in_money(standing.refused_rest, standing.currency)
    alone = " --rest" if standing.outstanding else ""
    said = (
        f"{rest} was not accepted. The maker gives in: claimpack answer {number} accepted, or part --amount MORE; "
        f"put right and sent again: claimpack file {number}; "
        f"let go: claimpack write-off {number}{alone} --because TEXT"
    )
    return (said,)


def of_earlier_money(before: Standing, after: Standing) -> tuple[str, ...]:
    """What became of money when a claim was filed again; empty where it had brought none.

    Args:
        before: where it stood before it was filed again.
        after: where it stands now.

    Source: a rule of this tool's, no source.
    """
    said = []
    if after.paid > 0:
        paid, still = (in_money(amount, after.currency) for amount in (after.paid, after.outstanding))
        said.append(f"{paid} was paid for it before and counts; {still} is outstanding now.")
    if before.state == "accepted" and before.outstanding:
        said.append(
            f"{in_money(before.outstanding, before.currency)} that the maker had accepted is waited for with the rest."
        )
    return tuple(said)
