from __future__ import annotations

import io
from pathlib import Path

import pytest
from made_once import made_once
from running import NOW, Pipe, claimpack, claimpack_in_bytes
from shop_builders import a_shop

from claimpack.commands.desk.named_files import read_from
from claimpack.commands.desk.world import World
from claimpack.template_files import shipped

PLAN = shipped("coverage") / "halden-2025.toml"


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    return a_shop(place, "26-0001")


@pytest.mark.parametrize(
    ("content", "name"),
    [
        (b"%PDF-1.4", "paper.pdf"),
        (b"\xff\xd8\xff", "paper.jpg"),
        (b"\x89PNG", "paper.png"),
        (b"claim,amount", "paper.csv"),
    ],
)
def test_standard_input_is_a_file_whose_ending_tells_what_it_holds(name, content):
    world = World(stdin=io.TextIOWrapper(io.BytesIO(content)), stdout=Pipe(), stderr=Pipe(), environ={}, clock=NOW)
    with world.closing:
        path = read_from(world, Path("-"), "paper", ".csv")
        assert (path.name, path.read_bytes()) == (name, content)


def test_a_paper_comes_in_on_standard_input(shop):
    ran = claimpack_in_bytes("paper", "add", "26-0001", "-", "--json", folder=shop, typed=a_pdf())
    assert (ran.code, b"papers/paper.pdf" in ran.out) == (0, True)


def a_pdf():
    import pikepdf

    content = io.BytesIO()
    pdf = pikepdf.new()
    pdf.add_blank_page()
    pdf.save(content)
    return content.getvalue()


@pytest.mark.parametrize(
    ("typed", "said", "code"),
    [
        ("plan try -", PLAN.read_text(encoding="utf-8"), 0),
        ("campaign check -", "serial\nZZ-1\n", 3),
        ("statement - --maker halden --dry-run --memo 1", "claim,amount\n26-0001,10.00\n", 4),
    ],
    ids=["plan", "serials", "statement"],
)
def test_text_comes_in_on_standard_input(shop, typed, said, code):
    assert claimpack(*typed.split(), folder=shop, typed=said).code == code


def test_a_backup_to_standard_output_is_refused_for_it_could_not_be_read_back(shop):
    ran = claimpack("shop", "backup", "-", folder=shop)
    assert (ran.code, "export --everything -" in ran.err, (shop / "-").exists()) == (2, True, False)


def test_the_mapping_of_a_list_goes_to_standard_output(shop):
    (shop / "list.csv").write_text("number,maker,model\n26-0009,halden,CS-70\n")
    ran = claimpack("import", "list.csv", "--write-mapping", "-", folder=shop)
    assert (ran.code, 'maker = "maker"' in ran.out) == (0, True)
