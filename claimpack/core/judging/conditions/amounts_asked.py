"""What must be said so that a claim is paid as the plan pays it: of extras, and of what a unit was paid before."""

from __future__ import annotations

from claimpack.core.facts.lines import Extra
from claimpack.core.judging.conditions.missing_items import ClaimFacts, MissingItem, MissingItemRule
from claimpack.core.pricing.unit_cap import paid_before
from claimpack.core.values.money import plain
from claimpack.core.values.wording.sentence import say


def extra_kinds(facts: ClaimFacts) -> list[MissingItem]:
    """A kind for every extra the maker is to pay, where the plan pays some kinds otherwise than others.

    Source: common practice, no source.
    """
    # terms for `*` alone treat every kind alike, so that the kind makes no difference to what is paid
    kinds = [terms.kind for terms in facts.plan.pays.extras if terms.kind != "*"]
    if not kinds:
        return []
    why = say("why.extra-kind", kinds=", ".join(kinds))
    return [
        MissingItem(say("missing.extra-kind", what=extra.what), why) for extra in _of_maker(facts) if not extra.kind
    ]


def extra_distances(facts: ClaimFacts) -> list[MissingItem]:
    """A distance for every visit, where the plan pays by distance; an amount for every visit, where it does not.

    Source: common practice, no source.
    """
    terms = facts.plan.pays.terms_of_extra("travel")
    visits = [extra for extra in _of_maker(facts) if extra.kind == "travel"]
    if terms is None or terms.per is None:
        without = [extra for extra in visits if extra.amount is None]
        return [MissingItem(say("missing.extra-rate", what=extra.what), say("why.extra-rate")) for extra in without]
    # a visit counts one, however far it was
    if terms.of == "visit":
        return []
    why = say("why.extra-distance", rate=plain(terms.per), unit_word=f"distance.{terms.of}")
    return [
        MissingItem(say("missing.extra-distance", what=visit.what), why) for visit in visits if visit.distance is None
    ]


def extra_approvals(facts: ClaimFacts) -> list[MissingItem]:
    """The number under which the maker approved an extra, where the plan asks for one.

    Source: common practice, no source.
    """
    found = []
    for extra in _of_maker(facts):
        terms = facts.plan.pays.terms_of_extra(extra.kind)
        if terms and terms.approval and extra.kind and not extra.approval:
            why = say("why.extra-approval", kind_word=f"extra.{extra.kind}")
            found.append(MissingItem(say("missing.extra-approval", what=extra.what), why))
    return found


def _of_maker(facts: ClaimFacts) -> list[Extra]:
    extras = facts.claim.extras
    return [extra for extra in extras if extra.payer == "maker" and extra.failure not in facts.closed]


def paid_for_the_unit(facts: ClaimFacts) -> list[MissingItem]:
    """What the maker paid for earlier repairs of the unit, where it pays up to a cap for one unit.

    Source: common practice, no source.
    """
    cap = facts.plan.pays.unit_cap
    if cap is None:
        return []
    before, amount = paid_before(facts.claim, facts.plan, facts.starts), plain(cap.amount)
    found = []
    for repair in before.not_said:
        place = facts.claim.earlier.index(repair) + 1
        why = say("why.unit-cap", cap=amount, claim=facts.claim.number, place=place)
        found.append(MissingItem(say("missing.paid-before", component=repair.component, repaired=repair.repaired), why))
    if before.year_open:
        found.append(MissingItem(say("missing.cover-start"), say("why.unit-cap-year", cap=amount)))
    # nobody says that there were no earlier repairs; often there were none, so that it does not block
    if not facts.claim.earlier:
        none = say("why.unit-cap-any", cap=amount)
        found.append(MissingItem(say("missing.paid-before-any"), none, blocks_filing=False))
    return found


AMOUNT_RULES: tuple[MissingItemRule, ...] = (extra_kinds, extra_distances, extra_approvals, paid_for_the_unit)
"""Every rule about amounts, in the order it is told."""
