"""What the tool says: sentences kept as a key and its facts, so that a layout may say them in another language."""

from __future__ import annotations

from collections.abc import Mapping
from string import Formatter
from types import MappingProxyType
from typing import NamedTuple

from claimpack.core.values.periods import Period, counted

SAYS: Mapping[str, str] = {
    # which plan
    "plan.found": "Plan {plan} fits: {maker} {model}, sold {sold}.",
    "plan.named": "Plan {plan} is the one the claim names.",
    "plan.named-other": (
        "Plan {plan} is the one the claim names, though its maker, models or days of sale do not fit {maker} {model}, "
        "sold {sold}."
    ),
    "plan.named-none": "The claim names plan {plan}, and there is none of that name.",
    "plan.named-none-near": "The claim names plan {plan}, and there is none of that name. The nearest is {near}.",
    "plan.of-campaign": "Plan {plan} is the one that campaign {campaign} is paid by.",
    "plan.campaign-none": "The claim names campaign {campaign}, and there is none of that name.",
    "plan.campaign-unnamed": "The claim is said to be of a campaign, and does not name it.",
    "plan.none": "No plan fits {maker} {model}, sold {sold}.",
    "plan.none-near": "No plan fits {maker} {model}, sold {sold}. The nearest name is {near}.",
    "plan.none-sold-then": (
        "No plan fits {maker} {model}, sold {sold}: {plans} is for another use or another day of sale."
    ),
    "plan.none-of-the-unit": (
        "No plan fits {maker} {model}, sold {sold}: {plans} is for another use, day of sale, model year or serial."
    ),
    "plan.use-unknown": "Which plan fits depends on how the unit is used, and it is not given: {plans}.",
    "plan.year-unknown": "Which plan fits depends on the unit's model year, and it is not given: {plans}.",
    "plan.serial-unknown": "Which plan fits depends on a serial number that is not given: {plans}.",
    "plan.several": "More than one plan fits equally: {plans}. Name one with the key plan.",
    "plan.sale-unknown": "Which plan fits depends on the purchase date, and it is not given: {plans}.",
    "plan.invoice-unknown": (
        "Which plan fits a unit in stock depends on the day of the dealer's invoice, and it is not given: {plans}."
    ),
    # when cover starts
    "start.from": "Cover starts on {starts}, {role_word}.",
    "start.from-later": "Cover starts on {starts}, {plus_period} after {role_word} ({given}).",
    "start.earliest": "Cover starts on {starts}, {role_word}: the earliest of the days it may start on.",
    "start.earliest-later": (
        "Cover starts on {starts}, {plus_period} after {role_word} ({given}): the earliest of the days it may start on."
    ),
    "start.earliest-unknown": "Cover starts on the earliest of several days, and {fact_word} is not given.",
    "start.latest": "Cover starts on {starts}, {role_word}: the latest of the days it may start on.",
    "start.latest-later": (
        "Cover starts on {starts}, {plus_period} after {role_word} ({given}): the latest of the days it may start on."
    ),
    "start.latest-unknown": "Cover starts on the latest of several days, and {fact_word} is not given.",
    "start.not-sold": "Cover starts when the unit is sold, and it is still in stock.",
    "start.stock-unknown": "The plan does not say from when it covers a unit in stock; its key start_stock would.",
    "start.without-proof": (
        "There is no proof of purchase, so cover starts on {starts}, {after_period} after the unit was built ({built})."
    ),
    "start.without-proof-at-built": (
        "There is no proof of purchase, so cover starts on {starts}, the day the unit was built."
    ),
    "start.without-proof-at-event": (
        "There is no proof of purchase, and {after_period} from the day the unit was built ({built}) are not over, so "
        "cover starts on {starts}, the first day it was seen in use."
    ),
    "start.built-unknown": "There is no proof of purchase and the day the unit was built is not given.",
    "start.before-sale": (
        "Cover starts with the registration, said to be on {registered}, before it was bought on {purchased}."
    ),
    "start.never-registered": "Cover starts with the registration, and the unit was never registered.",
    "start.unknown": "The day cover starts is not known: give {roles_word}.",
    # the event
    "event.on": "The claim is judged on {event}, {role_word}.",
    "event.unknown": "The claim is judged on {role_word}, and that date is not given.",
    "event.before-start": "{event} lies before cover starts on {starts}.",
    # windows: do they apply
    "component.covered": "It covers the {component}.",
    "component.everything": "It covers every component.",
    "component.everything-but": "It covers every component but these: {components}.",
    "component.other": "It does not cover the {component}, only: {covers}.",
    "component.near": "It covers the {near}; is the {component} another word for it?",
    "component.within": (
        "It covers the {near}; if the {component} is one, write {near}, else name it by a word of its own."
    ),
    "component.unfamiliar": (
        "The plan does not know the {component}; this covers {covers}. If it is none of these, "
        "the plan can say so under [words]."
    ),
    "component.unknown": "It covers {covers}; the component that failed is not given.",
    "left-out.component": "It leaves out the {component}.",
    "left-out.all": "It leaves out all that it covers.",
    "left-out.near": "It leaves out the {near}; is the {component} another word for it?",
    "left-out.within": (
        "It leaves out the {near}; if the {component} is one, write {near}, else name it by a word of its own."
    ),
    "left-out.unknown": "It leaves out {components}; the component that failed is not given.",
    "elsewhere.component": "The plan leaves the {component} to {maker}: {because}.",
    "elsewhere.near": "The plan leaves the {near} to its own maker; is the {component} another word for it, or one?",
    "elsewhere.unknown": "The plan leaves {components} to other makers; the component that failed is not given.",
    "use.fits": "It is for {use_word} use.",
    "use.other": "It is for {uses_word} use; the unit is in {use_word} use.",
    "use.unknown": "It is for {uses_word} use; how the unit is used is not given.",
    "use.unknown-stock": "It is for {uses_word} use; what use the unit in stock is meant for is not given.",
    "use.near": "It is for {uses_word} use; the plan does not know {use} use. Does it mean {near_word}?",
    "use.unfamiliar": "It is for {uses_word} use; the plan does not know {use} use.",
    "owner.first": "It is for the first owner, who brings the unit.",
    "owner.stock": "It is for the first owner; the unit is in stock, and nobody has owned it.",
    "owner.later": "It is for the first owner alone; the unit has changed hands.",
    "owner.told": "The maker was told of the second owner on {transferred}, in time (by {by}).",
    "owner.told-late": "The maker was told of the second owner on {transferred}; {by} was the last day.",
    "owner.told-before": (
        "The maker is said to have been told of the second owner on {transferred}, "
        "before it was sold again on {resold}; one of the days may be wrong."
    ),
    "owner.transfer-unknown": "A second owner is covered if the maker was told of it by {by}; that day is not given.",
    "owner.resale-unknown": (
        "A second owner is covered if the maker was told of it within {within_period}; "
        "the day it was sold again is not given."
    ),
    "owner.perhaps-later": (
        "A second owner is covered if the maker was told of it within {within_period}; "
        "whether this is the first owner is not given."
    ),
    "owner.fee": "The maker asks {fee} for the transfer to a second owner.",
    "owner.then": "A second owner is covered for {then_period} from {resold}, the day it was sold again.",
    "owner.then-open": (
        "A second owner is covered for {then_period} alone; whether that is over cannot be said without {fact_word}."
    ),
    "owner.unknown": "It is for the first owner alone; whether this is the first owner is not given.",
    "model-year.fits": "It is for model years {first} to {last}; the unit is of {year}.",
    "model-year.other": "It is for model years {first} to {last} alone; the unit is of {year}.",
    "model-year.unknown": "It is for model years {first} to {last}; the unit's model year is not given.",
    "serial.inside": "Serial number {serial} is among those it is for: {ranges}.",
    "serial.outside": "No serial number of the unit is among those it is for: {ranges}.",
    "serial.unknown": "It is for serial numbers {ranges}; a serial number of the unit that may be one is not given.",
    "sold-in.fits": "It reaches units sold in {place}.",
    "sold-in.other": "It reaches units sold in {places}; this one was sold in {place}.",
    "sold-in.unknown": "It reaches units sold in {places}; where this one was sold is not given.",
    "law.section": "Law gives it: {cites}, read on {read}. Check the current text; not legal advice.",
    "excluded.component": "The {component} is on the plan's list of exclusions.",
    "excluded.despite": "The {component} is on the plan's list of exclusions, which does not reach this window.",
    "excluded.near": "The {near} is on the plan's list of exclusions; is the {component} another word for it?",
    "excluded.within": (
        "The {near} is on the plan's list of exclusions; if the {component} is one, write {near}, "
        "else name it by a word of its own."
    ),
    "excluded.all": "The plan's list of exclusions takes away all it covers: {components}.",
    "excluded.rest": "It leaves out some of what it covers, and the plan's exclusions the rest: {components}.",
    "excluded.unknown": "The plan does not cover {components}; the component that failed is not given.",
    "excluded.defect": "The plan does not cover damage from {defect_word}.",
    "finding.past": "The {what} of {value} is past the limit: it counts as failed at {limit} {bound_word}.",
    "finding.at": "The {what} of {value} is at the limit: it counts as failed at {limit} {bound_word}.",
    "finding.near-name": (
        "It counts as failed by its {what}, at {limit} {bound_word}; is {near} another name for it? Then write {what}."
    ),
    "finding.short": "The {what} of {value} is no failure: it counts as failed at {limit} {bound_word}.",
    "finding.absent": "It counts as failed by its {what}, at {limit} {bound_word}; no such finding is given.",
    "finding.other-unit": (
        "It counts as failed by its {what}, at {limit} {bound_word}; {value} cannot be compared with that."
    ),
    "finding.disagree": (
        "It counts as failed by its {what}, at {limit} {bound_word}; the findings of it lie on both sides."
    ),
    "failure.limit": "failed at {limit} {bound_word}",
    "failure.counts": "counts as failed",
    "failure.none": "no failure",
    "finding.component": "What is covered of {components} goes by a finding; the component that failed is not given.",
    "finding.near": "What is covered of the {near} goes by a finding; is the {component} another word for it, or one?",
    # parts sold, campaigns
    "part.of-units": "It is for units; the claim is about a part that was sold.",
    "part.sold": "It is for parts sold.",
    "part.fitted": "It is for parts that the shop fitted.",
    "part.fitted-unknown": "It is for parts that the shop fitted; whether it fitted this one, and when, is not given.",
    "part.never-fitted": "It is for parts that the shop fitted; this one it did not.",
    "campaign.unnamed": "The claim is said to be of a campaign, and does not name it.",
    "campaign.not-there": "The campaign that the claim names is not among those of the plan.",
    "campaign.other-serial": "Serial number {serial} is not among those of campaign {campaign}: {ranges}.",
    "campaign.open": "{event} is inside: campaign {campaign} runs from {opens} to {closes}, both days included.",
    "campaign.early": "{event} lies before campaign {campaign} opens on {opens}; it closes on {closes}.",
    "campaign.late": "{event} is too late: campaign {campaign}, open since {opens}, closed on {closes}.",
    # windows: are they open
    "age.inside": "{event} is inside: cover for {length_period} from {starts} ends on {ends}, {left_period} later.",
    "age.last-day": "{event} is the last day: cover for {length_period} from {starts} ends on {ends}; it still counts.",
    "age.outside": "{event} is too late by {late_period}: cover for {length_period} from {starts} ended on {ends}.",
    "age.inside-anyway": "It is inside cover for {length_period} whichever day is the one not given.",
    "age.inside-at-least": (
        "{event} is inside: its cover from {starts} ends on {ends} at the earliest; {fact_word} is not given ({named})."
    ),
    "age.outside-anyway": (
        "It is too late by {late_period} at least, whichever day is the one not given: "
        "cover for {length_period} ended on {ends} at the latest."
    ),
    "age.start-unknown": "Whether cover for {length_period} is over cannot be said without the day it started.",
    "age.event-unknown": "Whether cover for {length_period} is over cannot be said without the day judged on.",
    "repair-time.adds": "For {days_period} in repair ({stays}) its last day moves from {was} to {ends}.",
    "repair-time.adds-by": "For {days_period} in repair ({stays}) its last day moves from {was} to {ends} ({cites}).",
    "repair-time.by-law": (
        "For {days_period} in repair ({stays}) its last day moves from {was} to {ends}: {cites}. "
        "Check the current text; not legal advice."
    ),
    "repair-time.open": ("Days in repair lengthen it, and whether that is enough cannot be said without {fact_word}."),
    "span.inside": "{event} is inside: its cover from {starts} ends on {ends}, {left_period} later.",
    "span.last-day": "{event} is the last day: its cover from {starts} ends on {ends}, and the last day counts.",
    "span.outside": "{event} is too late by {late_period}: its cover from {starts} ended on {ends}.",
    "span.unknown": "Whether its cover is over cannot be said without the day judged on.",
    "hours.inside": "The meter reads {hours} h; the limit is {limit} h, {left} h to go.",
    "hours.at-limit": "The meter reads {hours} h, exactly the limit; a reading equal to the limit is inside.",
    "hours.outside": "The meter reads {hours} h, {over} h over the limit of {limit} h.",
    "hours.no-meter": "The unit has no hour meter, so the limit of {limit} h does not count: its age alone decides.",
    "hours.impossible": (
        "The limit is {limit} h; a reading of {hours} h is more than the unit can have run since it was built."
    ),
    "hours.unknown": "The limit is {limit} h, and the unit's hour-meter reading is not given.",
    "hours.meter-unknown": "The limit is {limit} h; neither a reading is given, nor that the unit has no hour meter.",
    "meter.inside": "The meter reads {reading} {meter}; the limit is {limit} {meter}, {left} to go.",
    "meter.at-limit": "The meter reads {reading} {meter}, exactly the limit; a reading equal to the limit is inside.",
    "meter.outside": "The meter reads {reading} {meter}, {over} over the limit of {limit} {meter}.",
    "meter.none": "The unit has no meter of {meter}, so the limit of {limit} {meter} does not count.",
    "meter.unknown": "The limit is {limit} {meter}, and what the unit's meter of {meter} reads is not given.",
    "last.age": "Its {length_period} from {starts} ended on {ends}; that closes it only with the last of its limits.",
    "last.age-anyway": (
        "Its {length_period} ended on {ends} at the latest; that closes it only with the last of its limits."
    ),
    "last.hours": (
        "The meter reads {hours} h, {over} h over the limit of {limit} h; "
        "that closes it only with the last of the others."
    ),
    "last.meter": (
        "The meter reads {reading} {meter}, {over} over the limit of {limit} {meter}; "
        "that closes it only with the last of the others."
    ),
    "scheduled.inside": "The {component} is covered up to its renewal at {limit} h; the meter reads {hours} h.",
    "scheduled.outside": "The {component} was covered up to its renewal at {limit} h; the meter reads {hours} h.",
    "scheduled.no-meter": "The {component} is covered up to its renewal at {limit} h; without a meter its age decides.",
    "scheduled.unknown": "The {component} is covered up to its renewal at {limit} h; the reading is not given.",
    "scheduled.near": (
        "The {near} is covered up to its renewal alone; if the {component} is one, write {near}, "
        "else name it by a word of its own."
    ),
    "scheduled.component": "These are covered up to their renewal alone: {near}. What failed is not given.",
    "scheduled.all": "All it covers was covered up to its renewal alone, and the meter is past it: {near}.",
    "registered.adds": "It was registered on {registered}, in time (by {by}), which adds {adds_period}.",
    "registered.in-time": "It was registered on {registered}, in time (by {by}).",
    "registered.late": "It was registered on {registered}, later than {by}.",
    "registered.never": "It was never registered; {by} was the last day.",
    "registered.would-decide": (
        "Registered by {by} it would be covered until {ends}; the registration date is not given."
    ),
    "registered.unknown": "It must have been registered by {by}; the registration date is not given.",
    "registered.before-sale": (
        "It is said to be registered on {registered}, before it was bought on {purchased}; one of the days is wrong."
    ),
    "registered.open": "Whether it was registered in time cannot be said without {fact_word}.",
    "registered.start-unknown": (
        "Whether it was registered in time on {registered} cannot be said without the day cover started."
    ),
    "replaced.from": "The {component} was replaced on {repaired}.",
    "replaced.own": "A replaced part has its own {length_period}, until {ends}.",
    "replaced.remaining": "A replaced part keeps what was left of {window}, until {ends}.",
    "replaced.remaining-at-least": "A replaced part keeps what was left of {window}, until {ends} at least.",
    "replaced.unknown": (
        "Whether cover was open on {repaired}, when it was replaced, cannot be said without {fact_word}."
    ),
    "replaced.other-word": "The {earlier} was replaced on {repaired}; is the {component} another word for it?",
    "replaced.component-unknown": "The {earlier} was replaced on {repaired}; the component that failed is not given.",
    "replaced.nothing": "When it was replaced on {repaired} no window was open, so it was not put in under warranty.",
    # a claim sent again
    "again.paid": "Resubmitted; {paid} was paid before, {asked} is asked for.",
    "again.unpaid": "Resubmitted; nothing was paid before.",
    # the answer in one line
    "answer.covered": "Covered until {ends} under {window}.",
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
    "answer.not-covered-before": "Not covered: {event} lies before cover starts on {starts}.",
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
    # what is missing
    "missing.proof": "proof of purchase",
    "missing.proof-file": "the file that proves the purchase",
    "missing.file": "the file {file}",
    "missing.serial": "serial number: {role}",
    "missing.serial-form": "serial number in the maker's form: {role}",
    "missing.serial-as-read": "serial number as on the plate: {role}",
    "missing.purchased-as-read": "the day of purchase as on its proof",
    "missing.shot": "photo: {shot}",
    "missing.paper": "paper: {kind}",
    "missing.part-first": "when the failed part goes back",
    "missing.finding": "finding: {what}",
    "missing.finding-in": "finding: {what}, in {unit}",
    "missing.approval": "prior approval",
    "missing.approval-answer": "the maker's answer about its approval",
    "missing.approval-refused": "an approval the maker refused",
    "missing.approval-amount": "prior approval for the whole amount",
    "missing.goodwill": "the reason for goodwill",
    "missing.case": "check the kind of case",
    "missing.part-sold": "the part that was sold",
    "missing.part-sold-on": "the day the part was sold",
    "missing.complaint": "complaint",
    "missing.cause": "cause",
    "missing.correction": "correction",
    "missing.cause-of": "cause of failure {failure} ({component})",
    "missing.correction-of": "correction of failure {failure} ({component})",
    "missing.component-of": "the component of failure {failure}",
    "missing.defect-of": "what kind of defect failure {failure} is ({component})",
    "missing.verdict-of": "whether failure {failure} is covered ({component})",
    "missing.component": "the component that failed",
    "missing.failed": "the day it failed",
    "missing.registered": "check the registration date",
    "missing.defect": "what kind of defect it is",
    "missing.repaired": "the day of the repair",
    "missing.held": "a held part",
    "missing.drained": "held part drained: {part}",
    "missing.clock": "labour time: {operation}",
    "missing.owner": "the owner's name",
    "missing.future": "a date in the future: {role_word}",
    "missing.photo-date": "check the day a picture was taken: {file}",
    "missing.component-word": "check the word for what failed: {component}",
    "missing.meter": "check the hour meter",
    "missing.part-cost": "the cost of a part: {part}",
    "missing.list-price": "the list price of a part: {part}",
    "missing.paid-before": "what the maker paid before, without tax: {component}, {repaired}",
    "missing.paid-before-any": "check what was paid for this unit before",
    "missing.cover-start": "the day cover starts",
    "missing.share": "{fact_word} ({named})",
    "missing.dealer-level": "your level with the maker",
    "missing.extra-kind": "the kind of an extra: {what}",
    "missing.extra-distance": "the distance of a visit: {what}",
    "missing.extra-rate": "the amount of an extra: {what}",
    "missing.extra-approval": "the maker's approval of an extra: {what}",
    "missing.longer-than-a-day": "labour of more than a day in one entry: {operation}",
    "missing.labour-clock": "check the labour time: {operation}",
    "missing.approval-again": "a new approval",
    "missing.approval-day": "an approval that holds on the day of the repair",
    "missing.approval-date": "check the approval's date",
    "missing.plan-fault": "a plan that says one thing: {plan}",
    "fault.takes-away": "Window {window} covers the {component}, and the list of exclusions takes it away again.",
    "fault.spelt": "The plan leaves out {said} and knows {component} as another part; one word for both decides this.",
    "fault.renewal": "Window {window} limits the {said}, which it does not cover; it covers the {component}.",
    "fault.circle": "Operations {operation} and {other} include each other; only the longer one is claimed.",
    "fault.misspelt": "Operation {operation} includes {said}, which is not in the schedule; {other} is.",
    "fault.no-coin": "The plan pays extras up to {amount}, which has more decimals than {currency} has.",
    "why.plan-requires": "The plan asks for it.",
    "why.proof-not-kept": (
        "The book keeps no such file; claimpack paper add {claim} FILE --proof {kind} puts one in its place."
    ),
    "why.paper-not-kept": (
        "The book keeps no such file; claimpack paper add {claim} FILE adds one of that name, "
        "and claimpack paper remove {claim} {place} takes it off the claim."
    ),
    "why.photo-not-kept": (
        "The book keeps no such file; claimpack photo add {claim} FILE adds one of that name, "
        "and claimpack photo remove {claim} {place} takes it off the claim."
    ),
    "why.serial-form": "{value} does not have the form the plan gives for the serial of the {role}.",
    "read.same": "The same was read off this picture.",
    "read.alone": "This picture was read as {read}; the claim gives no such number.",
    "read.confirmed": "This picture was read as {read}; a person who looked at it says {typed}.",
    "why.read-looks-alike": (
        "{file} was read as {read}, the claim says {typed}. Character {places}: read {read_marks}; on the claim "
        "{typed_marks}. These look alike."
    ),
    "why.read-differs": (
        "{file} was read as {read}, the claim says {typed}. Character {places}: read {read_marks}; on the claim "
        "{typed_marks}."
    ),
    "why.read-other": "{file} was read as {read}, another number than the claim's {typed}.",
    "why.read-day": "{file} was read as {read}, the claim says {typed}.",
    "why.paper-component": "The plan asks for it where the {component} failed.",
    "why.approval-component": "The plan asks for approval before the {component} is replaced.",
    "why.approval-above": "{claimed} {currency} is claimed; above {limit} {currency} the plan asks for approval first.",
    "why.goodwill": "A favour is asked for with its reason.",
    "why.part-sold": "The claim is about a part that was sold, and does not say which.",
    "why.part-sold-on": "The part's own warranty counts from it.",
    "why.case": "What is asked as goodwill is written down, and the case is not said to be goodwill.",
    "why.approval-asked": "The maker was asked for its approval, and has not answered.",
    "why.approval-asked-on": "The maker was asked for its approval on {asked}, and has not answered.",
    "why.approval-refused": "The maker refused it.",
    "why.approval-refused-on": "The maker refused it on {on}.",
    "why.approval-refused-because": "The maker refused it on {on}: {because}.",
    "why.approval-amount": "{claimed} {currency} is claimed; approval {number} reaches to {limit} {currency}.",
    "why.verdict-of": "{facts_word} would decide it.",
    "why.every-maker": "Every maker asks for complaint, cause and correction.",
    "why.windows-by-component": "The plan's windows go by component.",
    "why.component-near": "The plan does not know the {component}, but it speaks of the {near}.",
    "why.judged-on-it": "The plan judges a claim on it.",
    "why.registered-before-sale": "It is said to be registered on {registered}, before it was bought on {purchased}.",
    "why.impossible-hours": "{hours} h is more than the {most} h the unit can have run since it was built.",
    "why.meter": "The unit is said to have no hour meter, yet a reading of {hours} h is given.",
    "why.list-price": "The plan adds handling to parts the maker sent, by their list price.",
    "why.part-first": "The plan pays when the part is back with the maker.",
    "why.unit-cap": (
        "The plan pays up to {cap} for one unit, so what it was paid before counts. "
        "Write it down with claimpack set {claim} 'earlier[{place}].paid' AMOUNT."
    ),
    "why.unit-cap-any": "The plan pays up to {cap} for one unit; the claim names no earlier repair, so 0 is counted.",
    "why.unit-cap-year": "The plan pays up to {cap} for one unit in a year of cover.",
    "why.dealer-level": "The plan's labour rates go by dealer level; shop.toml gives it under [dealer_levels].",
    "why.extra-kind": "What the plan pays of it goes by its kind: {kinds}.",
    "why.extra-distance": "The plan pays {rate} a {unit_word}.",
    "why.extra-rate": "The plan has no rate for a distance, so it is priced at 0.",
    "why.extra-approval": "The plan asks for an approval of each {kind_word}.",
    "why.part-cost": "The maker is to pay for it, and it is priced at 0.",
    "why.hardly-worked": "{claimed} h are claimed by the schedule, and {worked} h are written down as worked.",
    "why.defects-excluded": "The plan excludes some: {defects_word}.",
    "why.filing-counts": "The time to file counts from it.",
    "why.held": "The maker may inspect the failed part; if it cannot be produced the claim is charged back.",
    "why.drained": "Fuel or oil in a boxed part is a fire hazard.",
    "why.clock": "The clock was started on {started} and not stopped, and no hours are given.",
    "why.longer-than-a-day": "{worked} h are written down, and a day has 24; make an entry a day of it.",
    "why.no-time": "No hours and no start and end are given.",
    "why.owner": "The maker may ask the owner.",
    "why.future": "{date} lies after today, {today}; a claim states what has happened.",
    "why.photo-early": "By the camera's clock: {taken}, before {earliest}.",
    "why.photo-late": "By the camera's clock: {taken}, after today, {today}.",
    "why.approval-ran-out": "The maker approved a repair up to {expires}, and it is not repaired yet.",
    "why.approval-outrun": "The maker approved a repair up to {expires}; it was repaired on {repaired}.",
    "why.approval-late": "Approval is dated {on}, after the repair on {repaired}.",
    # several failures on one claim
    "failure.title": "Failure {failure}: {component}",
    "failure.number": "Failure {failure}",
    # prices
    "price.from-maker": "Sent by the maker at no charge.",
    "price.rate-class": "An hour of {group} labour is paid {rate}.",
    "price.rate-level": "An hour is paid {rate} to a dealer of level {level}.",
    "price.rate-class-level": "An hour of {group} labour is paid {rate} to a dealer of level {level}.",
    "price.rate-from": "An hour is paid {rate} from {since} on.",
    "price.handling-band": "Handling {percent} % at a unit cost of {cost}.",
    "price.handling-supplied": "Handling {percent} % of the list price, {list}.",
    "price.no-list-price": "Its list price is not given, so no handling is claimed.",
    "price.of-failure": "Failure {failure}, {component}.",
    "price.failure-closed": "Failure {failure}, {component}: not covered.",
    "price.failure-elsewhere": "Failure {failure}, {component}: for a claim with {maker}.",
    "price.in-kit": "It comes with {kit}.",
    "price.core-claimed": "Deposit, claimed until the old part is returned.",
    "price.core-left": "Deposit on the old part, which the plan does not pay.",
    "price.core-returned": "The old part was returned on {returned}, so its deposit of {core} is not claimed.",
    "price.included": "Included in {operation}.",
    "price.once": "Claimed once; this time is shown, not claimed.",
    "price.schedule": "Schedule {schedule} h.",
    "price.schedule-clock": "Schedule {schedule} h, clocked {clocked} h.",
    "price.beyond": "Schedule {schedule} h; {beyond} h clocked beyond it are not claimed.",
    "price.clocked": "Clocked {clocked} h.",
    "price.stated": "Hours as stated: {clocked} h.",
    "price.rounded": "Rounded to {claimed} h, claimed in steps of {step} h.",
    "price.no-time": "No time is given yet.",
    "price.over-diagnosis": "The plan pays up to {hours} h of diagnosis; this is beyond it.",
    "price.no-diagnosis": "The plan pays for diagnosis only where what failed is covered.",
    "price.share": "{window} pays {percent} % of it until {until}.",
    "price.share-months": "{window} pays {left} / {months} of it, by the whole months left on {event}.",
    "price.share-over": "{window} pays nothing of it any more on {event}.",
    "price.share-open": "{window} pays {share} of it until {until} at least; {fact_word} is not given ({named}).",
    "price.share-or-more": (
        "{window} pays {share} of it at least; whether more cannot be said without {fact_word} ({named})."
    ),
    "price.share-moved": "{window} pays {percent} % of it until {until}, moved by {days_period} in repair.",
    "price.share-full-moved": "{window} pays it in full until {until}, moved by {days_period} in repair.",
    "price.share-months-moved": (
        "{window} pays {left} / {months} of it, by the whole months left on {event}, moved by {days_period} in repair."
    ),
    "price.shares": "Paid on the day judged: {parts} of parts, {labour} of labour, {extras} of extras.",
    "price.not-paid": "{window} does not pay for {kind_word}.",
    "price.less": "{amount} of it is not claimed: {cause_word}.",
    "price.over-claim": "The plan pays up to {cap} a claim; this is above it.",
    "price.over-unit-life": "The plan pays up to {cap} for a unit in all, {paid} before this claim; this is above it.",
    "price.over-unit-year": (
        "The plan pays up to {cap} for a unit in a year of cover, {paid} before this claim; this is above it."
    ),
    "price.deductible": "The plan leaves {amount} of each claim to {payer_word}.",
    "price.below-least": "The plan pays no claim below {least}, and this one comes to {amount}.",
    "price.tax": "Tax of {percent} % on it, {tax}.",
    "price.by-distance": "{distance} x {rate} a {unit_word}.",
    "price.over-distance": "The plan pays up to {most} {unit_word} of a visit; this part of {what} is beyond it.",
    "price.over-most": "The plan pays up to {most} each time; this part of {what} is above it.",
    "price.over-kind": "The plan pays {kind_word} up to {cap} a claim; this part of {what} is above it.",
    "price.over-cap": "The plan pays extras up to {cap}; this part of {what} is above it.",
    # dates to keep
    "deadline.file-by": "file by",
    "deadline.approval": "repair under the approval",
    "deadline.cover-ends": "cover ends",
    "deadline.hold-until": "keep the failed part until",
    "because.file-by": "The plan gives {within_period} from {role_word}.",
    "because.file-by-rolled": (
        "The plan gives {within_period} from {role_word}; {last} is no working day, so the next one counts."
    ),
    "because.approval": "The maker approved a repair up to that day.",
    "because.cover-ends": "Window {window}.",
    "because.hold-until": "The plan keeps failed parts {for_period} from {role_word}.",
}
"""The English sentences, by key."""

WORDS: Mapping[str, str] = {
    "delivered": "the day it was delivered",
    "purchased": "the day it was bought",
    "in_service": "the day it was first used",
    "registered": "the day it was registered",
    "presented": "the day it was brought in",
    "failed": "the day it failed",
    "repaired": "the day it was repaired",
    "resold": "the day it was sold again",
    "transferred": "the day the maker was told of the new owner",
    "returned": "the day it was ready",
    "invoiced": "the day of the dealer's invoice",
    "built": "the day it was built",
    "filed": "the day it is filed",
    "paid": "the day it is paid",
    "household": "household",
    "professional": "professional",
    "rental": "rental",
    "less.over-diagnosis": "beyond the hours of diagnosis",
    "less.over-distance": "beyond the distance of a visit",
    "less.over-most": "above the most each time",
    "less.over-kind": "above the cap for its kind",
    "less.over-claim": "above the cap of a claim",
    "less.over-unit-life": "above the cap of a unit",
    "less.over-unit-year": "above the cap of a unit in a year",
    "less.deductible": "the deductible",
    "payer.owner": "the owner",
    "payer.shop": "the shop",
    "bound.most": "or less",
    "bound.least": "or more",
    "line.parts": "parts",
    "line.labour": "labour",
    "line.extras": "extras",
    "extra.freight": "freight",
    "extra.sublet": "outside work",
    "extra.travel": "travel",
    "extra.disposal": "disposal",
    "extra.other": "other extra",
    "extra.rest": "extras of other kinds",
    "distance.mile": "mile",
    "distance.miles": "miles",
    "distance.km": "km",
    "distance.kms": "km",
    "distance.visit": "visit",
    "material": "a defect of material",
    "workmanship": "a defect of workmanship",
    "misuse": "misuse",
    "maintenance": "lack of maintenance",
    "wear": "wear",
    "accident": "an accident",
    "unknown": "an unknown cause",
    "dates.delivered": "the delivery date",
    "dates.purchased": "the purchase date",
    "dates.in_service": "the day of first use",
    "dates.registered": "the registration date",
    "dates.presented": "the day it was brought in",
    "dates.failed": "the day it failed",
    "dates.repaired": "the day of the repair",
    "dates.resold": "the day it was sold again",
    "dates.transferred": "the day the maker was told of the new owner",
    "dates.returned": "the day the owner was told it is ready",
    "unit.built": "the day the unit was built",
    "unit.invoiced": "the day of the dealer's invoice",
    "approval.asked": "the day the maker's approval was asked for",
    "approval.on": "the day of the maker's approval",
    "part_sold.sold": "the day the part was sold",
    "part_sold.fitted": "the day the shop fitted the part",
    "questions.asked": "the day the maker asked",
    "questions.answered": "the day the shop answered",
    "approval.expires": "the last day of the maker's approval",
    "earlier.repaired": "the day of an earlier repair",
    "earlier.presented": "the day it was brought in for an earlier repair",
    "earlier.returned": "the day it was ready after an earlier repair",
    "parts.core_returned": "the day a core was returned",
    "papers.on": "the day of a paper",
    "findings": "a finding that the plan goes by",
    "held.since": "the day from which a part is held",
    "labour.started": "the start of work",
    "labour.ended": "the end of work",
    "unit.hours": "the hour-meter reading",
    "earlier.hours": "the hour-meter reading at the earlier repair",
    "unit.meters": "what the unit's meters read",
    "earlier.meters": "what the meters read at the earlier repair",
    "earlier.component": "the component replaced before",
    "unit.meter": "whether the unit has an hour meter",
    "unit.use": "how the unit is used",
    "stock.use": "what use the unit in stock is meant for",
    "unit.model_year": "the unit's model year",
    "unit.serials": "the serial number",
    "unit.sold_in": "where the unit was sold",
    "owner.first_owner": "whether this is the first owner",
    "failure.component": "the component that failed",
    "start_stock": "from when the plan covers a unit in stock",
    "serial.unit": "unit",
    "serial.engine": "engine",
    "serial.battery": "battery",
    "plan": "the plan's name",
    "or": "or",
    "and": "and",
    "year": "year",
    "years": "years",
    "month": "month",
    "months": "months",
    "week": "week",
    "weeks": "weeks",
    "day": "day",
    "days": "days",
}
"""The English words that stand for keys inside sentences."""


class Sentence(NamedTuple):
    """One thing said: a key of the table and the facts it names.

    Facts whose name ends in `_word` hold keys of the word table, joined by `|` for "or" or `&` for "and"; those that
    end in `_period` hold an ISO 8601 duration. The role of a serial number is said by its word where there is one.
    """

    key: str
    facts: Mapping[str, str] = MappingProxyType({})

    def said(self, says: Mapping[str, str] = SAYS, words: Mapping[str, str] = WORDS) -> str:
        """The sentence in the words given; English where a table lacks it."""
        template = says.get(self.key) or SAYS[self.key]
        said = template.format_map({name: _spoken(name, fact, words) for name, fact in self.facts.items()})
        return said.replace("….", "…")

    def __str__(self) -> str:
        """The sentence in English."""
        return self.said()


def say(key: str, **facts: object) -> Sentence:
    """A sentence with its facts as text."""
    return Sentence(key=key, facts={name: str(fact) for name, fact in facts.items()})


def placeholders(template: str) -> set[str]:
    """The names of the facts a sentence asks for."""
    return {name for _, name, _, _ in Formatter().parse(template) if name}


def _spoken(name: str, fact: str, words: Mapping[str, str]) -> str:
    if name.endswith("_word"):
        return _joined(fact, words)
    if name.endswith("_period"):
        return period_in_words(fact, words)
    return serial_role(fact, words) if name == "role" else fact


def _joined(fact: str, words: Mapping[str, str]) -> str:
    for mark, between in (("|", "or"), ("&", "and")):
        if mark in fact:
            said = [_word(part, words) for part in fact.split(mark)]
            return f"{', '.join(said[:-1])} {_word(between, words)} {said[-1]}"
    return _word(fact, words)


def _word(key: str, words: Mapping[str, str]) -> str:
    return words.get(key) or WORDS.get(key, key)


def serial_role(role: str, words: Mapping[str, str] = WORDS) -> str:
    """What a serial number is of, in words; as the claim or the plan writes it where no word is known for it."""
    key = f"serial.{role.casefold()}"
    return words.get(key) or WORDS.get(key, role)


def period_in_words(iso: str, words: Mapping[str, str] = WORDS) -> str:
    """An ISO 8601 duration as a person says it: `24 months`, `1 year and 6 months`."""
    units = ("year", "month", "week", "day")
    parts = [
        f"{count} {_word(unit if count == 1 else unit + 's', words)}"
        for count, unit in zip(counted(iso) or Period(), units, strict=True)
        if count
    ]
    return f" {_word('and', words)} ".join(parts) or f"0 {_word('days', words)}"


def days_in_words(count: int) -> str:
    """A number of days as an ISO 8601 duration, for a fact that is spoken."""
    return f"P{count}D"
