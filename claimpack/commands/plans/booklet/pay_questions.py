"""The questions of a warranty booklet about money and evidence: what is paid, what a claim must have, and by when."""

from __future__ import annotations

from claimpack.commands.plans.booklet.reading import answered, components, number, share, time, words, yes
from claimpack.commands.talk.question import Question
from claimpack.core.drafting.booklet.pay_answers import BANDS, EXTRAS, FINDINGS, PAPERS, RATES, TRAVEL, UNIT_CAP

PAID: tuple[Question, ...] = (
    Question("labour_rate", "What is an hour of labour paid?", "In the plan's currency, as in 92.00.", read=number),
    Question(
        "labour_rates",
        "Another rate for some work, dealers or days? (Enter: no)",
        "For a kind of work, your level with the maker, or days from one on.",
        example=RATES,
    ),
    Question(
        "claim_time",
        "Which hours are paid: schedule, actual or lower?",
        "The maker's time schedule, the hours clocked, or the lower of both.",
        choices=lambda _session: ["schedule", "actual", "lower"],
        closed=True,
        suggestion=lambda _session: "schedule",
    ),
    Question(
        "diagnosis",
        "Finding the fault: how many hours are paid at most? (Enter: like other work)",
        "As in 0.5.",
        read=number,
    ),
    Question(
        "diagnosis_operation",
        "What is finding the fault called?",
        "Its code in the maker's schedule, or the words you write it down with.",
        suggestion=lambda _session: "find-fault",
        is_due=answered("diagnosis"),
    ),
    Question(
        "diagnosis_else",
        "Who pays it where what failed is not covered: owner or shop?",
        "The maker pays it only where what failed is covered.",
        choices=lambda _session: ["owner", "shop"],
        closed=True,
        suggestion=lambda _session: "owner",
        is_due=answered("diagnosis"),
    ),
    Question(
        "handling",
        "What is added to the cost of parts, in percent?",
        "none for nothing; bands go by the cost of one part.",
        example=BANDS,
    ),
    Question(
        "handling_on_supplied",
        "What is added for a part the maker sends, in percent of its list price? (Enter: nothing)",
        "As in 10 %.",
        read=share,
    ),
    Question(
        "core",
        "Is the deposit on a rebuilt part claimed until the old one is back (yes/no)?",
        "Enter: you bear it.",
        read=yes,
    ),
    Question(
        "extras",
        "The most for freight, outside work, disposal? (Enter: no cap by kind)",
        "Each cap is for all of its kind on a claim.",
        example=EXTRAS,
    ),
    Question("travel", "What is travel paid? (Enter: not said)", "For a mile, a km or a visit.", example=TRAVEL),
    Question(
        "extras_cap",
        "The most for freight and all other extras of a claim? (Enter: no cap)",
        "As in 50.00.",
        read=number,
    ),
    Question("claim_cap", "The most for a whole claim? (Enter: no cap)", "As in 600.00.", read=number),
    Question(
        "unit_cap",
        "The most for all claims of one unit? (Enter: no cap)",
        "In its life, or in each year of its cover.",
        example=UNIT_CAP,
    ),
    Question("deductible", "What does the owner pay of each claim? (Enter: nothing)", "As in 25.00.", read=number),
    Question("claim_least", "Below which amount is no claim paid? (Enter: none)", "As in 10.00.", read=number),
    Question("tax", "Which tax is paid on top, in percent? (Enter: none)", "As in 8.1 %.", read=share),
)
"""What is paid."""

ASKED_FOR: tuple[Question, ...] = (
    Question("proof", "Must the day of purchase be proved (yes/no)?", "By a receipt, as a rule.", read=yes),
    Question("serial_roles", "Which serial numbers must a claim give?", "As in: unit, engine.", read=words),
    Question(
        "shots",
        "Which photos must it have?",
        "As in: serial plate, whole unit, failed part.",
        read=words,
    ),
    Question(
        "papers", "Which papers, beside the receipt? (Enter: none)", "Each may be for some parts alone.", example=PAPERS
    ),
    Question(
        "findings",
        "What must be measured? (Enter: nothing)",
        "With a limit it is covered only where the limit is met.",
        example=FINDINGS,
    ),
    Question(
        "approval_above",
        "Above which amount must the maker approve before? (Enter: none)",
        "As in 400.00.",
        read=number,
    ),
    Question(
        "approval_components",
        "Which parts need approval whatever they cost? (Enter: none)",
        "As in: short block.",
        read=components,
    ),
    Question("filing", "How soon after the repair must a claim be filed?", "As in 30 days.", read=time),
    Question("hold", "How long must failed parts be kept?", "As in 90 days.", read=time),
    Question(
        "hold_of",
        "Counted from the day it is filed, repaired or paid?",
        "The day the time to keep parts runs from.",
        choices=lambda _session: ["filed", "repaired", "paid"],
        closed=True,
        suggestion=lambda _session: "filed",
        is_due=answered("hold"),
    ),
    Question(
        "part_returned_first",
        "Is a claim paid only when the failed part is back with the maker (yes/no)?",
        "Enter: no.",
        read=yes,
    ),
)
"""What a claim must have, and by when."""
