"""What is erased of a claim on request: an owner's data, or pictures and papers; figures and dates stay."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from typing import Any, NamedTuple

ERASED = "[erased]"
"""What stands where an owner's words stood in a text."""

_OWNERS = ("name", "phone", "email", "address")
_FREE = frozenset(
    (
        *(
            "complaint",
            "cause",
            "correction",
            "caption",
            "note",
            "shot",
            "what",
            "because",
            "name",
            "kind",
            "by",
            "part",
        ),
        *("question", "conditions", "text", "answer", "asks"),
    )
)
"""Keys of a claim whose texts people write as they like; all others are words, numbers and files a figure hangs on."""

_LEAST_LETTERS, _LEAST_DIGITS = 3, 6
PROVING = ("documents", "events")
"""Facts of an erasure that only a proof of the history reads."""

_HASHES = frozenset(("packet", "contents", *PROVING))

Document = dict[str, Any]
"""A claim as its JSON document."""


class Erased(NamedTuple):
    """What an erasure left: hashes of contents erased, of each revision rewritten, and of each event, by its place."""

    contents: tuple[str, ...] = ()
    documents: Mapping[int, str] = {}
    events: Mapping[int, str] = {}

    def facts(self) -> dict[str, str]:
        """As the history keeps it."""
        told = {
            "contents": "\n".join(self.contents),
            "documents": "\n".join(f"{revision}:{sha256}" for revision, sha256 in self.documents.items()),
            "events": "\n".join(f"{position}:{sha256}" for position, sha256 in self.events.items()),
        }
        return {name: text for name, text in told.items() if text}


def erased_of(facts: Mapping[str, str]) -> Erased:
    """What an erasure left, read from its facts.

    Raises:
        ValueError: somebody changed them.
    """
    contents = tuple(facts.get("contents", "").split())
    return Erased(contents, _by_number(facts.get("documents", "")), _by_number(facts.get("events", "")))


def _by_number(text: str) -> dict[int, str]:
    parts = (line.partition(":") for line in text.split())
    return {int(number): sha256 for number, _, sha256 in parts}


def owner_words(documents: Iterable[Document]) -> tuple[str, ...]:
    """Everything that names the owner in any revision, each once, the longest first."""
    found: dict[str, None] = {}
    for document in documents:
        owner = document.get("owner") or {}
        for key in _OWNERS:
            whole = str(owner.get(key) or "")
            found |= dict.fromkeys(line.strip() for line in (whole, *whole.splitlines()))
    # the longest first, or a name would be struck out of the middle of an address and leave its rest
    return tuple(sorted((word for word in found if _tells(word)), key=lambda word: (-len(word), word)))


def _tells(word: str) -> bool:
    """Whether a word is long enough to be looked for in other texts: a shorter one would strike out what it is not."""
    letters, digits = sum(map(str.isalpha, word)), sum(map(str.isdecimal, word))
    # two letters or a house number alone stand in too many words that are nobody's
    return letters >= _LEAST_LETTERS or digits >= _LEAST_DIGITS


def struck(text: str, words: Iterable[str]) -> str:
    """A text with every one of the words struck out, whatever their case and the blanks between."""
    for word in words:
        text = re.sub(_pattern(word), ERASED, text, flags=re.IGNORECASE)
    return text


def says(text: str, words: Iterable[str]) -> bool:
    """Whether a text says one of the words."""
    return any(re.search(_pattern(word), text, flags=re.IGNORECASE) for word in words)


def _pattern(word: str) -> str:
    said = r"\s+".join(map(re.escape, word.split()))
    # whole words alone: an owner called Ring must not take the piston ring away
    return rf"(?<![\w-]){said}(?![\w-])"


def without_owner(document: Document, words: Collection[str]) -> Document:
    """A claim without its owner's data, nor any words of it in its free texts."""
    owner = {key: value for key, value in (document.get("owner") or {}).items() if key not in _OWNERS}
    return {**_struck_in(document, words), **({"owner": owner} if "owner" in document else {})}


def _struck_in(value: Any, words: Collection[str], key: str = "") -> Any:
    if isinstance(value, dict):
        return {name: _struck_in(each, words, name) for name, each in value.items()}
    if isinstance(value, list):
        return [_struck_in(each, words, key) for each in value]
    return struck(value, words) if isinstance(value, str) and key in _FREE else value


def without_files(document: Document, paths: Collection[str]) -> Document:
    """A claim that names none of the files any more: pictures with their marks, papers, the proof of purchase."""
    return {key: _without(value, paths) for key, value in document.items()}


def _without(value: Any, paths: Collection[str]) -> Any:
    if isinstance(value, dict):
        erased = ("read",) if _is_of(value, paths) else ()
        return {
            key: _without(each, paths) for key, each in value.items() if not _names(each, paths) and key not in erased
        }
    if isinstance(value, list):
        return [_without(each, paths) for each in value if not _names(each, paths) and not _is_of(each, paths)]
    return value


def _names(value: Any, paths: Collection[str]) -> bool:
    return isinstance(value, str) and value in paths


def _is_of(value: Any, paths: Collection[str]) -> bool:
    return isinstance(value, dict) and _names(value.get("file"), paths)


def facts_struck(facts: Mapping[str, str], words: Collection[str]) -> dict[str, str]:
    """The facts of an event with the owner's words struck out; hashes are left as they are."""
    return {name: fact if name in _HASHES else struck(fact, words) for name, fact in facts.items()}
