"""What a warranty booklet says, in the order it says it, made into the keys of a plan."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from claimpack.core.clauses.window import PARTS_FITTED, PARTS_SOLD
from claimpack.core.drafting.booklet.cover_answers import Limits
from claimpack.core.facts.fields import USES
from claimpack.core.facts.unit import HOURS
from claimpack.core.values.words import is_said

MOST_PARTS = 6
"""How many groups of parts may have a time of their own."""

OF_PARTS = ("parts-sold", "parts-fitted")
"""The ids of the windows of parts sold."""

NOT_ASKED = (
    ("The maker's time schedule, job by job", "operation"),
    ("Kits, which have other parts in them", "kit"),
    ("What a group of parts leaves out", "except"),
    ("Parts that the service schedule renews", "scheduled"),
    ("Cover that starts on the earliest or latest of several days", "start"),
    ("Statutory coverage", "statutes"),
    ("What a seller owes by law", "owed_by"),
    ("Campaigns", "campaign"),
)
"""What a booklet may say that no question asks for, each with its key."""

Answers = Mapping[str, Any]
"""What was answered, by question; nothing of a question that was skipped."""


def slug(text: str) -> str:
    """A name as an id: small letters, digits and hyphens."""
    plain = "".join(mark for mark in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(mark))
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60].strip("-")


class PartKeys(NamedTuple):
    """The questions about one group of parts: which, how long, to which reading, in which uses, whether that is all."""

    parts: str
    period: str
    hours: str
    uses: str
    alone: str


def part_keys(place: int) -> PartKeys:
    """The questions about the group of parts at a place, from 1."""
    own = f"parts{place}"
    return PartKeys(own, f"{own}.period", f"{own}.hours", f"{own}.uses", f"{own}.alone")


def windows_of(answers: Answers) -> list[dict[str, Any]]:
    """The windows that the answers give: the whole unit's, by use or for every use; groups of parts'; parts sold."""
    return [*_whole_unit(answers), *_parts(answers), *_parts_sold(answers)]


def _whole_unit(answers: Answers) -> Iterator[dict[str, Any]]:
    spells = {use: (answers.get(use), answers.get(f"{use}.hours"), tuple(_left_out(answers, use))) for use in USES}
    # one period for every use is one window, as a booklet would print it
    if len(set(spells.values())) == 1 and spells[USES[0]][0]:
        *spell, out = spells[USES[0]]
        yield _leaving_out(out, _window(answers, "unit", ["*"], spell, []))
        return
    for use, (*spell, out) in spells.items():
        if spell[0]:
            yield _leaving_out(out, _window(answers, f"unit-{use}", ["*"], spell, [use]))


def _left_out(answers: Answers, use: str) -> Iterator[str]:
    """The parts that have no cover but their own where a unit is used so."""
    for place in range(1, MOST_PARTS + 1):
        keys = part_keys(place)
        uses = answers.get(keys.uses)
        if answers.get(keys.alone) and answers.get(keys.period) and (not uses or is_said(use, uses)):
            yield from answers.get(keys.parts) or ()


def _leaving_out(components: Sequence[str], window: dict[str, Any]) -> dict[str, Any]:
    return {**window, "except": list(components)} if components else window


def _parts(answers: Answers) -> Iterator[dict[str, Any]]:
    taken: set[str] = set()
    for place in range(1, MOST_PARTS + 1):
        components, period, limits, uses, _ = (answers.get(key) for key in part_keys(place))
        if not (components and period):
            continue
        first = "-".join([slug(components[0]), *map(slug, uses or ())])
        # two groups of parts may begin with the same part
        names = (f"{first}{f'-{place}' * times}" for times in range(place))
        name = next(name for name in names if name not in taken)
        taken.add(name)
        yield _window(answers, name, components, (period, limits), uses or [])


def _parts_sold(answers: Answers) -> Iterator[dict[str, Any]]:
    """The windows of parts that a shop sold over the counter, or fitted, with a receipt of their own."""
    for key, covers in (("counter_part", PARTS_SOLD), ("fitted_part", PARTS_FITTED)):
        if answers.get(key):
            pays = None if answers.get("parts_sold_labour") else ["parts"]
            said = {"id": slug(covers), "covers": [covers], "period": answers[key], "pays": pays}
            yield _given({**said, "cites": answers.get("cites")})


def _window(answers: Answers, name: str, covers: list[str], spell: Sequence[Any], uses: list[str]) -> dict[str, Any]:
    period, limits = spell
    limits = limits or Limits()
    within, adds = answers.get("registered_within"), answers.get("registered_adds")
    registered = within and name in (answers.get("registered_for") or [name])
    said = {
        "id": name,
        "covers": covers,
        "uses": uses,
        "period": period,
        "hours": next((at for meter, at in limits.readings if meter == HOURS), None),
        "limits": [{"meter": meter, "at": at} for meter, at in limits.readings if meter != HOURS],
        "whichever": "last" if limits.whichever == "last" else None,
        "first_owner_only": answers.get("second_owner") is False,
        "owners": _owners(answers),
        "repair_adds": answers.get("repair_adds"),
        **_paid(answers, name),
        "registered_within": within if registered else None,
        "registered_adds": adds if registered else None,
        "cites": answers.get("cites"),
    }
    return _given(said)


def _paid(answers: Answers, name: str) -> dict[str, Any]:
    """How much of which lines a window pays, and who pays the rest; nothing where it pays all of every line."""
    shares, pays = (
        answers.get(what) if name in (answers.get(f"{what}_for") or [name]) else None for what in ("shares", "pays")
    )
    return {
        "shares": shares,
        "pays": pays,
        "rest": "shop" if (shares or pays) and answers.get("rest") == "shop" else None,
    }


def _owners(answers: Answers) -> dict[str, Any]:
    """What a second owner has; nothing where every owner has the same."""
    if not answers.get("second_owner"):
        return {}
    told = {"transfer_within": "transfer_within", "fee": "transfer_fee", "then": "second_owner_period"}
    return _given({key: answers.get(question) for key, question in told.items()})


def timed_and_left_out(answers: Answers) -> list[str]:
    """The parts that have a time of their own and are not covered at all, which is one too many."""
    timed = [word for place in range(1, MOST_PARTS + 1) for word in answers.get(part_keys(place).parts) or ()]
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
            "model_years": told("model_years"),
            "serials": told("serials"),
            "sold_until": told("sold_until"),
            "start": told("start"),
            "start_stock": told("start_stock"),
            "repair_time_extends": _repair_time(answers),
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


def _repair_time(answers: Answers) -> Any:
    within = answers.get("unmended")
    if within:
        return {"by": "calendar", "unmended_within": within}
    return "calendar" if answers.get("repair_time") else None


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
            "papers": told("papers"),
            "findings": told("findings"),
            "part_returned_first": told("part_returned_first"),
            "approval_above": told("approval_above"),
            "approval_components": told("approval_components"),
        }
    )


def _pays(answers: Answers) -> dict[str, Any]:
    told, deductible = answers.get, answers.get("deductible")
    return _given(
        {
            "labour_rate": told("labour_rate"),
            "labour_rates": told("labour_rates"),
            "claim_time": told("claim_time"),
            "parts_handling": told("handling"),
            "handling_on_supplied": told("handling_on_supplied"),
            "extras": _extras(answers),
            "extras_cap": told("extras_cap"),
            "diagnosis": _diagnosis(answers),
            "core": "claimed" if told("core") else None,
            "claim_cap": told("claim_cap"),
            "unit_cap": told("unit_cap"),
            "claim_least": told("claim_least"),
            "tax": told("tax"),
            "deductible": {"amount": deductible, "payer": "owner"} if deductible else None,
        }
    )


def _extras(answers: Answers) -> list[dict[str, Any]]:
    """The extras by kind, what travel is paid beside its cap."""
    capped, travel = answers.get("extras") or [], answers.get("travel")
    if not travel:
        return list(capped)
    of_travel: dict[str, Any] = next((one for one in capped if one["kind"] == "travel"), {})
    return [*(one for one in capped if one["kind"] != "travel"), {**of_travel, **travel}]


def _diagnosis(answers: Answers) -> dict[str, Any] | None:
    operation, hours = answers.get("diagnosis_operation"), answers.get("diagnosis")
    if not operation or hours is None:
        return None
    return _given({"operation": operation, "hours": hours, "else": answers.get("diagnosis_else")})


def _given(keys: dict[str, Any]) -> dict[str, Any]:
    """The keys that say anything; a no says something only where it is asked for."""
    return {key: value for key, value in keys.items() if value not in (None, "", [], {}) and value is not False}
