"""What a warranty booklet says, in the order it says it, made into the keys of a plan."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping
from typing import Any

from claimpack.core.facts.fields import USES
from claimpack.core.values.words import is_said

MOST_PARTS = 6
"""How many groups of parts may have a time of their own."""

NOT_ASKED = (
    ("Paid less as the unit gets older", "shares"),
    ("Labour rates by class, level or date", "labour_rates"),
    ("Other handling on dearer parts", "parts_handling"),
    ("A cap for all claims of a unit", "unit_cap"),
    ("Freight, travel and other extras by kind", "extras"),
    ("Finding the fault", "diagnosis"),
    ("Deposits on cores", "core"),
    ("Days in repair that lengthen cover", "repair_time_extends"),
    ("Units in the shop's stock", "start_stock"),
    ("What a second owner has, and by when it is told", "owners"),
    ("Papers a claim must have", "papers"),
    ("What must be measured", "findings"),
    ("The part returned before it is paid", "part_returned_first"),
)
"""What a booklet may say that no question asks for, each with its key."""

Answers = Mapping[str, Any]
"""What was answered, by question; nothing of a question that was skipped."""


def slug(text: str) -> str:
    """A name as an id: small letters, digits and hyphens."""
    plain = "".join(mark for mark in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(mark))
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60].strip("-")


def part_keys(place: int) -> tuple[str, str, str, str]:
    """The questions about one group of parts: which, how long, up to how many hours, in which uses."""
    return f"parts{place}", f"parts{place}.period", f"parts{place}.hours", f"parts{place}.uses"


def windows_of(answers: Answers) -> list[dict[str, Any]]:
    """The windows that the answers give: those of the whole unit by use, or one for every use, then those of parts."""
    return [*_whole_unit(answers), *_parts(answers)]


def _whole_unit(answers: Answers) -> Iterator[dict[str, Any]]:
    spells = {use: (answers.get(use), answers.get(f"{use}.hours")) for use in USES}
    if len(set(spells.values())) == 1 and spells[USES[0]][0]:
        yield _window(answers, "unit", ["*"], spells[USES[0]], [])
        return
    for use, spell in spells.items():
        if spell[0]:
            yield _window(answers, f"unit-{use}", ["*"], spell, [use])


def _parts(answers: Answers) -> Iterator[dict[str, Any]]:
    taken: set[str] = set()
    for place in range(1, MOST_PARTS + 1):
        components, period, hours, uses = (answers.get(key) for key in part_keys(place))
        if not (components and period):
            continue
        name = "-".join([slug(components[0]), *map(slug, uses or ())])
        while name in taken:
            name = f"{name}-{place}"
        taken.add(name)
        yield _window(answers, name, components, (period, hours), uses or [])


def _window(answers: Answers, name: str, covers: list[str], spell: tuple[Any, Any], uses: list[str]) -> dict[str, Any]:
    period, hours = spell
    within, adds = answers.get("registered_within"), answers.get("registered_adds")
    registered = within and name in (answers.get("registered_for") or [name])
    said = {
        "id": name,
        "covers": covers,
        "uses": uses,
        "period": period,
        "hours": hours,
        "first_owner_only": answers.get("second_owner") is False,
        "registered_within": within if registered else None,
        "registered_adds": adds if registered else None,
        "cites": answers.get("cites"),
    }
    return _given(said)


def timed_and_left_out(answers: Answers) -> list[str]:
    """The parts that have a time of their own and are not covered at all, which is one too many."""
    timed = [word for place in range(1, MOST_PARTS + 1) for word in answers.get(part_keys(place)[0]) or ()]
    return [word for word in answers.get("excluded") or () if is_said(word, timed)]


def plan_keys(answers: Answers, id_: str) -> dict[str, Any]:
    """The keys of a plan that the answers give; what nobody answered is left out.

    Args:
        answers: the answers.
        id_: the id of the plan.
    """
    told = answers.get
    maker, unproved = told("maker") or "", told("unproved")
    return _given(
        {
            "format": 1,
            "id": id_,
            "name": told("name"),
            "maker": slug(maker),
            "maker_name": maker,
            "currency": told("currency"),
            "models": told("models"),
            "sold_from": told("sold_from"),
            "sold_until": told("sold_until"),
            "start": told("start"),
            "start_without_proof": {"from": "built", "after": unproved} if unproved else None,
            "window": windows_of(answers),
            "replaced": _replaced(told("replaced")),
            "excluded": _given({"components": told("excluded"), "defects": told("defects")}),
            "elsewhere": _elsewhere(answers),
            "requires": _requires(answers),
            "pays": _pays(answers),
            "words": {word: [] for word in told("words") or ()},
            "filing": {"within": told("filing"), "of": "repaired"} if told("filing") else None,
            "hold": {"for": told("hold"), "of": told("hold_of") or "filed"} if told("hold") else None,
        }
    )


def _replaced(said: Any) -> dict[str, Any] | None:
    if said is None:
        return None
    return {"keeps_remaining": True} if said == "rest" else {"period": said, "keeps_remaining": True}


def _elsewhere(answers: Answers) -> list[dict[str, Any]]:
    components, maker = answers.get("elsewhere"), answers.get("elsewhere_maker")
    if not (components and maker):
        return []
    return [{"components": components, "maker": maker, "because": f"warranted by {maker}"}]


def _requires(answers: Answers) -> dict[str, Any]:
    told = answers.get
    return _given(
        {
            "proof": told("proof"),
            "serial_roles": told("serial_roles"),
            "shots": told("shots"),
            "approval_above": told("approval_above"),
            "approval_components": told("approval_components"),
        }
    )


def _pays(answers: Answers) -> dict[str, Any]:
    told, deductible = answers.get, answers.get("deductible")
    return _given(
        {
            "labour_rate": told("labour_rate"),
            "claim_time": told("claim_time"),
            "parts_handling": told("handling"),
            "extras_cap": told("extras_cap"),
            "claim_cap": told("claim_cap"),
            "tax": told("tax"),
            "deductible": {"amount": deductible, "payer": "owner"} if deductible else None,
        }
    )


def _given(keys: dict[str, Any]) -> dict[str, Any]:
    """The keys that say anything; a no says something only where it is asked for."""
    return {key: value for key, value in keys.items() if value not in (None, "", [], {}) and value is not False}
