"""The questions of a warranty booklet about cover, in its order, and then all the others."""

from __future__ import annotations

from typing import Any, get_args

from claimpack.commands.plans.booklet.pay_questions import ASKED_FOR, PAID
from claimpack.commands.plans.booklet.reading import (
    answered,
    components,
    either,
    number,
    rest_or_time,
    some_of,
    time,
    words,
    yes,
)
from claimpack.commands.talk.question import Question
from claimpack.core.clauses.starts import StartRole
from claimpack.core.clauses.window import LineKind
from claimpack.core.drafting.booklet.cover_answers import LIMITS, RANGES, SHARES
from claimpack.core.drafting.booklet.keys import MOST_PARTS, OF_PARTS, part_keys, windows_of
from claimpack.core.facts.fields import USES
from claimpack.core.values.typed.periods import period_written


def _unit_windows(session: Any) -> list[str]:
    return [window["id"] for window in windows_of(session.values) if window["id"] not in OF_PARTS]


def _for_use(use: str) -> tuple[Question, Question]:
    return (
        Question(
            use,
            f"Whole unit, {use} use: covered for how long? (or none)",
            "As in 24 months, 2 years or 90 days.",
            read=time,
        ),
        Question(
            f"{use}.hours",
            "Up to how many hours on the meter? (Enter: no limit)",
            f"Or another meter. As in: {LIMITS}.",
            is_due=answered(use),
        ),
    )


def _for_parts(place: int) -> tuple[Question, ...]:
    parts, period, hours, uses, alone = part_keys(place)
    other = "Other parts" if place > 1 else "Parts"
    return (
        Question(
            parts,
            f"{other} with a time of their own? Which? (Enter: no more)",
            "As the booklet groups them, as in: engine, short block, crankshaft. Each word is one that claims may use.",
            read=components,
            is_due=answered(part_keys(place - 1).parts) if place > 1 else lambda _session: True,
        ),
        Question(period, "How long are they covered?", "As in 3 years.", read=period_written, is_due=answered(parts)),
        Question(
            hours,
            "Up to how many hours on the meter? (Enter: no limit)",
            f"Or another meter. As in: {LIMITS}.",
            is_due=answered(parts),
        ),
        Question(
            uses,
            "In which uses? (Enter: every use)",
            "One or more of household, professional, rental.",
            read=words,
            is_due=answered(parts),
        ),
        Question(
            alone,
            "Is that all the cover they have (yes/no)? (Enter: no)",
            "yes: the whole unit's cover leaves them out, as where a battery has less. no: the better of both is paid.",
            read=yes,
            is_due=answered(parts),
        ),
    )


_UNIT: tuple[Question, ...] = (
    Question("maker", "Maker?", "The name as it is printed; claims may write it in one word."),
    Question("name", "What is the booklet called?", "Its title or year, as people will call the plan."),
    Question("currency", "Which currency are its amounts in?", "A code, as in USD.", suggestion=lambda s: s.currency),
    Question(
        "models",
        "Which models is it for? (Enter: all)",
        "With commas between; * stands for any letters and digits, as in: CS-*, HT-40.",
        read=words,
    ),
    Question("model_years", "Which model years? (Enter: all)", "As in: 2024 to 2026; both are in."),
    Question("serials", "Which serial numbers? (Enter: all)", "Both the first and the last count.", example=RANGES),
    Question("sold_from", "Sold from which day on? (Enter: any)", "As in 2025-01-01.", days=True),
    Question("sold_until", "Sold until which day? (Enter: any)", "That day counts.", days=True),
    *(question for use in USES for question in _for_use(use)),
    *(question for place in range(1, MOST_PARTS + 1) for question in _for_parts(place)),
    Question(
        "shares",
        "Is less paid as the unit gets older? (Enter: no)",
        "How much of each line is paid, until which age.",
        example=SHARES,
    ),
    Question(
        "shares_for",
        "For which of these? (Enter: all)",
        "With commas between.",
        read=words,
        choices=_unit_windows,
        is_due=answered("shares"),
    ),
    Question(
        "pays",
        "Are parts alone paid, or parts and labour? (Enter: all, freight too)",
        "One or more of parts, labour, extras.",
        read=some_of(get_args(LineKind)),
    ),
    Question(
        "pays_for",
        "For which of these? (Enter: all)",
        "With commas between.",
        read=words,
        choices=_unit_windows,
        is_due=answered("pays"),
    ),
    Question(
        "rest",
        "Who pays the rest: owner or shop?",
        "What the maker's share leaves, and what it does not pay for.",
        choices=lambda _session: ["owner", "shop"],
        closed=True,
        suggestion=lambda _session: "owner",
        is_due=either("shares", "pays"),
    ),
)
"""Which units, for how long, and how much of it."""

_CONDITIONS: tuple[Question, ...] = (
    Question(
        "registered_within",
        "Registered how soon after the sale? (no: need not be)",
        "As in 30 days.",
        read=time,
    ),
    Question(
        "registered_adds",
        "How much longer is a registered unit covered? (Enter: others have no cover)",
        "As in 12 months.",
        read=time,
        is_due=answered("registered_within"),
    ),
    Question(
        "registered_for",
        "For which of these? (Enter: all)",
        "With commas between.",
        read=words,
        choices=_unit_windows,
        is_due=answered("registered_within"),
    ),
    Question("second_owner", "Is a second owner covered too (yes/no)?", "Some booklets end with a sale.", read=yes),
    Question(
        "transfer_within",
        "How soon must the maker be told of a second owner? (Enter: need not be)",
        "Counted from the second sale, as in 30 days.",
        read=time,
        is_due=answered("second_owner"),
    ),
    Question(
        "transfer_fee",
        "What does the maker ask for that? (Enter: nothing)",
        "As in 25.00.",
        read=number,
        is_due=answered("transfer_within"),
    ),
    Question(
        "second_owner_period",
        "How long is a second owner covered? (Enter: for all that is left)",
        "Counted from the second sale, as in 6 months.",
        read=time,
        is_due=answered("second_owner"),
    ),
    Question(
        "start",
        "Cover starts on which day?",
        f"One or more of {', '.join(get_args(StartRole))}; of several the first that the claim has.",
        read=some_of(get_args(StartRole)),
        suggestion=lambda _session: "delivered, purchased",
    ),
    Question(
        "start_stock",
        "And of a unit in your stock, never sold? (Enter: not said)",
        "The day of your invoice or the day it was built, as in: invoiced, built.",
        read=some_of(("invoiced", "built")),
    ),
    Question(
        "unproved",
        "Without a receipt, cover starts how long after it was built? (Enter: not said)",
        "As in 6 months.",
        read=time,
    ),
    Question(
        "repair_time",
        "Do days in the shop lengthen the cover (yes/no)?",
        "A day more for each, from the day it was brought in to the day it was ready.",
        read=yes,
    ),
    Question(
        "unmended",
        "What a repair did not mend, told within how long, stays covered? (Enter: not said)",
        "As in 60 days, from the day of that repair, whatever the date cover ends on.",
        read=time,
        is_due=either("repair_time"),
    ),
    Question(
        "repair_adds",
        "How much longer is it covered, once, after a repair? (Enter: no longer)",
        "As in 12 months.",
        read=time,
    ),
    Question(
        "replaced",
        "A part put in under warranty: covered for how long? (or rest)",
        "Its own time, as in 90 days; longer where more is left of the unit's. rest: what is left alone.",
        read=rest_or_time,
    ),
    Question(
        "counter_part",
        "A part you sold over the counter: covered for how long? (Enter: not said)",
        "From the day on its own receipt, as in 90 days.",
        read=time,
    ),
    Question(
        "fitted_part",
        "A part you sold and fitted: covered for how long? (Enter: not said)",
        "From the day it was fitted, as in 12 months.",
        read=time,
    ),
    Question(
        "parts_sold_labour",
        "Is the labour paid for such parts too (yes/no)?",
        "Enter: the part alone.",
        read=yes,
        is_due=either("counter_part", "fitted_part"),
    ),
    Question("cites", "Where is that written?", "As in: warranty booklet 2025, p. 4. It is cited as the reason."),
    Question(
        "excluded",
        "Which parts are not covered?",
        "Wear parts, with commas between: air filter, spark plug, starter rope.",
        read=components,
    ),
    Question(
        "defects",
        "Which causes are not covered?",
        "With commas between: misuse, maintenance, wear, accident.",
        read=some_of(("misuse", "maintenance", "wear", "accident")),
        suggestion=lambda _session: "misuse, maintenance, wear, accident",
    ),
    Question("elsewhere", "Which parts does another maker cover? (Enter: none)", "As in: engine.", read=components),
    Question("elsewhere_maker", "Which maker?", "Its name.", is_due=answered("elsewhere")),
    Question(
        "words",
        "Other parts that claims will name? (Enter: none)",
        "With commas between. A word that the plan does not know is asked about, never refused.",
        read=components,
    ),
)
"""Under which conditions, and what is left out."""

QUESTIONS: tuple[Question, ...] = (*_UNIT, *_CONDITIONS, *PAID, *ASKED_FOR)
"""Every question, in the order of a booklet."""

FIGURES = frozenset(question.key for question in QUESTIONS if question.read is number)
"""The questions that are answered with an amount or a reading."""

NEEDED = ("maker", "currency")
"""The questions without whose answers there is no plan; beside them it needs a window."""
