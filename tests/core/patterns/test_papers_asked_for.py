"""A seized engine is paid with the record of its maintenance, a paper of its own beside the receipt."""

from __future__ import annotations

import pytest
from booklets import under

BOOKLET = '[requires]\npapers = [ {kind = "maintenance record", components = ["engine"]} ]\n[words]\nhandle = []\n'


def lacks(component: str, papers: str = "[]") -> list[str]:
    found = under(BOOKLET, f'papers = {papers}\nfailure = {{component = "{component}"}}')
    return [str(item.what) for item in found.missing if item.blocks_filing]


@pytest.mark.parametrize(
    ("papers", "lacking"),
    [
        ('["papers/service.pdf"]', ["paper: maintenance record"]),
        ('[{file = "papers/service.pdf", kind = "letter"}]', ["paper: maintenance record"]),
        ('["papers/a.pdf", {file = "papers/service.pdf", kind = "Maintenance Record", on = 2025-06-01}]', []),
    ],
)
def test_it_is_there_where_a_paper_is_said_to_be_one(papers, lacking):
    assert lacks("engine", papers) == lacking


def test_another_component_needs_none():
    assert lacks("handle") == []


def test_it_blocks_filing_and_leaves_the_verdict():
    found = under(BOOKLET, 'failure = {component = "engine"}')
    assert (found.verdict, found.complete) == ("covered", False)


def test_a_paper_of_every_claim_names_no_component():
    plan = '[requires]\npapers = [ {kind = "work order"} ]'
    assert "missing.paper" in [item.what.key for item in under(plan, "").missing]
