"""The questions of a warranty booklet: which, in which order, and how an answer is read."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, get_args

from claimpack.commands.talk.question import Question
from claimpack.core.clauses.starts import StartRole
from claimpack.core.drafting.booklet import MOST_PARTS, part_keys, windows_of
from claimpack.core.facts.fields import USES
from claimpack.core.plans.component_words import refuse_no_component
from claimpack.core.values.money import exact
from claimpack.core.values.typed.periods import list_written, percent_written, period_written

NONE = ("none", "no", "nothing", "never")


def _time(typed: str) -> Any:
    return None if typed.casefold() in NONE else period_written(typed)


def _rest_or_time(typed: str) -> Any:
    return "rest" if typed.casefold() == "rest" else _time(typed)


def _number(typed: str) -> Any:
    return None if typed.casefold() in NONE else exact(typed)


def _share(typed: str) -> Any:
    return None if typed.casefold() in NONE else percent_written(typed)


def _words(typed: str) -> list[str]:
    return [] if typed.casefold() in NONE else list_written(typed)


def _components(typed: str) -> list[str]:
    words = _words(typed)
    for word in words:
        refuse_no_component(word, "")
    return words


def _yes(typed: str) -> bool:
    if typed.casefold() in ("y", "yes"):
        return True
    if typed.casefold() in ("n", "no"):
        return False
    raise ValueError("Answer yes or no.")


def _some_of(choices: tuple[str, ...]) -> Callable[[str], list[str]]:
    def read(typed: str) -> list[str]:
        words = _words(typed)
        stray = next((word for word in words if word not in choices), None)
        if stray:
            raise ValueError(f"{stray!r} is none of {', '.join(choices)}.")
        return words

    return read


def _answered(key: str) -> Callable[[Any], bool]:
    return lambda session: bool(session.values.get(key))


def _windows(session: Any) -> list[str]:
    return [window["id"] for window in windows_of(session.values)]


def _for_use(use: str) -> tuple[Question, Question]:
    return (
        Question(
            use,
            f"Whole unit, {use} use: covered for how long? (or none)",
            "As in 24 months, 2 years or 90 days.",
            read=_time,
        ),
        Question(
            f"{use}.hours",
            "Up to how many hours on the meter? (Enter: no limit)",
            "Whichever comes first, the time or the hours.",
            read=_number,
            is_due=_answered(use),
        ),
    )


def _for_parts(place: int) -> tuple[Question, ...]:
    parts, period, hours, uses = part_keys(place)
    other = "Other parts" if place > 1 else "Parts"
    return (
        Question(
            parts,
            f"{other} with a time of their own? Which? (Enter: no more)",
            "As the booklet groups them, as in: engine, short block, crankshaft. Each word is one that claims may use.",
            read=_components,
            is_due=_answered(part_keys(place - 1)[0]) if place > 1 else lambda _session: True,
        ),
        Question(period, "How long are they covered?", "As in 3 years.", read=period_written, is_due=_answered(parts)),
        Question(
            hours,
            "Up to how many hours on the meter? (Enter: no limit)",
            "Whichever comes first.",
            read=_number,
            is_due=_answered(parts),
        ),
        Question(
            uses,
            "In which uses? (Enter: every use)",
            "One or more of household, professional, rental.",
            read=_words,
            is_due=_answered(parts),
        ),
    )


QUESTIONS: tuple[Question, ...] = (
    Question("maker", "Maker?", "The name as it is printed; claims may write it in one word."),
    Question("name", "What is the booklet called?", "Its title or year, as people will call the plan."),
    Question("currency", "Which currency are its amounts in?", "A code, as in USD.", suggestion=lambda s: s.currency),
    Question(
        "models",
        "Which models is it for? (Enter: all)",
        "With commas between; * stands for any letters and digits, as in: CS-*, HT-40.",
        read=_words,
    ),
    Question("sold_from", "Sold from which day on? (Enter: any)", "As in 2025-01-01.", days=True),
    Question("sold_until", "Sold until which day? (Enter: any)", "That day counts.", days=True),
    *(question for use in USES for question in _for_use(use)),
    *(question for place in range(1, MOST_PARTS + 1) for question in _for_parts(place)),
    Question(
        "registered_within",
        "Registered how soon after the sale? (no: need not be)",
        "As in 30 days.",
        read=_time,
    ),
    Question(
        "registered_adds",
        "How much longer is a registered unit covered? (Enter: others have no cover)",
        "As in 12 months.",
        read=_time,
        is_due=_answered("registered_within"),
    ),
    Question(
        "registered_for",
        "For which of these? (Enter: all)",
        "With commas between.",
        read=_words,
        choices=_windows,
        is_due=_answered("registered_within"),
    ),
    Question("second_owner", "Is a second owner covered too (yes/no)?", "Some booklets end with a sale.", read=_yes),
    Question(
        "start",
        "Cover starts on which day?",
        f"One or more of {', '.join(get_args(StartRole))}; of several the first that the claim has.",
        read=_some_of(get_args(StartRole)),
        suggestion=lambda _session: "delivered, purchased",
    ),
    Question(
        "unproved",
        "Without a receipt, cover starts how long after it was built? (Enter: not said)",
        "As in 6 months.",
        read=_time,
    ),
    Question(
        "replaced",
        "A part put in under warranty: covered for how long? (or rest)",
        "Its own time, as in 90 days; longer where more is left of the unit's. rest: what is left alone.",
        read=_rest_or_time,
    ),
    Question("cites", "Where is that written?", "As in: warranty booklet 2025, p. 4. It is cited as the reason."),
    Question(
        "excluded",
        "Which parts are not covered?",
        "Wear parts, with commas between: air filter, spark plug, starter rope.",
        read=_components,
    ),
    Question(
        "defects",
        "Which causes are not covered?",
        "With commas between: misuse, maintenance, wear, accident.",
        read=_some_of(("misuse", "maintenance", "wear", "accident")),
        suggestion=lambda _session: "misuse, maintenance, wear, accident",
    ),
    Question("elsewhere", "Which parts does another maker cover? (Enter: none)", "As in: engine.", read=_components),
    Question("elsewhere_maker", "Which maker?", "Its name.", is_due=_answered("elsewhere")),
    Question(
        "words",
        "Other parts that claims will name? (Enter: none)",
        "With commas between. A word that the plan does not know is asked about, never refused.",
        read=_components,
    ),
    Question("labour_rate", "What is an hour of labour paid?", "In the plan's currency, as in 92.00.", read=_number),
    Question(
        "claim_time",
        "Which hours are paid: schedule, actual or lower?",
        "The maker's time schedule, the hours clocked, or the lower of both.",
        choices=lambda _session: ["schedule", "actual", "lower"],
        closed=True,
        suggestion=lambda _session: "schedule",
    ),
    Question(
        "handling", "What is added to the cost of parts, in percent?", "As in 20 %; none for nothing.", read=_share
    ),
    Question(
        "extras_cap", "The most for freight and other extras of a claim? (Enter: no cap)", "As in 50.00.", read=_number
    ),
    Question("claim_cap", "The most for a whole claim? (Enter: no cap)", "As in 600.00.", read=_number),
    Question("deductible", "What does the owner pay of each claim? (Enter: nothing)", "As in 25.00.", read=_number),
    Question("tax", "Which tax is paid on top, in percent? (Enter: none)", "As in 8.1 %.", read=_share),
    Question("proof", "Must the day of purchase be proved (yes/no)?", "By a receipt, as a rule.", read=_yes),
    Question("serial_roles", "Which serial numbers must a claim give?", "As in: unit, engine.", read=_words),
    Question(
        "shots",
        "Which photos must it have?",
        "As in: serial plate, whole unit, failed part.",
        read=_words,
    ),
    Question(
        "approval_above",
        "Above which amount must the maker approve before? (Enter: none)",
        "As in 400.00.",
        read=_number,
    ),
    Question(
        "approval_components",
        "Which parts need approval whatever they cost? (Enter: none)",
        "As in: short block.",
        read=_components,
    ),
    Question("filing", "How soon after the repair must a claim be filed?", "As in 30 days.", read=_time),
    Question("hold", "How long must failed parts be kept?", "As in 90 days.", read=_time),
    Question(
        "hold_of",
        "Counted from the day it is filed, repaired or paid?",
        "The day the time to keep parts runs from.",
        choices=lambda _session: ["filed", "repaired", "paid"],
        closed=True,
        suggestion=lambda _session: "filed",
        is_due=_answered("hold"),
    ),
)
"""Every question, in the order of a booklet."""

FIGURES = frozenset(question.key for question in QUESTIONS if question.read is _number)
"""The questions that are answered with an amount or a reading."""

NEEDED = ("maker", "currency")
"""The questions without whose answers there is no plan; beside them it needs a window."""
