"""Sentences of cover: which plan, when cover starts, which windows speak about a claim and are open."""

from __future__ import annotations

from collections.abc import Mapping

SAYS: Mapping[str, str] = {
    # which plan
    "plan.found": "Plan {plan} fits: {maker} {model}, sold {sold}.",
    "plan.named": "Plan {plan} is the one the claim names.",
    "plan.named-other": (
        "Plan {plan} is the one the claim names, though its maker, models or days of sale do not fit {maker} {model}, "
        "sold {sold}."
    ),
    "plan.named-none": "The claim names plan {plan}, and there is none by that name.",
    "plan.named-none-near": "The claim names plan {plan}, and there is none by that name. The nearest is {near}.",
    "plan.of-campaign": "Plan {plan} is the one that campaign {campaign} is paid by.",
    "plan.campaign-none": "The claim names campaign {campaign}, and there is none by that name.",
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
    "event.before-start": "{event} is before cover starts on {starts}.",
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
    "seller.owes": "It binds the seller, and the plan gives no recourse to the maker.",
    "seller.recourse": "It binds the seller, who may claim what it pays from the maker.",
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
    "campaign.early": "{event} is before campaign {campaign} opens on {opens}; it closes on {closes}.",
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
    "repair.adds": "It was repaired on {repaired}, while this was open, which adds {adds_period} once.",
    "repair.none": "No repair from {starts} to {ends} is given; with one it lasts {adds_period} longer.",
    "repair.unmended": (
        "The repair of {repaired} did not mend what failed, and that was told on {told}, within {within_period} "
        "(by {by}): for this its cover is not over on {was}."
    ),
    "repair.unmended-by": (
        "The repair of {repaired} did not mend what failed, and that was told on {told}, within {within_period} "
        "(by {by}): for this its cover is not over on {was} ({cites})."
    ),
    "repair.unmended-by-law": (
        "The repair of {repaired} did not mend what failed, and that was told on {told}, within {within_period} "
        "(by {by}): for this its cover is not over on {was}: {cites}. Check the current text; not legal advice."
    ),
    "repair.unmended-late": (
        "A repair of {repaired} that did not mend what failed counts if that was told by {by}; "
        "here {told} is taken for that day, unless an earlier one is given."
    ),
    "repair.unmended-limit": (
        "What the repair of {repaired} did not mend may be covered past this limit too; still needed: {fact_word}."
    ),
    "repair.unmended-open": (
        "If the repair of {repaired} did not mend what failed, told by {by}, its cover is not over; "
        "that cannot be said without {fact_word}."
    ),
    "presumed.within": (
        "Up to {until} what failed is presumed to have been faulty from the start; the kind of defect need not be told."
    ),
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
}
"""The English sentences, by key."""
