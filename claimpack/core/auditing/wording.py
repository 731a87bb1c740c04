"""What findings say, by the id of the rule and, where it has several sentences, by which of them it is."""

from __future__ import annotations

from collections.abc import Mapping

SAYS: Mapping[str, str] = {
    "claims": "Claims: {claims}.",
    # repeats
    "unit-claimed-twice": "Claims {claims} both ask for the {subject} of one unit, at overlapping times.",
    "unit-claimed-twice.by-number": (
        "Claims {claims} both ask for the {subject} of units that share the number {number}, at overlapping times."
    ),
    "part-claimed-twice": "Claims {claims} both ask for the {named} of one unit, at overlapping times.",
    "part-line-twice": "Part {part} stands on more than one line of claim {claim}.",
    "replaced-part-again": "Claim {claim} asks for the {component} that claim {other} replaced.",
    "part-serial-twice": "The part {part} with serial {serial} is in claims {claims}.",
    "purchase-dates-differ": "Claims {claims} give different purchase dates for one unit.",
    "purchase-dates-differ.failed-before": (
        "The unit failed on {failed} (claim {early}), before it was bought on {bought}, as claim {latest} says."
    ),
    "purchase-dates-differ.came-in-before": (
        "The unit came in on {failed} (claim {early}), before it was bought on {bought}, as claim {latest} says."
    ),
    # pictures and papers
    "same-picture": "Claims {claims} show the same picture.",
    "alike-pictures": "Claims {claims} show pictures that look alike.",
    "alike-pictures.too-many-plates": (
        "{count} pictures of plates look too much alike to tell which of them are of one plate: none of them is told."
    ),
    "alike-pictures.too-many": (
        "{count} pictures of the shot {shot} are too many to compare every part of each with every part of the others: "
        "some that show one scene in part may not be told."
    ),
    "alike-pictures.too-many-without-shot": (
        "{count} pictures that name no shot are too many to compare every part of each with every part of the others: "
        "some that show one scene in part may not be told."
    ),
    "same-paper": "Claims {claims} prove the purchase of different units with the same paper.",
    "picture-before-unit.built": (
        "{picture} was taken on {taken} by its camera's clock, before the unit was built on {day}."
    ),
    "picture-before-unit.sold": (
        "{picture} was taken on {taken} by its camera's clock, before the unit was sold on {day}."
    ),
    "picture-long-before": (
        "{picture} was taken on {taken} by its camera's clock, {days} days before the unit came in on {day}."
    ),
    "picture-before-failure": "{picture} was taken on {taken} by its camera's clock, before it failed on {day}.",
    "picture-after-filing": (
        "{picture} was taken on {taken} by its camera's clock, after the claim was filed on {day}."
    ),
    # labour
    "labour-at-one-time": "{who} works on claims {claims} at one time, {started} to {ended}.",
    "labour-at-one-time.one-claim": (
        "{who} works on two operations of claim {claims} at one time, {started} to {ended}."
    ),
    "day-too-long": "{hours} hours of {who}'s work fall on {day}, by the clock or the day of repair: claims {claims}.",
    "day-too-long.one-claim": (
        "{hours} hours of {who}'s work fall on {day}, by the clock or the day of repair: claim {claims}."
    ),
    "labour-beyond-schedule": (
        "{operation} took {hours} hours and the schedule gives {schedule}; was a clock left running?"
    ),
    "labour-hardly-worked": (
        "{operation}: {claimed} hours are claimed by the schedule, and {hours} are written down as worked."
    ),
    "work-when-shut": "{who} worked from {started} to {ended}; {why}.",
    "work-when-shut.still-on": "{who} began to work at {started}; {why}.",
    "work-outside-visit.before": "{who} worked on {worked_on}, before the unit came in on {day}.",
    "work-outside-visit.after": "{who} worked on {worked_on}, after the repair was done on {day}.",
    "same-figure-every-time": "{who} took {minutes} minutes for {operation} {hits} times of {count}.",
    "included-by-another-name": "{words} is claimed beside work that may hold it: {operation}.",
    # money
    "over-approval": "{claimed} is claimed, and {approval} reaches to {limit}.",
    "over-approval.draft": "{claimed} would be claimed, and {approval} reaches to {limit}.",
    "below-floor": (
        "Plan {plan} pays {short} {currency} less than {cites} asks for, on {claims}. "
        "Check the current text and the dealer agreement; this is no legal advice."
    ),
    "just-below-limit": "{who}: {count} claims end at {limit} or just below, above which an approval is needed.",
    "job-split.one-stay": "Unit {serial} has two claims for one stay: the {first} and the {later}.",
    "job-split.two-stays": "Unit {serial} has two claims for two stays a few days apart: the {first} and the {later}.",
    "part-over-list": "{name} ({part}) is claimed at {cost}; the list has {list}.",
    "part-dearer-than-usual": "Part {part} is claimed at {cost}; half of the claims with it have {usual} or less.",
    "paid-beyond": "{claimed} was claimed, and {paid} came in.",
    "paid-beyond.payments": "{claimed} was claimed, and {paid} came in in {count} payments.",
    "owner-pays-this": "{name} is claimed from the maker; the plan leaves the {excluded} to the owner.",
    "bill-twice": "{bill}, {amount}, is in claims {claims}.",
    # held parts
    "held-part-missing.counted": "Held part {part} was not found on {day}.",
    "held-part-missing": "Claim {claim} has parts the maker pays, and no failed part is held.",
    "scrapped-early": "Held part {part} was scrapped on {day}, and was to be kept until {until}.",
    "scrapped-early.no-rule": "Held part {part} was scrapped on {day}, and no rule that let it go is recorded.",
    "released-unheard": (
        "Held part {part} was let go on {day} in the maker's name; "
        "since the claim was last filed the maker had not answered or paid."
    ),
    "not-sent-back.let-go": "Held part {part} was called back on {called} and let go on {day} instead.",
    "not-sent-back": "Held part {part} was called back on {called}, to be sent by {by}, and was not.",
    # filing
    "serial-of-another-form": "{serial}, the number of the {what}, does not have the form the plan gives.",
    "filed-late": "It was filed on {filed}; the last day to file was {last}, {within} after {event}.",
    "filed-over-block": "It was filed on {filed}; the reason given: {reason}.",
    "filed-over-block.verdict": "It was filed on {filed} although it was {verdict}; the reason given: {reason}.",
    "filed-over-block.against": (
        "It was filed on {filed} although something spoke against it; the reason given: {reason}."
    ),
    "packet-changed": "The packet filed on {filed} {damage}.",
    "corrected-after-filing": "It was corrected on {corrected}, after it was filed on {filed}, and not resubmitted.",
    "evidence-missing.elsewhere": (
        "It was filed before it came into this book; what went to the maker with it is not known here."
    ),
    "evidence-missing.asked": "It is filed, and this is not with it: {missing}.",
    "evidence-missing.file": "It names {file}, and the book keeps no such file.",
    "repaired-before-approval": "It was repaired on {repaired}, before the maker's approval of {approved_on}.",
    "approval-ran-out": "It was repaired on {repaired}; the maker's approval held up to {expired}.",
    # identity
    "serials-look-alike": "The numbers {serials} differ only in marks that are taken for one another.",
    "unit-of-two-models": "Claims call unit {serial} by several models: {models}.",
    "number-in-two-units": "One {what} number, {number}, is in units {units}.",
    "approval-twice": "Approval {number} is used in more than one claim.",
    "meter-backwards": "The meter runs backwards: {hours} h on {on}, {reading} h on {later_on}.",
    "meter-backwards.ran-more": (
        "The meter ran more hours than there were: {hours} h on {on}, {reading} h on {later_on}."
    ),
    "refused-filed-anew": (
        "Claim {first} for the {component} was refused on {refused}, and claim {later} asks for it again."
    ),
    "refused-filed-anew.because": (
        "Claim {first} for the {component} was refused on {refused} ({why}), and claim {later} asks for it again."
    ),
    # facts
    "measured-in-order": (
        "Everything measured is within its limits ({what} is {value}, {limits}), and parts were replaced."
    ),
    "reading-against-cause": "The cause says {what} is {said}; {reading} is {way}.",
    "cause-against-defect": "The cause says {said}, and the defect is claimed as {defect}.",
    "cause-against-defect.untold": "The cause says {said}, and no defect is named.",
    "another-part-replaced": "The {failed} failed ({number}), and what was fitted is {fitted}.",
    "registered-before-sale": "It was registered on {registered}, before it was sold on {sold}.",
    "changed-before-filing": "{changed} was changed from {before} to {after} on {day}, {when}.",
    "same-words-and-figures": "Claims {claims} say and measured the very same.",
    "same-figures": "Claims {claims} measured the very same.",
    # people
    "owner-is-staff": "The owner, {owner}, has the name of {staff}, who works in the shop.",
    "owner-at-the-shop": "The owner, {owner}, is reached under {shared}.",
    "use-unlike-owner": "The use is {use}, and the owner is {owner}.",
    "household-works-hard": "The use is household, and the meter reads {hours} h {after} after {since}, {rate} a week.",
    "many-units-of-one": "{owner} has claims on {count} units in household use: {claims}.",
    # patterns
    "pattern-technician-work": (
        "{hits} of {count} claims that name {who} first are the {trait}: "
        "about {share} %, and about {others} % of the others'."
    ),
    "pattern-technician": (
        "{hits} of {count} claims that name {who} first have this: {trait}. "
        "That is about {share} %; of others' about {others} %."
    ),
    "pattern-owner": (
        "{hits} of {count} claims of {who} have this: {trait}. "
        "That is about {share} %; of other owners' about {others} %."
    ),
    "pattern-model": (
        "{hits} of {count} claims on {who} have this: {trait}. "
        "That is about {share} %; on other models about {others} %."
    ),
}
"""The English sentences: by rule, or by rule, a point, and which of its sentences."""

LACKS: Mapping[str, str] = {
    "shop": "No settings or plans are known here.",
    "plan": "No plan of theirs is within reach.",
    "terms_unread": "Their payment terms {named} cannot be read.",
    "vault": "The vault {named} is not there.",
    "parts_list_unread": "A parts list cannot be read: {named}.",
    "parts_list": "There is no parts list {named}.",
    **{
        key: f"shop.toml has no {key}."
        for key in ("terms", "labour_rates", "opening_hours", "phone", "email", "address", "staff")
    },
}
"""What was wanting, so that rules were not asked, or in part: by what is wanting."""

_SCRAPPED = "Held part {part} was scrapped on {day}, and {against}."
_DAY_TOO_LONG = "{who} worked {hours} hours on {day}, "

FORMERLY: Mapping[str, str] = {
    **{key: says.replace(" by its camera's clock", "") for key, says in SAYS.items() if key.startswith("picture-")},
    "unit-claimed-twice.by-number": SAYS["unit-claimed-twice"],
    "part-claimed-twice": SAYS["unit-claimed-twice"],
    "day-too-long": f"{_DAY_TOO_LONG}claims {{claims}} say.",
    "day-too-long.one-claim": f"{_DAY_TOO_LONG}claim {{claims}} says.",
    "work-when-shut.still-on": SAYS["work-when-shut"],
    "same-figure-every-time": "{who} took {minutes} minutes in {hits} of {count} claims for {operation}.",
    "included-by-another-name": "{words} is claimed beside work that holds it: {operation}.",
    "over-approval.draft": SAYS["over-approval"],
    "just-below-limit": "{who}: {count} claims end just below {limit}, above which an approval is needed.",
    "part-dearer-than-usual": "Part {part} is claimed at {cost}; in most claims it costs {usual}.",
    "scrapped-early": _SCRAPPED,
    "scrapped-early.no-rule": _SCRAPPED,
    "released-unheard": "Held part {part} was let go on {day} in the maker's name, before it was heard of.",
    "evidence-missing.asked": "It was filed without this: {missing}.",
    "unit-of-two-models": "Unit {serial} is a {models}: it cannot be both.",
    "reading-against-cause": "The cause says {what} is {said}; {value} {unit} is {way}.",
    "cause-against-defect.untold": "The cause says {said}, and the defect is claimed as {defect}.",
    "another-part-replaced": "The {failed} failed ({number}), and what was fitted is {formerly}.",
    "household-works-hard": "The use is household, and the meter ran {hours} h in {weeks} weeks, {a_week} a week.",
}
"""Sentences as they were when findings were settled by their very words, where they have others now."""
