"""Words for components: which word of a plan a person most likely means by another one."""

from __future__ import annotations

import re
from collections.abc import Iterable

from claimpack.core.plan import Plan
from claimpack.core.words import folded, is_among, is_said, nearest
from claimpack.errors import BadInput

ALIKE = 0.88
"""How alike two words are that may be one word mistyped: a plural, a letter too many; not two parts of one kind."""

SPELLINGS = {
    "aluminum": "aluminium",
    "caliper": "calliper",
    "carburator": "carburettor",
    "carburetor": "carburettor",
    "carburetter": "carburettor",
    "center": "centre",
    "disk": "disc",
    "fiber": "fibre",
    "gage": "gauge",
    "gray": "grey",
    "hourmeter": "hour metre",
    "meter": "metre",
    "mold": "mould",
    "molding": "moulding",
    "plow": "plough",
    "tire": "tyre",
}
"""American and other spellings of the trade's words, each with the British one that both are compared by."""

_WHOLE = ("assembly", "assy", "complete", "kit", "set", "unit")
"""Words after a component that leave it what it is."""

_ARTICLES = ("a", "an", "the")

_REPLACE = re.compile(r"replace (.+?)(?: and .+|,.+)?", re.IGNORECASE)


def replaced_by_operations(plan: Plan) -> tuple[str, ...]:
    """What the operations of the plan's time schedule replace, as their names say it, in the schedule's order."""
    named = (_REPLACE.fullmatch(operation.name) for operation in plan.operation)
    return tuple(dict.fromkeys(match[1] for match in named if match))


def components_offered(plan: Plan) -> tuple[str, ...]:
    """The words for what failed that the plan knows: what its operations replace first, then the others by letter."""
    renewed = {folded(word): word for word in replaced_by_operations(plan)}
    others = {folded(word): word for word in plan.component_words()}
    return (*renewed.values(), *sorted(word for fold, word in others.items() if fold not in renewed))


def refuse_no_component(said: str, where: str) -> None:
    """Refuse a date or a number as what failed.

    Args:
        said: what somebody says that failed; an empty text passes.
        where: what it is called where it was written.

    Raises:
        BadInput: it has no letters.

    Source: a rule of this tool's, no source.
    """
    if said and not any(mark.isalpha() for mark in said):
        raise BadInput(
            f"{where}{said!r} is no component", "What failed is a part of the unit.", "Name it, as in ignition coil."
        )


def slip_for(word: str, plan: Plan, among: Iterable[str]) -> str | None:
    """The word that another one is most likely a slip of the pen, a plural or another spelling for.

    None where the plan knows the word as it stands.

    Source: common practice, no source.
    """
    if not word or _is_known(word, plan):
        return None
    known = list(among)
    same = next((other for other in known if "".join(_pieces(other)) == "".join(_pieces(word))), None)
    return same or nearest(word, known, ALIKE)


def kind_of(word: str, plan: Plan, among: Iterable[str]) -> str | None:
    """The component that a phrase may be one of, or may mean in short.

    A front gear case is a gear case; somebody who says coil may mean the ignition coil.

    Source: common practice, no source.
    """
    if _is_known(word, plan):
        return None
    pieces = _pieces(word)
    while len(pieces) > 1 and pieces[-1] in _WHOLE:
        pieces = pieces[:-1]
    return next((other for other in among if _one_ends_in_the_other(pieces, _pieces(other))), None)


def component_meant(word: str, plan: Plan, among: Iterable[str]) -> str | None:
    """The word of a list that a component is, is a slip for, or is one of the kind of; where asking too much is safe.

    Source: common practice, no source.
    """
    if is_among(word, known := list(among)):
        return word
    return slip_for(word, plan, known) or kind_of(word, plan, known)


def spoken_of(word: str, plan: Plan, among: Iterable[str]) -> str | None:
    """The component that stands anywhere in a phrase, word for word or mistyped, or that the phrase may mean in short.

    Source: common practice, no source.
    """
    if not word or _is_known(word, plan):
        return None
    return next((other for other in among if _stands_in(other, word) or _is_short_for(word, other)), None)


def _is_known(word: str, plan: Plan) -> bool:
    return is_said(word, (*plan.component_words(), *replaced_by_operations(plan)))


def _one_ends_in_the_other(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    fewer = min(len(one), len(other))
    return one[-fewer:] == other[-fewer:]


def _is_short_for(word: str, component: str) -> bool:
    pieces, whole = _pieces(word), _pieces(component)
    return len(pieces) < len(whole) and _one_ends_in_the_other(pieces, whole)


def _stands_in(component: str, phrase: str) -> bool:
    wanted, pieces = _pieces(component), _pieces(phrase)
    runs = (pieces[first : first + len(wanted)] for first in range(len(pieces) - len(wanted) + 1))
    sought = " ".join(wanted)
    return any(nearest(" ".join(run), [sought], ALIKE) for run in runs)


def _pieces(phrase: str) -> tuple[str, ...]:
    """The words of a phrase without articles, in the singular and in one spelling."""
    ones = (_singular(word) for word in folded(phrase).split() if word not in _ARTICLES)
    return tuple(" ".join(SPELLINGS.get(one, one) for one in ones).split())


def _singular(word: str) -> str:
    if word.endswith(("sses", "xes", "zes", "ches", "shes")):
        return word.removesuffix("es")
    if word.endswith(("ies", "ie")) and len(word) > len("series"):
        return re.sub("ies?$", "y", word)
    return word if word.endswith("ss") else word.removesuffix("s")
