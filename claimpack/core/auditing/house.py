"""What an audit knows of the shop itself: when it is open, who works there, how it is reached, what parts cost."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.values.words import run_on, word_set

_TITLES = {"mr", "mrs", "ms", "miss", "dr", "herr", "frau", "sr", "jr"}
_DIGITS_OF_A_PHONE = 7


class Person(NamedTuple):
    """Somebody who works in the shop; the phone is empty where it is not known."""

    name: str
    phone: str = ""


class PriceList(NamedTuple):
    """What parts of one maker cost the shop, by part number without hyphens.

    Args:
        costs: None where there is no list, or it cannot be read.
        file: the list's file, or where one would be looked for.
        currency: what the costs are in; empty where it is not known.
        wrong: why it cannot be read, in words.
    """

    costs: Mapping[str, Decimal] | None = None
    file: str = ""
    wrong: str = ""
    currency: str = ""

    def cost_of(self, number: str) -> Decimal | None:
        """What a part costs; None where the list does not say."""
        return (self.costs or {}).get(run_on(number))


def _no_list(_maker: str) -> PriceList:
    return PriceList()


class House(NamedTuple):
    """The shop as its settings tell it; what they do not tell is not held against a claim.

    Args:
        hours: when it is open, by weekday, Monday 0; a day that is not there is shut. Empty: not known.
        holidays: days on which it is shut whatever the weekday.
        staff: who works there.
        phone: the shop's own phone.
        email: its mail address.
        address: its postal address.
        price_list: what the price list of a maker says parts cost it.
        vault_gone: the place of the vault where it is not there, as a share that is not connected.
        is_known: whether anything is known of it here; False for a shop whose folder nobody named.
    """

    hours: Mapping[int, tuple[time, time]] = {}
    holidays: frozenset[date] = frozenset()
    staff: tuple[Person, ...] = ()
    phone: str = ""
    email: str = ""
    address: str = ""
    price_list: Callable[[str], PriceList] = _no_list
    vault_gone: str = ""
    is_known: bool = True

    def why_shut(self, started: datetime, ended: datetime, grace: timedelta) -> str:
        """Why nobody was at work then, in words; empty where the shop was open, or nothing is known of its hours."""
        day = started.date()
        if day in self.holidays:
            return f"{day} is a holiday"
        if not self.hours:
            return ""
        open_hours = self.hours.get(day.weekday())
        if open_hours is None:
            return f"{day} is a day on which the shop is shut"
        # in the zone of the clock: a time with a zone and one without cannot be compared
        opens, shuts = (datetime.combine(day, at, started.tzinfo) for at in open_hours)
        # whoever began in time may finish what is on the bench, so an end is given twice the grace
        if started < opens - grace or started >= shuts + grace or ended > shuts + 2 * grace:
            return f"the shop is open from {opens:%H:%M} to {shuts:%H:%M} that day"
        return ""

    def named(self, name: str) -> str:
        """The member of staff with that name, however it is written; empty where nobody has it."""
        # one word alone is a first name that many people have
        wanted = name_words(name)
        return next((each.name for each in self.staff if len(wanted) > 1 and name_words(each.name) == wanted), "")

    def phone_of(self, number: str) -> str:
        """Whose phone it is, in words: the shop's, or a member of staff's; empty where it is neither."""
        wanted = phone_digits(number)
        if not wanted:
            return ""
        if phone_digits(self.phone) == wanted:
            return "the shop's phone"
        return next((f"the phone of {each.name}" for each in self.staff if phone_digits(each.phone) == wanted), "")


def name_words(name: str) -> tuple[str, ...]:
    """The words of a person's name for comparing, whichever comes first, without titles."""
    # a set of words: "Customer, Ann" and "Ann Customer" are one person
    return tuple(word for word in word_set(name) if word not in _TITLES)


def phone_digits(number: str) -> str:
    """The last digits of a phone number, which tell it from others however it is written; empty where there are few."""
    digits = "".join(mark for mark in number if mark.isdigit())
    # country and trunk codes come and go before the last ten digits
    return digits[-10:].removeprefix("1") if len(digits) >= _DIGITS_OF_A_PHONE else ""


def known_people(house: House, technicians: Iterable[str]) -> House:
    """The house with those who worked on a claim among its staff."""
    known = {name_words(each.name) for each in house.staff}
    # settings may lag behind who works there; a clock tells it anyway
    others = [Person(name) for name in dict.fromkeys(technicians) if name and name_words(name) not in known]
    return house._replace(staff=(*house.staff, *others)) if others else house
