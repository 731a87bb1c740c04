"""Lines that text is set in, on paper and on a screen: none ends within a figure and its unit, a section, or a date."""

from __future__ import annotations

import re
import textwrap

_UNITS = (
    "psi kPa MPa bar mm cm cc m km mi µm in ft ft-lb in-lb V mV kV A mA Ah W kW Wh hp N Nm rpm Hz kΩ MΩ mΩ Ω kg g lb "
    "oz l L ml gal qt h hr s min px dB °C °F % "
    "hours? days? weeks? months? years? miles? cycles? claims? units? parts? payments? times? photos? pages? drops? "
    "horas? días? semanas? meses mes años? millas? ciclos? fotos? páginas?"
)
_MONTHS = (
    "January February March April May June July August September October November December "
    "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre"
)
# what stands before a number and is nothing without it: a code of law with its section, a day's month, a page
_BEFORE = (
    r"[A-Z]{3,5} Code Laws? Act Stat\. R\.S\. U\.S\.C\. [Ss]ections? [Ss]ecs?\. ss?\. [Aa]rts?\. [Aa]rticles? "
    r"[Cc]lause [Cc]h\. [Rr]eg\. [Pp]ar\. pp?\. pages? Nos?\. [Nn]r\. núm\. pág\. "
)


def _any_of(words: str) -> str:
    return "|".join(words.split())


_TOGETHER = re.compile(
    rf"(?<=\d) (?=(?:de )?(?:{_any_of(f'{_UNITS} {_MONTHS}')}|[A-Z]{{3}}|U\.S\.C\.|[\w°]+/[a-z]+)(?![\w/]))"
    rf"|\b(?:{_any_of(_BEFORE + _MONTHS)})(?:,| de)? (?=\d)|(?<=[§¶]) (?=\S)|(?<=\d,) (?=(?:19|20)\d\d\b)| (?=· )"
)
_KEPT = "\N{NO-BREAK SPACE}"


def unbroken(said: str, blank: str = _KEPT) -> str:
    """A text with another sign for each blank that no line may end at.

    Those are between a number and its unit, its currency or what it counts, between a section and the law before it,
    within a date, and before a dot that parts two things.
    """
    return _TOGETHER.sub(lambda found: found[0].replace(" ", blank), said)


def in_lines(text: str, room: int, first: str = "", later: str = "") -> list[str]:
    """A text in lines of plain characters, as a mail or a terminal has them; a word longer than a line stays whole.

    Args:
        text: the text; several blanks count as they stand.
        room: characters on a line.
        first: what the first line begins with.
        later: what every other line begins with.
    """
    lines = textwrap.wrap(
        unbroken(text),
        room,
        initial_indent=first,
        subsequent_indent=later,
        break_long_words=False,
        break_on_hyphens=False,
    )
    # only lines are kept together: whoever copies them gets the blanks that were typed
    return [line.replace(_KEPT, " ") for line in lines]
