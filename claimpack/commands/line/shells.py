"""How shells ask what may come next, and how each wants to be told.

The scripts that ask are those that `--install-completion` puts into the shell.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from claimpack.commands.line.completing import Offer

ASKED = "_CLAIMPACK_COMPLETE"
"""The variable by which a shell asks, as in `complete_bash`."""

SHELLS = ("bash", "zsh", "fish", "powershell", "pwsh")


# Signs that a shell takes for its own, were they put behind its prompt as they are.
_OF_THE_SHELL = re.compile(r"([^\w@%+=:,./-])")
# PowerShell takes curved quotes for straight ones, a comma for a list, and an @ at the beginning for a variable.
_SINGLE, _DOUBLE = "'\u2018-\u201b", '"\u201c-\u201e'
_PLAIN_IN_POWERSHELL = re.compile(r"[\w%+=:./-]+")
_PIECE = re.compile(
    rf"[{_SINGLE}]((?:[^{_SINGLE}]|[{_SINGLE}]{{2}})*)[{_SINGLE}]?"
    rf"|[{_DOUBLE}]((?:[^{_DOUBLE}`]|`.|[{_DOUBLE}]{{2}})*)[{_DOUBLE}]?"
    rf"|`(.)|([^\s`{_SINGLE}{_DOUBLE}]+)|(\s+)"
)


class Completion(NamedTuple):
    """What a shell asks: which shell, the words before the one that is typed, and what is typed of it."""

    shell: str
    words: list[str]
    begun: str


def asked(environ: Mapping[str, str]) -> Completion | None:
    """What a shell asks; None where none does."""
    what, _, shell = environ.get(ASKED, "").partition("_")
    if what != "complete" or shell not in SHELLS:
        return None
    if shell == "bash":
        place = environ.get("COMP_CWORD", "")
        words, at = _words(environ.get("COMP_WORDS", "")), int(place) if place.isdecimal() else 0
        return Completion(shell, words[1:at], words[at] if at < len(words) else "")
    line = environ.get("_TYPER_COMPLETE_ARGS", "")
    if shell in ("powershell", "pwsh"):
        words = _words_of_powershell(line)[1:]
        # with the quotation mark that it is begun by
        begun = "".join(_words_of_powershell(environ.get("_TYPER_COMPLETE_WORD_TO_COMPLETE", ""))[:1])
        return Completion(shell, words[:-1] if begun else words, begun)
    words = _words(line)[1:]
    is_begun = bool(words) and not line.endswith(" ")
    return Completion(shell, words[:-1] if is_begun else words, words[-1] if is_begun else "")


def _words(line: str) -> list[str]:
    """The words of a line as a shell takes it apart; a quotation that is still open is a word as well."""
    import shlex

    for closing in ("", "'", '"'):
        try:
            return shlex.split(line + closing)
        except ValueError:
            continue
    return line.split()


def _words_of_powershell(line: str) -> list[str]:
    """The words of a line as PowerShell takes it apart: a backslash is itself, a backtick takes a sign as it is."""
    words, is_over = list[str](), True
    for single, double, sign, plain, gap in _PIECE.findall(line):
        if not gap:
            words += [""] if is_over else []
            words[-1] += re.sub(rf"([{_SINGLE}]){{2}}", r"\1", single) + sign + plain
            words[-1] += re.sub(rf"`(.)|([{_DOUBLE}]){{2}}", r"\1\2", double)
        is_over = bool(gap)
    return words


def told(shell: str, offers: Sequence[Offer], action: str = "") -> tuple[str, int]:
    """The offers as a shell reads them, and the exit code that goes with them.

    No text of a claim may become a command: zsh evaluates what it is told, the others put it behind their prompt.

    Args:
        shell: which shell.
        offers: what may come next.
        action: of fish, whether it only asks if there is anything.
    """
    # shells read an offer a line
    offers = [offer for offer in offers if offer.word.isprintable()]
    if shell == "bash":
        return "\n".join(_OF_THE_SHELL.sub(r"\\\1", offer.word) for offer in offers), 0
    if shell == "zsh":
        listed = "\n".join(_in_zsh(offer) for offer in offers).replace("'", "'\\''")
        return (f"_arguments '*: :(({listed}))'" if listed else "_files"), 0
    if shell == "fish":
        lines = "\n".join(f"{offer.word}\t{offer.says}" if offer.says else offer.word for offer in offers)
        return ("", 0 if offers else 1) if action == "is-args" else (lines, 0)
    return "\n".join(f"{_in_powershell(offer.word)}:::{offer.says or ' '}" for offer in offers), 0


def _in_zsh(offer: Offer) -> str:
    """A word and what it means, each between double quotes."""
    word, says = (re.sub(r'([\\"$`])', r"\\\1", text).replace(":", r"\\:") for text in offer)
    return f'"{word}":"{says}"' if says else f'"{word}"'


def _in_powershell(word: str) -> str:
    quoted = re.sub(rf"([{_SINGLE}])", r"\1\1", word)
    return word if _PLAIN_IN_POWERSHELL.fullmatch(word) else f"'{quoted}'"
