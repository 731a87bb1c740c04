"""Sentences of the answer in one line, and what changes it: sent again, filed late, several failures."""

from __future__ import annotations

from collections.abc import Mapping

SAYS: Mapping[str, str] = {
    # a claim sent again
    "again.paid": "Resubmitted; {paid} was paid before, {asked} is asked for.",
    "again.unpaid": "Resubmitted; nothing was paid before.",
    # the answer in one line
    "answer.covered": "Covered until {ends} under {window}.",
    "answer.covered-unmended": "Covered under {window}, past its last day: a repair did not mend what failed.",
    "answer.covered-hours": "Covered until {ends} or {limit} h, whichever comes first, under {window}.",
    "answer.covered-whatever": "Covered until {ends} at least, no matter {fact_word}; {window} ends first.",
    "answer.covered-whatever-hours": (
        "Covered until {ends} or {limit} h at least, whichever comes first, no matter {fact_word}; {window} ends first."
    ),
    "answer.covered-limits": "Covered until {limits_word}, whichever comes first, under {window}.",
    "answer.covered-last": "Covered until {limits_word}, whichever comes last, under {window}.",
    "answer.covered-at-least": "Covered until {ends} at least under {window}; {fact_word} is not given ({named}).",
    "answer.covered-at-least-limits": (
        "Covered until {ends} at least or {limits_word}, whichever comes first, under {window}; "
        "{fact_word} is not given ({named})."
    ),
    "answer.covered-whatever-limits": (
        "Covered until {limits_word} at least, whichever comes first, no matter {fact_word}; {window} ends first."
    ),
    "answer.not-covered": "Not covered: no window of the plan holds.",
    "answer.not-covered-parts": "Not covered: the plan has no window for parts sold.",
    "answer.not-covered-never-fitted": "Not covered: {window} is for parts that the shop fitted.",
    "answer.not-covered-campaign-serial": "Not covered: serial number {serial} is not in campaign {campaign}.",
    "answer.not-covered-campaign-late": "Not covered: campaign {campaign} closed on {closes}.",
    "answer.not-covered-campaign-early": "Not covered: campaign {campaign} opens on {opens}.",
    "answer.not-covered-late": "Not covered: {late_period} too late; cover under {window} ended on {ends}.",
    "answer.not-covered-late-anyway": (
        "Not covered: {late_period} too late at least; cover under {window} ended on {ends} at the latest."
    ),
    "answer.not-covered-before": "Not covered: {event} is before cover starts on {starts}.",
    "answer.not-covered-component": "Not covered: no window of the plan covers the {component}.",
    "answer.not-covered-elsewhere": "Not covered: the plan leaves the {component} to {maker}.",
    "answer.not-covered-use": "Not covered: {window} is not for {use_word} use.",
    "answer.not-covered-owner": "Not covered: {window} is for the first owner alone.",
    "answer.not-covered-transfer": "Not covered: under {window} the maker had to be told of the second owner by {by}.",
    "answer.not-covered-place": "Not covered: {window} does not reach units sold in {place}.",
    "answer.not-covered-year": "Not covered: {window} is not for model year {year}.",
    "answer.not-covered-serial": "Not covered: {window} is for other serial numbers.",
    "answer.not-covered-renewal": "Not covered: the {component} was covered up to its renewal at {limit} h alone.",
    "answer.not-covered-renewals": "Not covered: all that {window} covers is past its renewal: {near}.",
    "answer.not-covered-registration": "Not covered: {window} asks for registration by {by}.",
    "answer.not-covered-hours": "Not covered: {over} h over the {limit} h of {window}.",
    "answer.not-covered-meter": "Not covered: {over} over the {limit} {meter} of {window}.",
    "answer.not-covered-excluded": "Not covered: the plan excludes the {component}.",
    "answer.not-covered-finding": (
        "Not covered: the {what} of {value} is no failure; it counts as failed at {limit} {bound_word}."
    ),
    "answer.not-covered-defect": "Not covered: the plan excludes damage from {defect_word}.",
    "answer.failures-covered": "Covered: {covered}.",
    "answer.failures-in-part": "Covered: {covered}; not covered: {closed}.",
    "answer.failures-covered-open": "Covered: {covered}; cannot say yet: {undecided}.",
    "answer.failures-all-ways": "Covered: {covered}; not covered: {closed}; cannot say yet: {undecided}.",
    "answer.failures-closed": "Not covered: {closed}.",
    "answer.failures-open": "Cannot say yet: {undecided}.",
    "answer.failures-open-closed": "Cannot say yet: {undecided}; not covered: {closed}.",
    "answer.undecided": "Cannot say yet. Still needed: {facts_word}.",
    "answer.undecided-word": ("Cannot say yet: the plan does not know the word {component}; does it mean {near_word}?"),
    "answer.undecided-word-facts": (
        "Cannot say yet: the plan does not know the word {component}; does it mean {near_word}? "
        "Also open: {facts_word}."
    ),
    "answer.undecided-finding": (
        "Cannot say yet. Still needed: the finding {what}; it counts as failed at {limit} {bound_word}."
    ),
    "answer.undecided-finding-unit": (
        "Cannot say yet: the {what} of {value} cannot be compared with {limit} {bound_word}, where it counts as failed."
    ),
    "answer.undecided-finding-both": (
        "Cannot say yet: the findings of {what} lie on both sides of {limit} {bound_word}, where it counts as failed."
    ),
    "answer.undecided-finding-facts": (
        "Cannot say yet. Still needed: the finding {what}, failed at {limit} {bound_word}; {facts_word}."
    ),
    "answer.undecided-plan": "Cannot say yet: no single plan fits the claim.",
    "answer.undecided-fault": "Cannot say yet: plan {plan} contradicts itself.",
    # a filing after its last day
    "late.unfiled": "Late: the last day to file was {file_by}, {late_period} ago.",
    "late.filed": "Late: the last day to file was {file_by}; it was filed {late_period} later.",
    # several failures on one claim
    "failure.title": "Failure {failure}: {component}",
    "failure.number": "Failure {failure}",
}
"""The English sentences, by key."""
