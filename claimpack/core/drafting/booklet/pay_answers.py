"""Answers about money and evidence that say several things at once: handling, rates, extras, travel, papers, findings.

Each is read only where it can be read one way, and raises a ValueError with an example where it cannot.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from claimpack.core.drafting.booklet.pieces import Amount, matched, pieces
from claimpack.core.values.money import percent, plain
from claimpack.core.values.typed.periods import list_written, percent_written

BANDS = "20 %; or: 30 % up to 50.00, 20 % up to 500.00, 10 % above"


def handling_read(typed: str, amount: Amount) -> Any:
    """What is added to parts: one share of their cost, or bands of it by the cost of one."""
    bands: list[dict[str, Decimal]] = []
    for piece in pieces(typed):
        band = matched(r"([\d.,]+\s*%?)\s*(?:(?:up )?to\s+(\S+)|above|over that|beyond)?", piece, BANDS)
        limit = {"up_to": amount(band[2])} if band[2] else {}
        bands.append({**limit, "rate": percent_written(band[1])})
    return bands[0]["rate"] if len(bands) == 1 and "up_to" not in bands[0] else bands


def handling_said(handling: Any) -> str:
    """Handling as a person says it."""
    if isinstance(handling, Decimal):
        return f"{percent(handling)} %"
    return ", ".join(
        f"{percent(band['rate'])} % {'up to ' + plain(band['up_to']) if 'up_to' in band else 'above'}"
        for band in handling
    )


RATES = "engine 98.00; level gold 102.00; from 2026-07-01 95.00"


def rates_read(typed: str, amount: Amount) -> list[dict[str, Any]]:
    """Rates of an hour for a class of work, a dealer's level, days from one on."""
    found = []
    for piece in pieces(typed):
        read = matched(
            r"(?:level (?P<level>\S+)\s+)?(?:from (?P<from>\d{4}-\d\d-\d\d)\s+)?(?P<class>.*?)\s*(?P<rate>\S*\d\S*)",
            piece,
            RATES,
        )
        told = {name: read[name].strip() for name in ("class", "level", "from") if read[name]}
        if not told:
            raise ValueError(f"{piece!r}: for which work, level or day? Write as in: {RATES}")
        found.append({**told, "rate": amount(read["rate"])})
    return found


def rates_said(rates: list[dict[str, Any]]) -> str:
    """Rates as a person says them."""
    words = {"class": "{} work", "level": "level {}", "from": "from {} on"}
    return "; ".join(
        f"{', '.join(said.format(rate[name]) for name, said in words.items() if name in rate)}: {plain(rate['rate'])}"
        for rate in rates
    )


EXTRAS = "freight 50.00, outside work 200.00 with approval"
_KINDS = {"outside work": "sublet", "sublet": "sublet", "freight": "freight", "shipping": "freight"} | {
    kind: kind for kind in ("travel", "disposal", "other")
}


def extras_read(typed: str, amount: Amount) -> list[dict[str, Any]]:
    """The most for each kind of extra on a claim, and whether the maker wants to approve it before."""
    found = []
    for piece in pieces(typed):
        read = matched(rf"({'|'.join(_KINDS)})\s+(\S*\d\S*)(\s+with approval)?", piece, EXTRAS)
        asked = {"approval": True} if read[3] else {}
        found.append({"kind": _KINDS[read[1].casefold()], "cap": amount(read[2]), **asked})
    return found


def extras_said(extras: list[dict[str, Any]]) -> str:
    """Caps by kind as a person says them."""
    words = {"sublet": "outside work"}
    asked = " with approval"
    return ", ".join(
        f"{words.get(one['kind'], one['kind'])} {plain(one['cap'])}{asked if 'approval' in one else ''}"
        for one in extras
    )


TRAVEL = "0.65 a mile, up to 100 miles; or: 0.40 a km, at most 65.00; or: 40.00 a visit"


def travel_read(typed: str, amount: Amount) -> dict[str, Any]:
    """What is paid of travel: for a mile, a kilometre or a visit, and the most of one visit."""
    first, *others = pieces(typed)
    read = matched(r"(\S*\d\S*)\s*(?:a|an|per|each|/)\s*(mile|km|kilomet(?:er|re)|visit|trip)", first, TRAVEL)
    of = {"m": "mile", "k": "km"}.get(read[2][0].casefold(), "visit")
    told: dict[str, Any] = {"kind": "travel", "per": amount(read[1]), "of": of}
    for piece in others:
        most = matched(r"(?:up to|at most)\s+(\S*\d\S*)\s*(miles?|km|kilomet(?:er|re)s?)?", piece, TRAVEL)
        told["most_distance" if most[2] else "most"] = amount(most[1])
    return told


def travel_said(travel: dict[str, Any]) -> str:
    """Travel as a person says it."""
    units = {"mile": "miles"}.get(travel["of"], travel["of"])
    far = f", up to {plain(travel['most_distance'])} {units}" if "most_distance" in travel else ""
    most = f", at most {plain(travel['most'])} a visit" if "most" in travel else ""
    return f"{plain(travel['per'])} a {travel['of']}{far}{most}"


UNIT_CAP = "1200.00; or: 600.00 a year"


def unit_cap_read(typed: str, amount: Amount) -> dict[str, Any]:
    """The most for all claims of a unit, in its life or in each year of cover."""
    read = matched(r"(\S*\d\S*)(?:\s*(?:a|per|each|in a|in its)\s*(year|life))?", " ".join(typed.split()), UNIT_CAP)
    return {"amount": amount(read[1]), "per": (read[2] or "life").casefold()}


def unit_cap_said(cap: dict[str, Any]) -> str:
    """It as a person says it."""
    return f"{plain(cap['amount'])} {'in each year of cover' if cap['per'] == 'year' else 'in all'}"


PAPERS = "maintenance record for engine; service invoice"


def papers_read(typed: str, _amount: Amount) -> list[dict[str, Any]]:
    """Papers a claim must have, each perhaps where some components failed alone."""
    # only a semicolon parts papers: the components of one stand with commas between
    each = (re.split(r"\s+for\s+", piece, maxsplit=1) for piece in pieces(typed, r"[;\n]"))
    return [{"kind": kind, **({"components": list_written(where[0])} if where else {})} for kind, *where in each]


def papers_said(papers: list[dict[str, Any]]) -> str:
    """Papers as a person says them."""
    return "; ".join(f"{one['kind']}{_where(one)}" for one in papers)


FINDINGS = "compression; or: capacity 70 % or less for battery"


def findings_read(typed: str, _amount: Amount) -> list[dict[str, Any]]:
    """What must be measured; with a limit, what counts as failed by it alone."""
    found = []
    for piece in pieces(typed, r"[;\n]"):
        read = matched(
            r"(?P<what>[^\d]+?)(?:\s+(?P<value>\d+(?:\.\d+)?)\s*(?P<unit>\S+)?\s+or (?P<bound>less|more))?"
            r"(?:\s+for\s+(?P<where>[^\d]+))?",
            piece,
            FINDINGS,
        )
        bound = {"less": "at_most", "more": "at_least"}.get((read["bound"] or "").casefold())
        limit = {"unit": read["unit"] or "", bound: Decimal(read["value"])} if bound else {}
        where = {"components": list_written(read["where"])} if read["where"] else {}
        found.append({"what": read["what"], **{key: value for key, value in limit.items() if value != ""}, **where})
    return found


def findings_said(findings: list[dict[str, Any]]) -> str:
    """Measurements as a person says them."""
    told = []
    for one in findings:
        bounds = [(name, word) for name, word in (("at_most", "less"), ("at_least", "more")) if name in one]
        limit = "".join(
            f", failed at {plain(one[name])} {one.get('unit', '')}".rstrip() + f" or {word}" for name, word in bounds
        )
        told.append(f"{one['what']}{limit}{_where(one)}")
    return "; ".join(told)


def _where(one: Mapping[str, Any]) -> str:
    return f", for {', '.join(one['components'])}" if "components" in one else ""
