from __future__ import annotations

import pytest

from claimpack.book.tables.schema import TABLES, Index, Table, number, some, text

PAINTS = Table(
    "paints",
    (*text("claim"), *number("coats"), *some("shade")),
    ("claim", "coats"),
    (Index("paints_by_shade", ("shade", "claim"), only_filled=True), Index("paints_by_coats", ("coats",))),
    of_a_claim=True,
)


def test_a_table_is_made_with_what_each_column_may_hold_its_claim_and_its_indexes():
    columns = "claim VARCHAR NOT NULL, coats INTEGER NOT NULL, shade VARCHAR"
    keys = "PRIMARY KEY (claim, coats), FOREIGN KEY(claim) REFERENCES claims (number)"
    assert list(PAINTS.made_by(on_server=False)) == [
        f"CREATE TABLE IF NOT EXISTS paints ({columns}, {keys})",
        "CREATE INDEX IF NOT EXISTS paints_by_shade ON paints (shade, claim) WHERE shade IS NOT NULL",
        "CREATE INDEX IF NOT EXISTS paints_by_coats ON paints (coats)",
    ]


@pytest.mark.parametrize(("on_server", "count"), [(True, 2), (False, 0)])
def test_only_a_server_must_be_told_how_text_sorts(on_server, count):
    assert next(PAINTS.made_by(on_server=on_server)).count('COLLATE "C"') == count


@pytest.mark.parametrize(("on_server", "finds"), [(True, "strpos"), (False, "instr")])
def test_an_index_of_a_fact_has_the_events_that_carry_it_alone(on_server, finds):
    made = PAINTS.made_index(Index("by_memo", ("facts",), fact="memo"), on_server=on_server)
    place = f"""{finds}(facts, '"memo": "')"""
    assert made.endswith(f"ON paints (substr(facts, {place}, 100)) WHERE {place} > 0")


def test_what_lies_with_a_claim_goes_with_it():
    assert {name for name, table in TABLES.items() if table.of_a_claim} == {"serials", "held", "kept_files"}


def test_numbers_are_kept_as_numbers_and_all_else_as_text():
    told = {name: [column.name for column in table.columns if column.is_number] for name, table in TABLES.items()}
    assert {name: names for name, names in told.items() if names} == {
        "backups": ["length"],
        "chain": ["id", "length"],
        "claims": ["revision", "refused_for_form"],
        "events": ["position", "revision"],
        "held": ["part_index"],
        "kept_files": ["bytes"],
        "migrations": ["number"],
        "revisions": ["revision"],
    }


def test_what_most_claims_have_not_is_indexed_where_it_is_there():
    partial = [index.name for table in TABLES.values() for index in table.indexes if index.only_filled]
    assert partial == ["claims_by_refused_rest", "claims_by_shop"]
