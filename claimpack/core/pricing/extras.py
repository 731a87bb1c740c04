"""Extras: freight, outside work, travel; what a plan pays of each kind, and of all together."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from claimpack.core.clauses.pays import ExtraTerms
from claimpack.core.facts.lines import Extra
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.lines import PricedLine, PricedPayer
from claimpack.core.values.money import ZERO, plain, rounded
from claimpack.core.values.wording.sentence import say


def extra_lines(extra: Extra, plan: Plan, payer: PricedPayer) -> list[PricedLine]:
    """The line of an extra, at its amount or by its distance; the distance that the plan does not pay is the shop's.

    Source: common practice, no source.
    """
    terms = plan.pays.terms_of_extra(extra.kind)
    # an amount that was typed goes before one that is worked out: it stands on an invoice
    if extra.amount is not None or terms is None or terms.per is None:
        return [_line(extra, extra.amount or ZERO, plan, payer)]
    count = Decimal(1) if terms.of == "visit" else extra.distance or ZERO
    line = _line(extra, count * terms.per, plan, payer)
    facts = {"distance": plain(count), "rate": plain(terms.per), "unit_word": f"distance.{terms.of}"}
    line = line._replace(quantity=count, unit_price=terms.per, notes=(say("price.by-distance", **facts),))
    if line.payer != "maker" or terms.most_distance is None:
        return [line]
    paid = rounded(min(count, terms.most_distance) * terms.per, plan.currency)
    units = f"distance.{terms.of}s"
    why = say("price.over-distance", most=plain(terms.most_distance), unit_word=units, what=extra.what)
    return line.split(paid, "shop", why)


def _line(extra: Extra, amount: Decimal, plan: Plan, payer: PricedPayer) -> PricedLine:
    amount = rounded(amount, plan.currency)
    return PricedLine(
        kind="extra", what=extra.what, unit_price=amount, amount=amount, payer=payer, group=extra.kind or ""
    )


def capped_by_kind(lines: Iterable[PricedLine], plan: Plan) -> list[PricedLine]:
    """Every extra up to the most for one of its kind, and all of a kind up to its cap, in their order.

    What a cap leaves is the shop's.

    Source: common practice, no source.
    """
    left: dict[str, Decimal] = {}
    found = []
    for line in lines:
        terms = plan.pays.terms_of_extra(line.group) if line.kind == "extra" and line.payer == "maker" else None
        if terms is None:
            found.append(line)
            continue
        # the most for one before the cap for all, for what one does not use of it the next may
        first, *over = _up_to_the_most(line, terms, plan)
        if terms.cap is not None:
            # kinds that share terms, as all others under `*`, share the cap
            room = left.get(terms.kind, rounded(terms.cap, plan.currency))
            left[terms.kind] = max(room - first.amount, ZERO)
            why = say("price.over-kind", cap=plain(terms.cap), kind_word=_said(terms), what=line.what)
            first, *more = first.split(min(room, first.amount), "shop", why)
            over += more
        found += [first, *over]
    return found


def _up_to_the_most(line: PricedLine, terms: ExtraTerms, plan: Plan) -> list[PricedLine]:
    if terms.most is None:
        return [line]
    why = say("price.over-most", most=plain(terms.most), what=line.what)
    return line.split(min(rounded(terms.most, plan.currency), line.amount), "shop", why)


def _said(terms: ExtraTerms) -> str:
    return "extra.rest" if terms.kind == "*" else f"extra.{terms.kind}"


def capped_together(lines: Iterable[PricedLine], plan: Plan) -> list[PricedLine]:
    """All extras up to the cap for them together, in their order; what it does not reach is the shop's.

    Source: common practice, no source.
    """
    cap = plan.pays.extras_cap
    if cap is None:
        return list(lines)
    left, found = rounded(cap, plan.currency), []
    for line in lines:
        if line.kind != "extra" or line.payer != "maker":
            found.append(line)
            continue
        why = say("price.over-cap", cap=plain(cap), what=line.what)
        # in the order of the claim, so that the same claim is always cut at the same line
        found += line.split(min(left, line.amount), "shop", why)
        left = max(left - line.amount, ZERO)
    return found
