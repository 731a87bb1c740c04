"""Schemas are read by another reader, `jsonschema`, and compared with what the records themselves take and refuse."""

from __future__ import annotations

import datetime as dt
import json
import random
from copy import deepcopy
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Annotated

import pytest
from jsonschema import Draft202012Validator
from pydantic import ValidationError

from claimpack.core.drafting.json_schema import json_schema
from claimpack.core.facts.record import Record
from claimpack.core.values.marks import Field
from claimpack.core.values.money import NotNegative, Number, PartOfOne, Positive
from claimpack.core.values.words import Named
from claimpack.folder.file_kinds import FILE_KINDS, record_of, schema_of
from claimpack.folder.toml_files import read_toml
from claimpack.template_files import shipped

SAMPLES = Path(__file__).parents[3] / "sample_claims"
FOLDERS = {"coverage": "plan", "terms": "terms", "packet": "layout", "tag": "stock"}
FOLDERS |= {"forms": "form", "campaigns": "campaign", "shop": "shop", "claim": "claim"}
TEMPLATES = [(path, FOLDERS[folder]) for folder in FOLDERS for path in sorted(shipped(folder).glob("*.toml"))]
SAMPLE_FILES = [*((path, "claim") for path in sorted(SAMPLES.glob("*/claim.toml"))), (SAMPLES / "shop.toml", "shop")]
WHOLE = [(path, kind) for path, kind in (*TEMPLATES, *SAMPLE_FILES) if path.parent.name != "claim"]
WHOLE_ALONE = [(path, kind) for path, kind in WHOLE if "like" not in read_toml(path)]
"""Those that take nothing from another file."""
STRANGE = [-1, "", "soon", "P", True, [], {}, [1], {"x": 1}, "1066-10-14", "1,50", 3, "2026-13-01"]
MEANT_BY_SEVERAL_KEYS = {"value_error", "contradiction"}


def kind_of(path, kind):
    return "statute" if path.name.startswith("us-ca-") else kind


def name_of(value):
    return value.name if isinstance(value, Path) else ""


def as_json(keys):
    """What an editor makes of a TOML file: dates and times are text."""
    if isinstance(keys, dict):
        return {key: as_json(value) for key, value in keys.items()}
    if isinstance(keys, list):
        return [as_json(value) for value in keys]
    return keys.isoformat() if isinstance(keys, dt.date) else keys


@cache
def reader(kind):
    return Draft202012Validator(json.loads(schema_of(kind)))


def is_refused(kind, keys):
    return not reader(kind).is_valid(as_json(keys))


@pytest.mark.parametrize("kind", FILE_KINDS)
def test_every_schema_is_one(kind):
    assert Draft202012Validator.check_schema(json.loads(schema_of(kind))) is None


@pytest.mark.parametrize(("path", "kind"), WHOLE, ids=name_of)
def test_a_schema_takes_every_file_that_comes_with_the_program(path, kind):
    assert [error.message for error in reader(kind_of(path, kind)).iter_errors(as_json(read_toml(path)))] == []


@pytest.mark.parametrize(("path", "kind"), TEMPLATES, ids=name_of)
def test_a_template_names_its_schema_on_its_first_line(path, kind):
    steps = "" if kind == "shop" else "../"
    assert path.read_text().partition("\n")[0] == f"#:schema {steps}schema/{kind_of(path, kind)}.json"


class Bin(Record):
    """A bin on the shelf.

    Args:
        label: what is written on it, as in `B3`.
        note: what is to be known of it.
    """

    label: str = "none"
    note: str = ""
    size: tuple[int, int] = (0, 0)
    any: Number = Decimal(0)
    not_negative: NotNegative = Decimal(0)
    positive: Positive = Decimal(1)
    share: PartOfOne = Decimal(0)
    up_to_one: Annotated[NotNegative, Field(le=1)] = Decimal(0)
    words: dict[str, str] = {}
    named: dict[Named, str] = {}


def of_a_bin():
    return json_schema(Bin, "a bin")


def test_a_record_is_described_by_the_first_line_about_it():
    assert of_a_bin()["description"] == "A bin on the shelf."


def test_a_key_tells_what_it_counts_as_while_it_is_absent_where_that_is_something():
    assert [of_a_bin()["properties"][key].get("default") for key in ("label", "note")] == ["none", None]
    assert "default" not in of_a_bin()["properties"]["note"]


@pytest.mark.parametrize(("size", "is_taken"), [([1], False), ([1, 2], True), ([1, 2, 3], False)])
def test_a_list_of_so_many_is_taken_with_no_fewer_and_no_more(size, is_taken):
    assert Draft202012Validator(of_a_bin()).is_valid({"size": size}) is is_taken


@pytest.mark.parametrize(
    ("key", "taken"),
    [
        ("any", ["-0.5", "0", "0.5", "1", "1.5"]),
        ("not_negative", ["0", "0.5", "1", "1.5"]),
        ("positive", ["0.5", "1", "1.5"]),
        ("share", ["0", "0.5", "1"]),
        ("up_to_one", ["0", "0.5", "1"]),
    ],
)
def test_a_number_in_quotes_is_taken_within_the_bounds_of_its_kind(key, taken):
    reads = Draft202012Validator(of_a_bin())
    assert [number for number in ("-0.5", "0", "0.5", "1", "1.5") if reads.is_valid({key: number})] == taken


@pytest.mark.parametrize(("key", "is_bound"), [("words", False), ("named", True)])
def test_the_names_in_a_table_are_bound_where_their_kind_is(key, is_bound):
    assert ("propertyNames" in of_a_bin()["properties"][key]) is is_bound


def spots(keys):
    """Every table or list in a file, with the key or place of each value in it."""
    inner = keys.items() if isinstance(keys, dict) else enumerate(keys)
    for key, value in inner:
        yield keys, key
        if isinstance(value, (dict, list)):
            yield from spots(value)


def mutant(keys, chance):
    """A file with one thing changed: a value that is none, a key misspelt, or a key left out."""
    changed = deepcopy(keys)
    holder, key = chance.choice(list(spots(changed)))
    if isinstance(holder, dict) and chance.random() < 0.4:
        value = holder.pop(key)
        if chance.random() < 0.5:
            holder[f"{key}x"] = value
    else:
        holder[key] = chance.choice(STRANGE)
    return changed


def refusals(kind, keys):
    try:
        record_of(kind).model_validate(keys)
    except ValidationError as error:
        return {found["type"] for found in error.errors()}
    return set()


@cache
def mutants():
    """Each changed file that was read: its name and seed, what its record refuses, whether its schema refuses it."""
    made = []
    for seed, (path, named) in enumerate((WHOLE_ALONE * 10)[:240]):
        kind, keys = kind_of(path, named), mutant(read_toml(path), random.Random(seed))
        made.append((f"{path.name} {seed}", refusals(kind, keys), is_refused(kind, keys)))
    return made


def test_a_schema_refuses_what_the_record_refuses_for_a_single_key():
    assert [name for name, why, refused in mutants() if why - MEANT_BY_SEVERAL_KEYS and not refused] == []


def test_a_schema_refuses_nothing_that_the_record_takes():
    assert [name for name, why, refused in mutants() if not why and refused] == []
