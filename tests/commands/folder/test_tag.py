from __future__ import annotations

import pypdfium2
import pytest
import zxingcpp
from claim_folders import CLAIM, a_folder
from PIL import Image
from running import claimpack

TWO_HELD = f'{CLAIM}\n[[held]]\npart = "muffler"\nshelf = "B4"\n'
NONE_HELD = CLAIM[: CLAIM.index("[[held]]")]


def tagged(place, text, *more):
    a_folder(place / "claim", text, shots=())
    return claimpack("tag", "claim", *more, folder=place)


def codes(path):
    """What another reader finds on the pages or the picture."""
    if path.suffix == ".png":
        pictures = [Image.open(path)]
    else:
        with pypdfium2.PdfDocument(path) as pdf:
            pictures = [page.render(scale=203 / 72).to_pil() for page in pdf]
    return sorted({code.text for picture in pictures for code in zxingcpp.read_barcodes(picture)})


def test_tags_are_named_by_their_claim_and_the_path_is_the_answer(tmp_path):
    ran = tagged(tmp_path, TWO_HELD)
    assert (ran.code, ran.out) == (0, "26-0001-tag.pdf\n")
    assert codes(tmp_path / "26-0001-tag.pdf") == ["26-0001/1", "26-0001/2"]


def test_one_part_has_its_tag_alone(tmp_path):
    tagged(tmp_path, TWO_HELD, "--part", "2", "--out", "t.pdf")
    assert codes(tmp_path / "t.pdf") == ["26-0001/2"]


def test_a_name_of_a_picture_makes_a_picture(tmp_path):
    tagged(tmp_path, CLAIM, "--stock", "label-4x6", "--out", "label.PNG")
    assert Image.open(tmp_path / "label.PNG").format == "PNG"


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--out", "t.txt"), "t.txt is neither a PDF nor a PNG nor a ZPL file"),
        (("--png", "--out", "t.pdf"), "t.pdf is not a PNG file"),
    ],
)
def test_a_name_of_another_kind_of_file_is_refused(tmp_path, options, says):
    ran = tagged(tmp_path, CLAIM, *options)
    assert (ran.code, says in ran.err, (tmp_path / options[-1]).exists()) == (2, True, False)


def test_pictures_of_several_tags_are_numbered(tmp_path):
    ran = tagged(tmp_path, TWO_HELD, "--png", "--stock", "label-4x6", "--out", "t.png")
    assert ran.out.splitlines() == ["t-1.png", "t-2.png"]
    assert [codes(tmp_path / name) for name in ("t-1.png", "t-2.png")] == [["26-0001/1"], ["26-0001/2"]]


def test_scripts_read_every_file_that_was_written(tmp_path):
    ran = tagged(tmp_path, TWO_HELD, "--png", "--json")
    assert ran.json["files"] == [str(tmp_path / f"26-0001-tag-{part}.png") for part in (1, 2)]


@pytest.mark.parametrize(
    ("text", "part", "says"),
    [
        (CLAIM, "2", "holds 1 part, not 2"),
        (CLAIM, "-1", "holds 1 part, not -1"),
        (TWO_HELD, "3", "holds 2 parts, not 3"),
        (NONE_HELD, "1", "holds 0 parts, not 1"),
    ],
)
def test_a_part_that_is_not_held_has_no_tag(tmp_path, text, part, says):
    ran = tagged(tmp_path, text, "--part", part, "--out", "t.pdf")
    assert (ran.code, says in ran.err, (tmp_path / "t.pdf").exists()) == (2, True, False)


def test_a_folder_that_holds_nothing_says_where_to_write_it_down(tmp_path):
    assert "Add it under [[held]] in claim.toml." in tagged(tmp_path, NONE_HELD).err


@pytest.mark.parametrize("dpi", ["99", "1201", "many"])
def test_dots_no_printer_has_are_refused(tmp_path, dpi):
    assert tagged(tmp_path, CLAIM, "--png", "--dpi", dpi).code == 2


def test_a_name_of_a_label_makes_one_file_of_every_tag(tmp_path):
    tagged(tmp_path, TWO_HELD, "--stock", "label-4x6", "--out", "t.zpl")
    assert (tmp_path / "t.zpl").read_bytes().count(b"^XA") == 2


def test_a_picture_is_no_label(tmp_path):
    assert tagged(tmp_path, CLAIM, "--png", "--zpl").code == 2


def test_what_would_be_printed_is_said_and_nothing_is_written(tmp_path):
    ran = tagged(tmp_path, CLAIM, "--zpl", "--print", "--printer", "zebra", "--dry-run")
    assert f"lp -d zebra -o raw -- {tmp_path}/26-0001-tag.zpl" in " ".join(ran.out.split())
    assert (ran.code, list(tmp_path.glob("*.zpl"))) == (0, [])
