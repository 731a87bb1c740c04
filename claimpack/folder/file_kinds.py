"""The kinds of file that a shop writes, and the record that each holds."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from pathlib import Path

from claimpack.core.facts.record import Record
from claimpack.core.values.words import did_you_mean
from claimpack.errors import BadInput
from claimpack.folders import way

_MARK = "#:schema"
SCHEMA_FOLDER = "schema"
"""The folder of a shop that holds a schema for every kind of file, for editors."""

FILE_KINDS: Mapping[str, tuple[str, str]] = {
    "plan": ("coverage plan", "claimpack.core.plans.plan:Plan"),
    "statute": ("statutory coverage", "claimpack.core.plans.plan:WindowSet"),
    "campaign": ("campaign of a maker", "claimpack.core.plans.campaign:Campaign"),
    "terms": ("payment terms", "claimpack.core.plans.terms:Terms"),
    "claim": ("claim", "claimpack.core.claims.claim:Claim"),
    "shop": ("settings of a shop", "claimpack.shop:ShopSettings"),
    "layout": ("layout of packets", "claimpack.packet.drawing.layout:Layout"),
    "stock": ("stock of tags", "claimpack.tag.stock:Stock"),
    "form": ("mapping of a maker's form", "claimpack.forms.mapping:Form"),
}
"""Each kind of file: what it is called, and where its record lies."""

ANSWER = "answer"
"""The kind of what every command answers under `--json`, which is no file of a shop."""


def record_of(kind: str) -> type[Record]:
    """The record that a kind of file holds.

    Raises:
        BadInput: there is no such kind.
    """
    if kind not in FILE_KINDS:
        raise BadInput(f"{kind!r} is no kind of file", do=did_you_mean(kind, FILE_KINDS))
    module, _, name = FILE_KINDS[kind][1].partition(":")
    record: type[Record] = getattr(import_module(module), name)
    return record


@cache
def schema_of(kind: str) -> str:
    """The JSON Schema of a kind of file, or of all JSON answers, as text.

    Raises:
        BadInput: there is no such kind.
    """
    if kind == ANSWER:
        return Path(__file__).with_name("answers.json").read_text(encoding="utf-8")
    from claimpack.core.drafting.json_schema import json_schema

    record = record_of(kind)
    return json.dumps(json_schema(record, FILE_KINDS[kind][0]), indent=1, ensure_ascii=False) + "\n"


def schema_files(home: Path) -> Iterator[tuple[Path, str]]:
    """The schema of every kind of file, each with its place in a shop's folder."""
    for kind in FILE_KINDS:
        yield home / SCHEMA_FOLDER / f"{kind}.json", schema_of(kind)


def with_schema_line(text: str, kind: str, folder: Path, shop: Path | None) -> str:
    """Text of a file with a first line that names its schema in the shop's folder; without one outside of a shop.

    Args:
        text: the text, with or without such a line.
        kind: the kind of file.
        folder: where the file will lie.
        shop: the shop's folder, if there is one.
    """
    bare = text.partition("\n")[2] if text.startswith(_MARK) else text
    if shop is None or not (shop / SCHEMA_FOLDER / f"{kind}.json").is_file():
        return bare
    steps = way(shop.resolve() / SCHEMA_FOLDER / f"{kind}.json", folder.resolve())
    return f"{_MARK} {Path(steps).as_posix()}\n{bare}"
