"""A record reads by itself what is plainly written; what it reads, pydantic reads alike from the same marks."""

from __future__ import annotations

import copy
import datetime as dt
import tomllib
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import get_type_hints

import pytest
from builders import a_claim
from pydantic import TypeAdapter, ValidationError

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import Limit
from claimpack.core.drafting.meanings import every_record
from claimpack.core.facts.by_library import adapter_of, in_its_words
from claimpack.core.facts.failure import Failure
from claimpack.core.facts.lines import Labour, Part
from claimpack.core.facts.plain_reading import reader
from claimpack.core.plans.plan import Plan, WindowSet
from claimpack.core.plans.terms import Terms
from claimpack.folder.file_kinds import FILE_KINDS, record_of

TOP = Path(__file__).resolve().parents[3]
FILES = sorted(
    [
        *TOP.glob("templates/coverage/*.toml"),
        *TOP.glob("templates/terms/*.toml"),
        *TOP.glob("sample_claims/*/claim.toml"),
    ]
)
ODD = (
    *(None, True, False, 0, 1, -1, 1901, 10**30, 1.5, Decimal("0.5"), Decimal("NaN"), Decimal("1E+20")),
    *(
        "",
        " ",
        "1",
        "0.5",
        "P1Y",
        "USD",
        "maker",
        "first",
        "built",
        "x" * 301,
        "a\nb",
        "a-b",
        "../a",
        "\ud800",
        "ﬁ",
        "٣",
    ),
    *("2026-02-05", "2026-02-30", "2026-02-05T10:00:00", "2026-02-05T10:00:00Z", "2026-02-05 10:00"),
    *(dt.date(2026, 2, 5), dt.datetime(2026, 2, 5, 10, tzinfo=dt.UTC), dt.date(1, 1, 1), dt.time(1)),
    *(
        [],
        ["a"],
        ("a", "a"),
        [2020, 2021],
        [2021, 2020],
        {},
        {"a": "b"},
        {"of": "built"},
        [{"of": "built"}],
        {"also": ()},
    ),
)


@cache
def types_of_fields():
    records = {record for kind in FILE_KINDS for record in every_record(record_of(kind))}
    hints = [(record, get_type_hints(record, include_extras=True)) for record in records]
    return {told[name] for record, told in hints for name in record.declared}


def kind_of(path, keys):
    if path.parent.name == "coverage":
        return Plan if "maker" in keys else WindowSet
    return Terms if path.parent.name == "terms" else Claim


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_a_file_that_comes_with_the_program_is_read_plainly_as_pydantic_reads_it(path):
    keys = tomllib.loads(path.read_text(), parse_float=Decimal)
    kind = kind_of(path, keys)
    plainly, by_library = kind.read_plainly(keys), adapter_of(kind).validate_python(keys)
    assert plainly == by_library
    assert plainly.model_fields_set == by_library.model_fields_set


@pytest.mark.parametrize("written", ODD, ids=repr)
def test_whatever_is_read_plainly_pydantic_reads_alike(written):
    for declared in types_of_fields():
        try:
            plainly = reader(declared)(written)
        except ValueError:
            continue
        found = TypeAdapter(in_its_words(declared)).validate_python(written)
        assert (type(plainly), plainly) == (type(found), found), declared


@pytest.mark.parametrize(
    "text",
    [
        *('{"meter": "cycles", "at": "5000"}', '{"at": 5000, "meter": "cycles"}', b'{"meter": "cycles", "at": "5000"}'),
        '{"at": "x", "at": "5000", "meter": "cycles"}',
    ],
)
def test_json_is_read_as_pydantic_reads_it(text):
    assert Limit.model_validate_json(text) == adapter_of(Limit).validate_json(text)


LIMIT = '{"meter": "cycles", "at": "5000"}'


@pytest.mark.parametrize(
    "text",
    [
        *('{"meter": "cycles", "at": 1.5}', '{"meter": "cycles"', "[" * 10_000, '{"at": NaN}'),
        *(LIMIT.encode("utf-16"), LIMIT.encode("utf-8-sig"), LIMIT.replace("5", "\xb2").encode("latin-1")),
    ],
    ids=["a fraction", "cut off", "deep", "no number", "UTF-16", "a mark before it", "Latin-1"],
)
def test_json_that_is_wrong_is_refused(text):
    with pytest.raises(ValidationError):
        Limit.model_validate_json(text)


@pytest.mark.parametrize("keys", [{"meter": "cycles"}, {"meter": "cycles", "at": 0}, {"meter": "h", "at": 1, "to": 2}])
def test_keys_that_are_absent_wrong_or_unknown_are_refused(keys):
    with pytest.raises(ValidationError):
        Limit(**keys)


def test_keys_that_are_all_given_are_read_plainly():
    assert Limit.read_plainly({"meter": "cycles", "at": Decimal(5000)}) == Limit(meter="cycles", at=5000)


@pytest.mark.parametrize("key", ["class", "class_"])
def test_a_record_that_needs_no_check_is_made_by_the_names_of_its_fields_or_by_their_keys(key):
    made, read = (
        Labour.model_construct(**{"operation": "x", key: "engine"}),
        Labour(operation="x", **{"class": "engine"}),
    )
    assert (made, made.model_fields_set) == (read, {"operation", "class_"})


def test_what_is_not_plain_is_read_all_the_same():
    assert Claim.model_validate(a_claim().model_dump(mode="json")) == a_claim()


def test_after_many_records_the_next_are_read_alike():
    read = [Limit(meter="cycles", at=number) for number in range(1, 300)]
    assert read[-1] == Limit.model_construct(meter="cycles", at=Decimal(299))


def test_a_record_does_not_change():
    with pytest.raises(AttributeError, match="model_copy"):
        a_claim().number = "26-0001"


def test_a_record_is_written_by_its_keys():
    assert Labour(operation="x", **{"class": "engine"}).model_dump(exclude_defaults=True) == {
        "operation": "x",
        "class": "engine",
    }


def test_a_copy_knows_what_it_was_given():
    copied = Failure(cause="worn").model_copy(update={"component": "coil"})
    assert (copied.component, copied.model_fields_set) == ("coil", {"cause", "component"})


@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy, lambda record: record.model_copy()])
def test_a_record_taken_elsewhere_is_the_same(again):
    part = Part(name="seal", unit_cost="12.50")
    assert again(part) == part
    assert again(part).model_fields_set == part.model_fields_set


def test_records_of_two_kinds_are_never_equal():
    assert Failure() != Failure.model_construct().part


def test_equal_records_count_once():
    assert len({Failure(cause="worn"), Failure(cause="worn")}) == 1
