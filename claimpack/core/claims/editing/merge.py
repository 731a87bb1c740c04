"""Two people's changes to one claim brought together: what each changed, and where both changed the same."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Literal, NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.changes import differences, in_words
from claimpack.core.facts.failure import Finding
from claimpack.core.facts.keys import keys_of
from claimpack.core.facts.lines import HeldPart, Labour, Part
from claimpack.core.facts.pictures import Paper, Photo
from claimpack.core.facts.record import Record
from claimpack.core.facts.unit import Serial
from claimpack.core.values.words import folded

Side = Literal["mine", "theirs"]
"""Whose value stands where both changed the same."""


class Conflict(NamedTuple):
    """A key that both changed, each in another way; an empty text stands for nothing."""

    key: str
    before: str
    mine: str
    theirs: str

    def __str__(self) -> str:
        """Both values, with what stood there before where there was something."""
        said = f"{self.key}: yours is {_quoted(self.mine)}, theirs is {_quoted(self.theirs)}"
        return f"{said} (it was {_quoted(self.before)})" if self.before else said


def _quoted(text: str) -> str:
    return repr(text) if text else "nothing"


class Merged(NamedTuple):
    """The keys of the claim with both changes in it, and where both changed the same."""

    keys: dict[str, Any]
    clashes: tuple[Conflict, ...]


def merged(base: Claim, mine: Claim, theirs: Claim, side: Side | None = None) -> Merged:
    """What I changed since the base, on top of what stands now; lists are compared entry by entry.

    Args:
        base: the claim that both changes began from.
        mine: the claim as I want it.
        theirs: the claim as it stands now.
        side: whose value to take where both changed the same; theirs stands in the keys while nobody chose.

    Source: a rule of this tool's, no source; a change of one key never takes another's change of another key along.
    """
    merging = _Merging(side or "theirs")
    keys = merging.record("", base, mine, theirs)
    return Merged(keys, tuple(merging.clashes))


def unfounded(mine: Claim, theirs: Claim) -> tuple[Conflict, ...]:
    """Every key in which two claims differ, where nobody knows what they began from."""
    return tuple(Conflict(found.key, "", found.after, found.before) for found in differences(theirs, mine))


class _Merging:
    """One merge under way."""

    def __init__(self, side: Side) -> None:
        self._side = side
        self.clashes: list[Conflict] = []

    def record(self, above: str, base: Any, mine: Any, theirs: Any) -> dict[str, Any]:
        """The keys of a record, each on its own."""
        said = mine.model_fields_set | theirs.model_fields_set
        return {
            key: self._value(f"{above}{key}", *(getattr(one, name) for one in (base, mine, theirs)))
            for key, name in keys_of(type(theirs)).items()
            if name in said
        }

    def _value(self, key: str, base: Any, mine: Any, theirs: Any) -> Any:
        if mine in (theirs, base):
            return theirs
        if theirs == base:
            return mine
        if all(isinstance(one, Record) for one in (base, mine, theirs)):
            return self.record(f"{key}.", base, mine, theirs)
        # entries are followed one by one: two people may add to one list without a clash
        if isinstance(theirs, tuple):
            return self._entries(key, base, mine, theirs)
        return self._chosen(key, base, mine, theirs)

    def _chosen(self, key: str, base: Any, mine: Any, theirs: Any) -> Any:
        self.clashes.append(Conflict(key, *map(in_words, (base, mine, theirs))))
        return mine if self._side == "mine" else theirs

    def _entries(self, key: str, base: Sequence[Any], mine: Sequence[Any], theirs: Sequence[Any]) -> list[Any]:
        """A list that both changed: theirs in their order, without what I took out, then what I added."""
        of_mine, of_theirs = _followed(base, mine), _followed(base, theirs)
        came_from = {place: old for old, place in of_theirs.items()}
        slots = [_ItemSlot(came_from.get(place), entry) for place, entry in enumerate(theirs)]
        # what they took away keeps a slot, as I may have changed it: then it is a clash
        slots += [_ItemSlot(old, None) for old in range(len(base)) if old not in of_theirs]
        kept = []
        for old, entry in slots:
            place = None if old is None else of_mine.get(old)
            left = entry if old is None else self._entry(_key(key, old, base[old]), base[old], _at(mine, place), entry)
            kept += [] if left is None else [_ItemSlot(old, left)]
        # an order that only I changed is kept; changed by both it is asked about
        if not _in_order(of_mine) and self._takes_my_order(key, of_mine, of_theirs):
            kept.sort(key=lambda slot: len(mine) if slot.old is None else of_mine.get(slot.old, len(mine)))
        # what I added comes last, whatever they added before
        mine_added = [entry for place, entry in enumerate(mine) if place not in of_mine.values()]
        return self._with_added(key, kept, mine_added)

    def _entry(self, key: str, base: Any, mine: Any, theirs: Any) -> Any:
        if mine in (theirs, base):
            return theirs
        return mine if theirs == base else self._chosen(key, base, mine, theirs)

    def _takes_my_order(self, key: str, of_mine: dict[int, int], of_theirs: dict[int, int]) -> bool:
        if _in_order(of_theirs):
            return True
        mine, theirs = (
            ", ".join(str(old + 1) for old in sorted(of, key=of.__getitem__)) for of in (of_mine, of_theirs)
        )
        if mine != theirs:
            self.clashes.append(Conflict(f"{key}: their order", "", mine, theirs))
        return mine != theirs and self._side == "mine"

    def _with_added(self, key: str, kept: Sequence[_ItemSlot], mine: Sequence[Any]) -> list[Any]:
        """The entries kept, then mine; an entry that both added alike is there once, and one thing has one entry."""
        found = [slot.entry for slot in kept]
        theirs = {place: slot.entry for place, slot in enumerate(kept) if slot.old is None}
        for entry in mine:
            alike = next((place for place, other in theirs.items() if other == entry), None)
            # added by both: the same entry once, one thing told two ways is a clash
            place = _same_thing(entry, theirs) if alike is None else alike
            if place is None:
                found.append(entry)
                continue
            other = theirs.pop(place)
            found[place] = other if alike is not None else self._chosen(_key(key, None, entry), None, entry, other)
        return found


class _ItemSlot(NamedTuple):
    """An entry of a list, and its place in the list that both began from, if it was there."""

    old: int | None
    entry: Any


def _key(listed: str, place: int | None, entry: Any) -> str:
    """What an entry of a list is told by: a serial number by its role, else its place; a new one by its name."""
    if isinstance(entry, Serial):
        return f"{listed}.{entry.role.replace(' ', '-')}"
    return f"{listed}: {_name(entry)}" if place is None else f"{listed}[{place + 1}]"


def _at(entries: Sequence[Any], place: int | None) -> Any:
    return None if place is None else entries[place]


def _followed(base: Sequence[Any], other: Sequence[Any]) -> dict[int, int]:
    """Where each entry of a list is found in a later one: by all it says, else by what it is called, else renamed."""
    found = _paired(((old, repr(entry)) for old, entry in enumerate(base)), map(repr, other), set())
    # first what is untouched, then what goes by the same name, then what stands in the same gap
    left = [(old, _name(entry)) for old, entry in enumerate(base) if old not in found]
    found |= _paired(left, map(_name, other), set(found.values()))
    return found | _renamed(found, len(base), len(other))


def _renamed(found: Mapping[int, int], before: int, after: int) -> dict[int, int]:
    """Entries that another one stands in the place of, behind the same neighbour: they were called otherwise."""
    behind: dict[int, deque[int]] = {}
    there, neighbour = set(found.values()), -1
    for place in range(after):
        neighbour = place if place in there else neighbour
        if place not in there:
            behind.setdefault(neighbour, deque()).append(place)
    renamed, neighbour = {}, -1
    for old in range(before):
        neighbour = found.get(old, neighbour)
        if old not in found and behind.get(neighbour):
            renamed[old] = behind[neighbour].popleft()
    return renamed


def _paired(wanted: Iterable[tuple[int, str]], there: Iterable[str], taken: set[int]) -> dict[int, int]:
    places: dict[str, deque[int]] = {}
    for place, name in enumerate(there):
        if place not in taken:
            places.setdefault(name, deque()).append(place)
    return {old: places[name].popleft() for old, name in wanted if places.get(name)}


def _in_order(followed: dict[int, int]) -> bool:
    places = [followed[old] for old in sorted(followed)]
    return places == sorted(places)


def _same_thing(entry: Any, others: Mapping[int, Any]) -> int | None:
    """The place of another entry about the one picture, serial number or held part that this one is about."""
    # two parts of one number may be two parts: only what has a name of its own is the same thing
    if not isinstance(entry, Photo | Paper | Serial | HeldPart):
        return None
    return next((place for place, other in others.items() if _name(other) == _name(entry)), None)


def _name(entry: Any) -> str:
    """What an entry of a list is called, so that it is the same one when something else about it was changed."""
    match entry:
        case Photo() | Paper():
            return entry.file
        case Serial():
            return folded(entry.role)
        case Part():
            return entry.number or folded(entry.name)
        case Labour():
            return f"{folded(entry.operation)} {folded(entry.technician)}"
        case Finding():
            return f"{folded(entry.what)} {entry.unit}"
        case HeldPart():
            return folded(entry.part)
        case _:
            return _first_words(entry)


def _first_words(entry: Any) -> str:
    return folded(str(next(iter(dict(entry).values())))) if isinstance(entry, Record) else str(entry)
