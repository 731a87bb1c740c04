"""What was read off pictures and papers: told beside the claim, confirmed by a person, kept with its history."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

from claimpack.commands.line.declared import Option

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.reading.compared import Compared
    from claimpack.core.reading.read_text import TextRead

ALL = "all"
"""The word for every key."""

Take = Annotated[
    list[str] | None,
    Option("--take", metavar="KEY", help="What was read is right, as in unit.serials.unit, or all."),
]
Keep = Annotated[
    list[str] | None,
    Option("--keep", metavar="KEY", help="You looked: what the claim says is right; a key, or all."),
]


class FileRead(NamedTuple):
    """A file of the claim, what was read off it, what of that is proposed, and what else is told, by its name."""

    file: str
    lines: tuple[TextRead, ...]
    found: Sequence[Compared]
    told: Mapping[str, str] = MappingProxyType({})


class Answered(NamedTuple):
    """What a person said beforehand: keys where the reading is right, and keys where the claim is."""

    take: tuple[str, ...] = ()
    keep: tuple[str, ...] = ()

    def about(self, key: str) -> str:
        """What was said of a key: take, keep, or nothing."""
        if {key, ALL} & set(self.take):
            return "take"
        return "keep" if {key, ALL} & set(self.keep) else ""


def confirm(desk: Desk, say: Say, number: str, read: Sequence[FileRead], answered: Answered, *, json: bool) -> int:
    """Tell what was read, have it confirmed, and keep what was read and what was confirmed."""
    from claimpack.commands.screen.changes import note_verdict
    from claimpack.core.judging.assessment import NOT_YET

    _must_be_read(read, answered)
    if not json:
        _tell(say, number, read)
    decided = _decided(say, read, answered, asks=not json)
    with desk.changing(number) as changing:
        after = _after(changing.claim, read, decided, number)
        if after != changing.claim:
            files = ", ".join(each.file for each in read)
            # what was proposed is kept beside what was confirmed, so that nobody can say the machine decided
            changing.keep(after, why=f"read: {files}"[:200], facts=_history(read, decided))
    if json:
        say.document({"claim": number, "files": [_as_json(each, decided) for each in read]})
    else:
        _tell_open(say, number, read, decided)
        if after != changing.entry.claim:
            note_verdict(say, desk, changing)
    is_open = any(each.is_open and not decided.get(each.proposal.key) for one in read for each in one.found)
    # something is open: a script must not take silence for a yes
    return NOT_YET if is_open else 0


def _must_be_read(read: Sequence[FileRead], answered: Answered) -> None:
    """Refuse a word about a key under which nothing was read.

    Raises:
        BadInput: there is one.
    """
    from claimpack.core.values.words import did_you_mean
    from claimpack.errors import BadInput

    keys = dict.fromkeys(each.proposal.key for one in read for each in one.found)
    for option, named in (("--take", answered.take), ("--keep", answered.keep)):
        for key in named:
            if key not in (*keys, ALL):
                raise BadInput(f"{option} {key}: nothing was read under that key", do=did_you_mean(key, keys))


def _decided(say: Say, read: Sequence[FileRead], answered: Answered, *, asks: bool) -> dict[str, str]:
    """Take or keep, by key, where a person said so: on the command line, or now."""
    decided: dict[str, str] = {}
    for one in read:
        for each in one.found:
            key = each.proposal.key
            # the same key on two files is asked about once
            if each.state == "as typed" or key in decided:
                continue
            said = answered.about(key)
            if not said and asks and say.world.stdin.isatty():
                said = _asked(say, one.file, each)
            # where the claim says nothing there is nothing to keep
            if said == "take" or (said and each.state == "differs"):
                decided[key] = said
    return decided


def _asked(say: Say, file: str, each: Compared) -> str:
    from claimpack.commands.talk.asking import typed_at
    from claimpack.commands.talk.yes_or_no import says_yes

    proposal = each.proposal
    if each.state == "new":
        return "take" if says_yes(say, f"{proposal.key}: take {proposal.text}, as {file} shows it?") else ""
    say.choices([proposal.text, each.typed])
    typed = typed_at(say, f"{proposal.key}: which of them does {file} show? [neither]", "12").answer
    return {"1": "take", "2": "keep"}.get((typed or "").strip(), "")


def _after(claim: Claim, read: Sequence[FileRead], decided: Mapping[str, str], number: str) -> Claim:
    """The claim with what was taken over, and what was read and confirmed."""
    from claimpack.core.reading.compared import taken_over, with_read

    all_found = [each for one in read for each in one.found if each.state != "as typed"]
    # reversed, so that of two files the first one counts, which is the one that was asked about
    values = {each.proposal.key: each.proposal.text for each in reversed(all_found) if _takes(each, decided)}
    claim = taken_over(claim, values, f"claim {number}")
    for one in read:
        said = {
            each.proposal.key: each.proposal.text if _takes(each, decided) else each.typed
            for each in one.found
            if each.proposal.key in decided
        }
        claim = with_read(claim, one.file, one.found, said)
    return claim


def _takes(each: Compared, decided: Mapping[str, str]) -> bool:
    return decided.get(each.proposal.key) == "take"


def _history(read: Sequence[FileRead], decided: Mapping[str, str]) -> dict[str, str]:
    """What was proposed and what was confirmed, for the history."""
    found = [each for one in read for each in one.found]
    proposed = [f"{each.proposal.key} {each.proposal.text}" for each in found]
    confirmed = [
        f"{each.proposal.key} {each.proposal.text if _takes(each, decided) else each.typed}"
        for each in found
        if each.proposal.key in decided
    ]
    return {"proposed": ", ".join(dict.fromkeys(proposed)), "confirmed": ", ".join(dict.fromkeys(confirmed))}


def _tell(say: Say, number: str, read: Sequence[FileRead]) -> None:
    from claimpack.core.values.numbers_said import how_many

    say.answer(f"{number}: {how_many(len(read), 'file')} read")
    for one in read:
        say.heading(one.file)
        say.table([*([*map(_row, one.found)]), *((name, text, "") for name, text in one.told.items() if text)])
        if not one.found:
            say.note(f"{one.file}: nothing in it reads as what a claim is compared with.")


def _row(each: Compared) -> tuple[str, str, str]:
    proposal = each.proposal
    told = {"as typed": "as on the claim", "new": "the claim says nothing", "differs": f"the claim says {each.typed}"}
    marks = [
        f"character {one.place}: read {one.read or 'nothing'}, on the claim {one.typed or 'nothing'}"
        + (", which look alike" if one.looks_alike else "")
        for one in each.differing
    ]
    return proposal.key, proposal.text, "; ".join([told[each.state], *(marks if each.state == "differs" else [])])


def _tell_open(say: Say, number: str, read: Sequence[FileRead], decided: Mapping[str, str]) -> None:
    """Say what was taken over, and how to answer what nobody has."""
    told = set()
    for one in read:
        for each in one.found:
            key = each.proposal.key
            if key in told or each.state == "as typed":
                continue
            told.add(key)
            if key in decided:
                is_taken = _takes(each, decided)
                say.answer(
                    f"{key} is {each.proposal.text if is_taken else each.typed}" + ("" if is_taken else ", as it was")
                )
                continue
            command = f"claimpack {'paper' if one.file.startswith('papers/') else 'photo'} read {number}"
            kept = f"; if the claim is right: {command} --keep {key}" if each.state == "differs" else ""
            say.note(f"{key}: if what was read is right: {command} --take {key}{kept}")


def _as_json(one: FileRead, decided: Mapping[str, str]) -> dict[str, Any]:
    return {
        "file": one.file,
        "proposals": [
            {
                "key": each.proposal.key,
                "read": each.proposal.text,
                "raw": each.proposal.raw or each.proposal.text,
                "by": each.proposal.by,
                "typed": each.typed,
                "state": each.state,
                "differs": [{**mark._asdict(), "looks_alike": mark.looks_alike} for mark in each.differing],
                "said": decided.get(each.proposal.key),
                "area": _rounded(each),
            }
            for each in one.found
        ],
        **({"told": dict(one.told)} if one.told else {}),
        "lines": [{"text": line.text, "by": line.by, "sure": line.sure} for line in one.lines],
    }


def _rounded(each: Compared) -> dict[str, float] | None:
    from claimpack.core.reading.read_text import WHOLE

    if each.proposal.spot == WHOLE:
        return None
    return {name: round(side, 4) for name, side in each.proposal.spot._asdict().items()}
