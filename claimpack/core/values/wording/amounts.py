"""Sentences of prices and of dates to keep."""

from __future__ import annotations

from collections.abc import Mapping

SAYS: Mapping[str, str] = {
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
    "price.schedule-clock": "Schedule {schedule} h, {clocked} h from start to end.",
    "price.schedule-stated": "Schedule {schedule} h, {clocked} h as stated.",
    "price.beyond": "Schedule {schedule} h; {beyond} h worked beyond it are not claimed.",
    "price.clocked": "{clocked} h from start to end.",
    "price.stated": "Hours as stated: {clocked} h.",
    "price.rounded": "Rounded to {claimed} h, claimed in steps of {step} h.",
    "price.no-time": "No time is given yet.",
    "price.over-diagnosis": "The plan pays up to {hours} h of diagnosis; this is beyond it.",
    "price.no-diagnosis": "The plan pays for diagnosis only where what failed is covered.",
    "price.share": "{window} pays {percent} % of it until {until}.",
    "price.share-months": "{window} pays {left} / {months} of it, by the whole months left on {event}.",
    "price.share-over": "{window} no longer pays any of it on {event}.",
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
    "price.by-seller": "{window} is the seller's to pay, and the plan gives no recourse to the maker.",
    "price.recourse": "{window} is the seller's to pay, who may claim it from the maker.",
    "price.handling-in": "Handling of {amount} is in it.",
    "price.tax-of-owner": "Tax of {percent} % on what the owner pays.",
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
