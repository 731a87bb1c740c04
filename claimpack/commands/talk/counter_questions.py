"""The questions of the counter: which, in which order, and how an answer is read."""

from __future__ import annotations

import datetime as dt
import re
from contextlib import suppress
from typing import Any, Protocol

from claimpack.commands.talk.question import Question
from claimpack.core.claims.claim import Claim
from claimpack.core.plans.component_words import components_offered, refuse_no_component
from claimpack.core.plans.makers import is_maker_of
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.uses import uses_known
from claimpack.core.values.words import folded
from claimpack.core.verdict.matching import may_fall_under


class ClaimSession(Protocol):
    """The claim being filled in, as questions look at it."""

    today: dt.date

    @property
    def plans(self) -> list[Plan]:
        """The plans within reach."""

    def value(self, key: str) -> Any:
        """What it says under a dotted key; None where it says nothing."""

    def so_far(self) -> Claim:
        """The claim as answered so far."""

    def plan(self) -> Plan | None:
        """The plan it falls under so far, where it is one."""


def _day(typed: str) -> dt.date:
    if re.fullmatch(r"\d{4}-\d\d-\d\d", typed, re.ASCII):
        with suppress(ValueError):
            return dt.date.fromisoformat(typed)
    raise ValueError(f"{typed!r} is not a date such as 2026-02-05.")


def _yes(typed: str) -> bool:
    if typed.casefold() in ("y", "yes"):
        return True
    if typed.casefold() in ("n", "no"):
        return False
    raise ValueError("Answer yes or no.")


def meter_keys(typed: str) -> dict[str, Any]:
    """The keys of a unit that an answer about its hour meter fills."""
    if folded(typed) in ("none", "no meter", "no"):
        return {"meter": False, "hours": None}
    return {"meter": True, "hours": typed}


def _component(typed: str) -> str:
    refuse_no_component(typed, "")
    return typed


def _registration(typed: str) -> dict[str, object]:
    if folded(typed) in ("never", "no", "none", "not registered"):
        return {"registered": None, "never_registered": True}
    return {"registered": _day(typed), "never_registered": None}


def _fitting(typed: str) -> dict[str, object]:
    if folded(typed) in ("never", "no", "none"):
        return {"fitted": None, "never_fitted": True}
    return {"fitted": _day(typed), "never_fitted": None}


def _makers(session: ClaimSession) -> list[str]:
    """The word of every maker of a plan, and its name where that is another word."""
    words = {plan.maker for plan in session.plans}
    known = {folded(word) for word in words}
    names = {plan.maker_name for plan in session.plans if plan.maker_name and folded(plan.maker_name) not in known}
    return sorted(words | names, key=folded)


def _makers_by_name(session: ClaimSession) -> list[str]:
    """Every maker of a plan once, by its name."""
    return sorted({plan.maker_name or plan.maker for plan in session.plans}, key=folded)


def _models(session: ClaimSession) -> list[str]:
    maker = str(session.value("maker") or "")
    fitting = [plan for plan in session.plans if is_maker_of(plan, maker)]
    return sorted({model for plan in fitting for model in plan.models if "*" not in model})


def _uses(session: ClaimSession) -> list[str]:
    return list(uses_known(may_fall_under(session.so_far(), session.plans)))


def _by_model_year(session: ClaimSession) -> bool:
    return any(plan.goes_by_model_year() for plan in may_fall_under(session.so_far(), session.plans))


def _components(session: ClaimSession) -> list[str]:
    plan = session.plan()
    return list(components_offered(plan)) if plan else []


def _of_an_owner(session: ClaimSession) -> bool:
    """Whether the unit was sold: one in stock has no owner and no receipt."""
    return bool(session.value("case") not in ("stock", "part"))


def _has_owner(session: ClaimSession) -> bool:
    return bool(session.value("case") != "stock")


def _is_stock(session: ClaimSession) -> bool:
    return bool(session.value("case") == "stock")


def _is_part(session: ClaimSession) -> bool:
    return bool(session.value("case") == "part")


def _of_a_second_owner(session: ClaimSession) -> bool:
    """Whether the unit was sold again, and a plan it may fall under asks when."""
    claim = session.so_far()
    windows = [window for plan in may_fall_under(claim, session.plans) for window in plan.window]
    return claim.owner.first_owner is False and any(window.owners for window in windows)


def _wants_engine(session: ClaimSession) -> bool:
    if _is_part(session):
        return False
    plan = session.plan()
    return plan is None or "engine" in plan.requires.serial_roles or not plan.requires.serial_roles


QUESTIONS: tuple[Question, ...] = (
    Question(
        "failure.complaint",
        "What is wrong, in the owner's words?",
        "The complaint goes to the maker as it is.",
        several_lines=True,
    ),
    Question(
        "maker",
        "Maker?",
        "Who made the unit; the coverage plan goes by it.",
        choices=_makers,
        offers=_makers_by_name,
        letters=True,
    ),
    Question("unit.model", "Model?", "As on the serial plate.", choices=_models),
    Question("unit.serials.@unit", "Serial number of the unit?", "As on the serial plate."),
    Question("unit.kind", "What kind of machine is it?", "As in cut-off saw, ride-on mower, generator."),
    Question(
        "unit.serials.@engine", "Serial number of the engine?", "As on the engine; Enter if none.", is_due=_wants_engine
    ),
    Question(
        "unit.use",
        "How is it used?",
        "Windows differ by use.",
        choices=_uses,
        closed=True,
    ),
    Question("unit.model_year", "Model year?", "Windows differ by it; as on the serial plate.", is_due=_by_model_year),
    Question(
        "unit.meter", "Hour-meter reading? (none = it has no meter)", "Windows may end by hours.", read=meter_keys
    ),
    Question("part_sold.name", "Which part was sold?", "As in ignition coil.", is_due=_is_part),
    Question("part_sold.number", "Its number?", "As on the box or the receipt.", is_due=_is_part),
    Question("part_sold.serial", "Its own serial number, if it has one?", "As on the part.", is_due=_is_part),
    Question("part_sold.sold", "Sold on?", "The date on its receipt.", read=_day, days=True, is_due=_is_part),
    Question(
        "part_sold.fitted",
        "Fitted by you on? (never = you did not fit it)",
        "A part that the shop fitted may be covered for longer.",
        read=_fitting,
        days=True,
        is_due=_is_part,
    ),
    Question(
        "unit.invoiced",
        "Invoiced to you on?",
        "Cover of a unit in stock often starts then.",
        read=_day,
        days=True,
        is_due=_is_stock,
    ),
    Question(
        "dates.purchased",
        "Bought on?",
        "The date on the receipt, as in 2025-03-14.",
        read=_day,
        days=True,
        is_due=_of_an_owner,
    ),
    Question(
        "dates.delivered",
        "Delivered on, if on another day?",
        "Cover often starts on delivery.",
        read=_day,
        days=True,
        is_due=_of_an_owner,
    ),
    Question(
        "proof.kind",
        "Proof of purchase?",
        "What shows the purchase date.",
        choices=lambda _session: ["receipt", "registration", "dealer-record", "none"],
        closed=True,
        is_due=_has_owner,
    ),
    Question(
        "dates.registered",
        "Registered with the maker on? (never = it is not)",
        "Registration may lengthen cover.",
        read=_registration,
        days=True,
        is_due=_of_an_owner,
    ),
    Question(
        "owner.first_owner",
        "Is this the first owner (y/n)?",
        "Some coverage ends with a resale.",
        read=_yes,
        is_due=_of_an_owner,
    ),
    Question(
        "dates.resold",
        "Bought by this owner on?",
        "A second owner may have a period of their own.",
        read=_day,
        days=True,
        is_due=_of_a_second_owner,
    ),
    Question(
        "dates.transferred",
        "Maker told of the new owner on?",
        "Some makers cover a second owner they were told of in time.",
        read=_day,
        days=True,
        is_due=_of_a_second_owner,
    ),
    Question("owner.phone", "Owner's phone?", "For the shop; it goes into the packet.", is_due=_has_owner),
    Question("owner.name", "Owner's name?", "For the packet.", is_due=_has_owner),
    Question("dates.failed", "Failed on?", "The day it stopped working.", read=_day, days=True),
    Question(
        "dates.presented",
        "Brought in on?",
        "This day fixes cover under most plans.",
        read=_day,
        days=True,
        suggestion=lambda session: session.today.isoformat(),
    ),
    Question(
        "failure.component",
        "What failed?",
        "The word the plan uses.",
        read=_component,
        choices=_components,
        most_numbered=99,
    ),
)
"""Every question, in the order of the counter."""


def words_of(session: ClaimSession) -> dict[str, str]:
    """What each key of a claim is called at the counter, in the words of the question that fills it."""
    asked = {question.key: question.word for question in QUESTIONS}
    roles = [str(serial.get("role", "")) for serial in session.value("unit.serials") or ()]
    serials = {
        f"unit.serials[{place}].value": asked.get(f"unit.serials.@{folded(role)}", f"Serial number of the {role}")
        for place, role in enumerate(roles, start=1)
    }
    return {**asked, **serials, "unit.hours": asked["unit.meter"]}
