"""Which units and owners a window reaches: use, owner, model year, serial number, place of sale."""

from __future__ import annotations

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.serial_ranges import is_in_range
from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.uses import uses_known
from claimpack.core.values.money import in_money
from claimpack.core.values.periods import moved
from claimpack.core.values.words import folded, is_among, is_said, nearest
from claimpack.core.windows.reasons import Reason, fails, passes, unknown


def use(claim: Claim, plan: Plan, window: Window) -> Reason | None:
    """The window is for the way the unit is used; one that names no use is for those of its plan.

    A statutory window is for every use, whatever the plan says. A use that the plan does not know is asked about, never
    refused: it may be another word for one of the plan's.

    Source: common practice, no source; the uses are the plan's.
    """
    # law gives its cover to whom it names; a plan cannot narrow that
    allowed = window.uses or (None if window.despite_exclusions else plan.uses)
    if not allowed:
        return None
    used, known = claim.unit.use, uses_known([plan])
    uses = "|".join(allowed)
    if used is not None and is_said(used, allowed):
        return None if _are_all(allowed, known) else passes("use", "use.fits", use_word=_as_known(used, known))
    # a use the plan knows of and this window leaves out
    if used is not None and is_said(used, known):
        return fails("use", "use.other", uses_word=uses, use_word=_as_known(used, known))
    if used is not None:
        near = nearest(used, known)
        key = "use.near" if near else "use.unfamiliar"
        facts = {"near_word": near} if near else {}
        return unknown("use", "unit.use", key, uses_word=uses, use=used, **facts)
    key = "use.unknown-stock" if claim.is_stock else "use.unknown"
    return None if _are_all(allowed, known) else unknown("use", "unit.use", key, uses_word=uses)


def _are_all(allowed: tuple[str, ...], known: tuple[str, ...]) -> bool:
    return all(is_said(each, allowed) for each in known)


def _as_known(said: str, known: tuple[str, ...]) -> str:
    return next(each for each in known if folded(each) == folded(said))


def owner(claim: Claim, _plan: Plan, window: Window) -> Reason | None:
    """The window is open to this owner.

    Source: limits to the first owner are the plan's; statutory windows reach every owner (13 CCR 2405(b),
    40 CFR 1039.120(a)).
    """
    if not window.first_owner_only:
        return None
    if claim.is_stock:
        return passes("owner", "owner.stock")
    second = is_second_owner(claim)
    if second is None:
        return unknown("owner", "owner.first_owner", "owner.unknown")
    return fails("owner", "owner.later") if second else passes("owner", "owner.first")


def is_second_owner(claim: Claim) -> bool | None:
    """Whether the unit had been sold again when it came in; None while that is not said."""
    if claim.is_stock:
        return False
    # a second sale that is dated says more than a box that was ticked; one after the repair is of somebody else
    if claim.dates.resold and claim.dates.resold <= claim.dates.presented:
        return True
    return None if claim.owner.first_owner is None else not claim.owner.first_owner


def transfer(claim: Claim, _plan: Plan, window: Window) -> Reason | None:
    """The maker was told of a second owner in time, where the window asks for it; the last day counts.

    A maker told before the second sale is asked about: one of the two days may be wrong.

    Source: common practice, no source; the time is the plan's.
    """
    within, second = window.owners.transfer_within if window.owners else None, is_second_owner(claim)
    if within is None or second is False:
        return None
    resold, told = claim.dates.resold, claim.dates.transferred
    if second is None:
        return unknown("owner", "owner.first_owner", "owner.perhaps-later", within_period=within)
    if resold is None:
        return unknown("owner", "dates.resold", "owner.resale-unknown", within_period=within)
    by = moved(resold, within)
    if told is None:
        return unknown("owner", "dates.transferred", "owner.transfer-unknown", by=by)
    facts = {"transferred": told, "resold": resold, "by": by}
    # nobody can tell of an owner there is not yet
    if told < resold:
        return unknown("owner", "dates.transferred", "owner.told-before", **facts)
    return passes("owner", "owner.told", **facts) if told <= by else fails("transfer", "owner.told-late", **facts)


def transfer_fee(claim: Claim, plan: Plan, window: Window) -> Reason | None:
    """What the maker asks for taking on a second owner, which nobody else would tell the owner of.

    Source: common practice, no source; the fee is the plan's.
    """
    if not window.owners or not window.owners.fee or not is_second_owner(claim):
        return None
    return passes("owner", "owner.fee", fee=in_money(window.owners.fee, plan.currency))


def model_year(claim: Claim, plan: Plan, window: Window) -> Reason | None:
    """The window is for units of this model year, both ends in; one that names none is for those of its plan.

    A statutory window is for the model years that it names itself.

    Source: common practice, no source; the model years are the plan's.
    """
    years = window.model_years or (None if window.despite_exclusions else plan.model_years)
    if years is None:
        return None
    facts = {"first": years[0], "last": years[1]}
    year = claim.unit.model_year
    if year is None:
        return unknown("model year", "unit.model_year", "model-year.unknown", **facts)
    if years[0] <= year <= years[1]:
        return passes("model year", "model-year.fits", year=year, **facts)
    return fails("model year", "model-year.other", year=year, **facts)


def serials(claim: Claim, plan: Plan, window: Window) -> Reason | None:
    """A serial number of the unit lies in a range of the window, both ends in; without one, of its plan.

    While a number that the plan asks for is not given, it may be the one in the range.

    Source: common practice, no source; the ranges are the plan's.
    """
    ranges = window.serials or (None if window.despite_exclusions else plan.serials)
    if not ranges:
        return None
    told = ", ".join(ranges)
    inside = next((one.value for one in claim.unit.serials if is_in_range(one.value, ranges)), "")
    if inside:
        return passes("serial", "serial.inside", serial=inside, ranges=told)
    # the engine's number may be the one in the range, so a unit without it is not ruled out
    if serial_is_open(claim, plan):
        return unknown("serial", "unit.serials", "serial.unknown", ranges=told)
    return fails("serial", "serial.outside", ranges=told)


def serial_is_open(claim: Claim, plan: Plan) -> bool:
    """Whether a serial number is not given that may lie in a range: the unit's own, or one that the plan asks for."""
    return not all(claim.unit.serial(role) for role in ("unit", *plan.requires.serial_roles))


def law(_claim: Claim, _plan: Plan, window: Window) -> Reason | None:
    """The window is given by law: its section, the day it was read, and that neither is legal advice.

    Source: the section that the window cites.
    """
    if window.read_on is None:
        return None
    return passes("law", "law.section", cites=window.cites, read=window.read_on)


def seller(_claim: Claim, _plan: Plan, window: Window) -> Reason | None:
    """The window binds the seller, and whether the maker may be asked for what it pays.

    Source: the plan's own word, or that of the law it takes in.
    """
    if window.owed_by == "maker":
        return None
    return passes("seller", "seller.recourse" if window.recourse else "seller.owes")


def sold_in(claim: Claim, _plan: Plan, window: Window) -> Reason | None:
    """The window reaches units sold where this one was.

    Source: the reach of the statute that the window cites.
    """
    if window.sold_in is None:
        return None
    places = ", ".join(window.sold_in)
    if not claim.unit.sold_in:
        return unknown("sold in", "unit.sold_in", "sold-in.unknown", places=places)
    if is_among(claim.unit.sold_in, window.sold_in):
        return passes("sold in", "sold-in.fits", place=claim.unit.sold_in)
    return fails("sold in", "sold-in.other", places=places, place=claim.unit.sold_in)
