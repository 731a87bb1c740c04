from __future__ import annotations

import io

import pytest
from claim_folders import CLAIM, a_folder
from made_forms import MAPPING, a_shop_with_a_form, values, without_fields
from pypdf import PdfReader
from running import claimpack, claimpack_in_bytes


@pytest.fixture
def shop(tmp_path):
    return a_shop_with_a_form(tmp_path)


def test_scripts_read_every_field(shop):
    ran = claimpack("form", "fields", "forms/w7.pdf", "--json", folder=shop)
    (field,) = ran.json["fields"]
    assert (ran.json["pages"], field["page"], field["name"], field["kind"], field["most"]) == (
        *(1, 1),
        *("owner", "text", None),
    )


def test_fields_are_listed_a_line_each(shop):
    ran = claimpack("form", "fields", "forms/w7.pdf", folder=shop)
    assert (ran.out.split(), ran.err) == (["owner", "text", "page", "1"], "")


def test_of_a_pdf_without_fields_it_is_said_that_texts_may_be_placed_on_it(shop):
    (shop / "plain.pdf").write_bytes(without_fields())
    ran = claimpack("form", "fields", "plain.pdf", folder=shop)
    assert (ran.code, ran.out, "Give each text a place" in ran.err) == (0, "", True)


def test_scripts_read_sheets_and_what_is_left_empty(shop):
    (shop / "forms" / "w7.toml").write_text(MAPPING.replace("owner.name", "owner.email"), encoding="utf-8")
    ran = claimpack("form", "fill", "claim", "--out", "f.pdf", "--json", folder=shop)
    assert (ran.json["form"], ran.json["sheets"], ran.json["empty"]) == ("w7", 1, ["owner"])


def test_a_form_goes_to_standard_output_alone(shop):
    ran = claimpack_in_bytes("form", "fill", "claim", "--out", "-", folder=shop)
    assert values(ran.out) == {"owner": "A. Customer"}


def test_a_shop_that_names_no_form_is_asked_for_one(tmp_path):
    a_folder(tmp_path / "claim", shots=())
    ran = claimpack("form", "fill", "claim", folder=tmp_path)
    assert (ran.code, "--form ID" in ran.err, list(tmp_path.glob("*.pdf"))) == (2, True, [])


def pages_of(path):
    return [page.extract_text() for page in PdfReader(io.BytesIO(path.read_bytes())).pages]


def test_the_makers_form_stands_in_front_of_the_packet_and_the_pages_count_on(shop):
    claimpack("packet", "claim", "--out", "p.pdf", folder=shop)
    first, second, *rest = pages_of(shop / "p.pdf")
    assert ("A. Customer" in first, f"page 2 of {2 + len(rest)}" in second) == (True, True)
    assert claimpack("verify", "p.pdf", folder=shop).code == 0


def test_a_packet_may_go_without_the_form(shop):
    claimpack("packet", "claim", "--form", "none", "--out", "p.pdf", folder=shop)
    first, *rest = pages_of(shop / "p.pdf")
    assert f"page 1 of {1 + len(rest)}" in first


def test_a_claim_that_asks_for_nothing_has_a_packet_without_the_form(shop):
    a_folder(shop / "old", CLAIM.replace("2025-0", "2023-0"), shots=())
    ran = claimpack("packet", "old", "--out", "p.pdf", folder=shop)
    assert (ran.code, "nothing is claimed" in ran.err, (shop / "p.pdf").is_file()) == (3, True, True)


def test_build_writes_the_form_beside_the_packet(shop):
    ran = claimpack("build", "claim", "--out", "out", "--json", folder=shop)
    assert sorted(ran.json["files"]) == ["claim.json", "form.pdf", "packet.pdf", "tag.pdf"]


def test_mappings_are_looked_over(shop):
    good = claimpack("plan", "check", "forms/w7.toml", folder=shop)
    (shop / "forms" / "w7.toml").write_text(MAPPING.replace("owner.name", "owner.nmae"), encoding="utf-8")
    bad = claimpack("plan", "check", "forms/w7.toml", folder=shop)
    assert (good.code, bad.code, "owner.name" in bad.out) == (0, 3, True)
