"""A letter as it is set: who sends it, its parts in the order they are read, and the whole as plain text."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from claimpack.core.facts.record import Record
from claimpack.core.values.days import in_a_letter
from claimpack.core.values.wording.lines import in_lines
from claimpack.core.values.words import Line, Text


class Sender(Record):
    """The shop as its letters name it."""

    name: Line = ""
    address: Text = ""
    phone: Line = ""
    email: Line = ""
    dealer_number: Line = ""


class Letter(NamedTuple):
    """A letter ready to be set; facts and dates are labels with their values, in the order they are read.

    `address` is where it goes, a line each, the maker's name first; `rows` are priced lines, each with what it is, how
    much of it and its amount, and `enclosed` what goes along with it.
    """

    sender: Sender
    on: date
    to: str
    subject: str
    facts: tuple[tuple[str, str], ...]
    amounts: tuple[tuple[str, str], ...]
    paragraphs: tuple[str, ...]
    ask: str
    closing: str
    small_print: str
    address: tuple[str, ...] = ()
    rows: tuple[tuple[str, str, str], ...] = ()
    enclosed: tuple[str, ...] = ()

    @property
    def addressed(self) -> tuple[str, ...]:
        """Who it goes to, a line each: where no address is known, the name alone."""
        return self.address or (self.to,)


def address_of(maker: str, written: str) -> tuple[str, ...]:
    """The lines of an address, the maker's name before them where they do not begin with it; none for none."""
    lines = [line.strip() for line in written.splitlines() if line.strip()]
    if not lines:
        return ()
    return tuple(lines) if lines[0].casefold().startswith(maker.casefold()) else (maker, *lines)


def as_text(written: Letter, width: int = 76) -> str:
    """The letter as plain text, for a mail or a portal."""
    sender = written.sender
    head = [sender.name, *sender.address.split("\n"), sender.phone, sender.email]
    blocks = [
        "\n".join(line for line in head if line),
        in_a_letter(written.on),
        "To: " + "\n    ".join(written.addressed),
        _wrapped(f"Subject: {written.subject}", width),
        _labelled(written.facts),
        *(_wrapped(part, width) for part in ("To whom it may concern,", *written.paragraphs)),
        _in_rows(written.rows, width),
        _labelled(written.amounts),
        *(_wrapped(part, width) for part in (written.ask, written.closing)),
        f"Yours sincerely,\n\n\nSignature: {'_' * 30}\nName:      {'_' * 30}\nDate:      {'_' * 30}",
        "\n".join(["Enclosed:", *(f"  {one}" for one in written.enclosed)]) if written.enclosed else "",
        _wrapped(written.small_print, width),
    ]
    return "\n\n".join(block for block in blocks if block)


def _wrapped(text: str, width: int) -> str:
    return "\n".join(in_lines(text, width))


def _in_rows(rows: tuple[tuple[str, str, str], ...], width: int) -> str:
    """Priced lines, the amounts flush right; one too long for a line goes on below."""
    widest = max((len(amount) for *_, amount in rows), default=0)
    said = []
    for what, much, amount in rows:
        room = width - widest - 4
        first, *more = in_lines(f"{what}{f', {much}' if much else ''}", room) or [""]
        said.append(f"  {first:<{room}}  {amount:>{widest}}")
        said += [f"  {line}" for line in more]
    return "\n".join(said)


def _labelled(lines: tuple[tuple[str, str], ...]) -> str:
    widest = max((len(label) for label, _ in lines), default=0) + 1
    return "\n".join(f"  {label + ':':<{widest}}  {value}" for label, value in lines)
