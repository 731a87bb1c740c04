"""A part as a maker's parts list has it, and what of it goes on a claim."""

from __future__ import annotations

from decimal import Decimal
from typing import Any, NamedTuple

from claimpack.core.facts.lines import Part
from claimpack.core.values.money import plain
from claimpack.core.values.words import folded


class PartsListRow(NamedTuple):
    """A row of a parts list: where it stands, and what it says; None where it says nothing."""

    where: str
    number: str
    name: str = ""
    cost: Decimal | None = None
    list_price: Decimal | None = None
    core: Decimal | None = None


def filled_in(keys: dict[str, Any], listed: PartsListRow | None) -> dict[str, Any]:
    """The keys of a part with name, cost, list price and core from the list, where they were not given.

    A part that the maker sent has no cost. What the list says is taken once: a claim keeps what it was opened with.
    """
    if listed is None:
        return keys
    from_list: dict[str, Any] = {
        "number": listed.number,
        "name": listed.name,
        "list_price": listed.list_price,
        "core": listed.core,
    }
    if keys.get("source") != "maker":
        from_list["unit_cost"] = listed.cost
    known = {key: value for key, value in from_list.items() if value not in (None, "")}
    return known | {key: value for key, value in keys.items() if value not in (None, "")}


def differs(used: Part, listed: PartsListRow | None) -> str:
    """What the list says otherwise of a part, in a sentence; empty where it says the same, or nothing."""
    if listed is None:
        return ""
    said = []
    if listed.name and folded(used.name) != folded(listed.name):
        said.append(f"as {listed.name!r}")
    if listed.cost is not None and used.source == "stock" and used.unit_cost != listed.cost:
        said.append(f"at {plain(listed.cost)}")
    return f"The list has {used.number} {' '.join(said)} ({listed.where}); the claim keeps yours." if said else ""
