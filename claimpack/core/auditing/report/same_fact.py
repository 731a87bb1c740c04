"""One fact told once: what several rules found about the same claims is one finding."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from claimpack.core.auditing.audited import Irregularity

ONE_FACT = (
    (
        "unit-claimed-twice",
        "part-claimed-twice",
        "part-serial-twice",
        "replaced-part-again",
        "serials-look-alike",
        "refused-filed-anew",
        "job-split",
        "unit-of-two-models",
        "number-in-two-units",
        "same-paper",
    ),
    ("same-picture", "alike-pictures"),
    ("picture-before-unit", "picture-long-before", "picture-before-failure"),
    ("same-words-and-figures", "same-figures"),
    ("part-over-list", "part-dearer-than-usual"),
    ("scrapped-early", "not-sent-back", "released-unheard", "held-part-missing"),
    ("owner-is-staff", "owner-at-the-shop"),
    ("filed-over-block", "filed-late"),
)
"""Rules that come upon one fact by different ways; the first that found it tells it."""

_FACT_OF = {rule: rules for rules in ONE_FACT for rule in rules}


def told_once(found: Iterable[Irregularity]) -> list[Irregularity]:
    """Findings in their order, those of different rules about one fact of the same claims as one.

    What the others said is told with the evidence, under their rule; the heavier weight counts.
    """
    kept: list[Irregularity] = []
    place_of: dict[object, int] = {}
    for each in found:
        rules = _FACT_OF.get(each.rule)
        place = place_of.get((rules, each.claims)) if rules else None
        # what one rule found twice is two things, and both are told
        if place is None or each.rule in (kept[place].rule, *kept[place].also):
            if rules and place is None:
                place_of[rules, each.claims] = len(kept)
            kept.append(each)
            continue
        first = kept[place]
        # found in order of weight, so the first that is kept is the heaviest
        kept[place] = first._replace(parts=(*(first.parts or (first,)), each))
    return kept


def same_fact(rules: Iterable[str]) -> set[str]:
    """Rules, and those that come upon a fact of theirs by another way."""
    return {other for rule in rules for other in (rule, *_FACT_OF.get(rule, ()))}


def told_by(found: Irregularity, rules: Collection[str]) -> list[Irregularity]:
    """What some of the rules that found one fact say of it, as one finding; nothing where none of them found it."""
    return told_once(part for part in found.parts or (found,) if part.rule in rules)
