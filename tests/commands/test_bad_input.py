"""Bad input of every kind: a clear message, exit 2, nothing written, nothing overwritten."""

import io
import struct
import zlib

import pytest
from claim_folders import CLAIM, a_folder, picture
from PIL import Image
from printed import words_of
from pypdf import PdfReader
from running import claimpack


@pytest.fixture
def folder(tmp_path):
    return a_folder(tmp_path / "claim")


@pytest.fixture
def out(tmp_path):
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "packet.pdf").write_bytes(b"the packet of yesterday")
    return tmp_path / "out"


def refused(folder, out, says):
    """Building is refused with those words, and what was there stays."""
    ran = claimpack("build", folder, "--out", out)
    written = sorted(path.name for path in out.iterdir())
    assert (ran.code, ran.out, written) == (2, "", ["packet.pdf"])
    assert says in ran.err
    assert "Traceback" not in ran.err
    assert (out / "packet.pdf").read_bytes() == b"the packet of yesterday"


def rewritten(folder, old, new):
    path = folder / "claim.toml"
    path.write_text(path.read_text().replace(old, new))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("failed = 2026-02-02", "failed = 2025-02-02", "failed 2025-02-02 is before dates.purchased 2025-06-01"),
        ("presented = 2026-02-05", "presented = 2026-02-01", "presented 2026-02-01 is before failed 2026-02-02"),
        ('source = "maker"', 'source = "maker"\nquantity = -1', "parts[1].quantity"),
        ('number = "26-0001"', 'number = "26-0001"\ncurrency = "EUR"', "pays in USD"),
        ('number = "26-0001"', 'number = "26-0001"\ncurrency = "EURO"', "ISO 4217"),
        ('maker = "halden"', 'maker = "halden"\nmaker = "other"', "given twice"),
        ('kind = "cut-off saw"', 'knid = "cut-off saw"', "Did you mean kind?"),
        ('hours = "100"', 'hours = "a lot"', "unit.hours"),
        ("presented = 2026-02-05", "presented = 2026-02-30", "claim.toml"),
        ('component = "short block"', 'component = "short\\u0007block"', "U+0007"),
        ("photos/0.jpg", "../photos/0.jpg", "../photos/0.jpg"),
        ("photos/0.jpg", "/etc/hostname", "/etc/hostname"),
        ("photos/0.jpg", "photos/nowhere.jpg", "photos/nowhere.jpg"),
        ("papers/receipt.pdf", "papers/nowhere.pdf", "papers/nowhere.pdf"),
    ],
)
def test_a_claim_file_that_cannot_be_meant_is_refused(folder, out, old, new, says):
    rewritten(folder, old, new)
    refused(folder, out, says)


def test_a_missing_folder_is_refused(tmp_path, out):
    refused(tmp_path / "nowhere", out, "nowhere")


def test_another_encoding_is_refused_with_its_line(folder, out):
    (folder / "claim.toml").write_bytes(CLAIM.replace("A. Customer", "Ünal").encode("latin-1"))
    refused(folder, out, "not in UTF-8")


def test_ten_megabytes_of_text_are_refused(folder, out):
    rewritten(folder, "Will not start.", "x" * 10_000_000)
    refused(folder, out, "larger than 2 MB")


def test_a_text_longer_than_anybody_writes_is_refused(folder, out):
    rewritten(folder, "Will not start.", "x" * 50_000)
    refused(folder, out, "failure.complaint")


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (picture()[:200], "photos/0.jpg"),
        (b"", "photos/0.jpg"),
        (b"MZ this is a program", "photos/0.jpg"),
        (b"%PDF-1.4", "photos/0.jpg"),
    ],
    ids=["truncated", "empty", "not a picture", "a PDF"],
)
def test_a_picture_that_is_none_is_refused(folder, out, content, says):
    (folder / "photos" / "0.jpg").write_bytes(content)
    refused(folder, out, says)


def test_a_bomb_sized_picture_is_refused_before_it_is_decoded(folder, out):
    stream = io.BytesIO()
    Image.new("1", (8, 8)).save(stream, "PNG")
    content = bytearray(stream.getvalue())
    content[16:24] = struct.pack(">II", 60_000, 60_000)
    content[29:33] = struct.pack(">I", zlib.crc32(content[12:29]))
    (folder / "photos" / "0.jpg").write_bytes(bytes(content))
    refused(folder, out, "photos/0.jpg")


@pytest.mark.parametrize("kind", ["photos", "papers"])
def test_a_symlink_is_not_followed(folder, out, tmp_path, kind):
    name = {"photos": "0.jpg", "papers": "receipt.pdf"}[kind]
    real = tmp_path / "elsewhere"
    (folder / kind / name).replace(real)
    (folder / kind / name).symlink_to(real)
    refused(folder, out, f"{kind}/{name}")


def test_an_unreadable_receipt_is_refused(folder, out):
    (folder / "papers" / "receipt.pdf").write_bytes(b"%PDF-1.7 nothing else")
    refused(folder, out, "papers/receipt.pdf")


def test_an_unknown_layout_suggests_the_nearest(folder, out):
    ran = claimpack("build", folder, "--out", out, "--layout", "leter")
    assert (ran.code, "letter" in ran.err) == (2, True)


def test_a_size_that_is_none_is_refused(folder, out):
    assert claimpack("build", folder, "--out", out, "--limit", "huge").code == 2


MARKUP = "<b>bold</b> & <img src='x'/> &lt; <font color=red>"


def test_markup_prints_as_it_was_typed(folder, out):
    for field in ("Will not start.", "Piston scored.", "Short block replaced.", "A. Customer", "cut-off saw"):
        rewritten(folder, field, MARKUP)
    claimpack("build", folder, "--out", out)
    text = words_of(out / "packet.pdf")
    assert text.count("<b>bold</b> & <img src='x'/> &lt; <font color=red>") >= 3


def test_a_failed_build_leaves_no_temporary_files(folder, out):
    (folder / "photos" / "0.jpg").write_bytes(b"")
    claimpack("build", folder, "--out", out)
    assert [path.name for path in out.iterdir()] == ["packet.pdf"]


def test_a_packet_is_replaced_by_a_whole_new_one(folder, out):
    claimpack("build", folder, "--out", out)
    assert len(PdfReader(out / "packet.pdf").pages) > 2
