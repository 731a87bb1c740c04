from __future__ import annotations

import struct

import pytest
from evidence.pictures import stored

from claimpack.errors import BadInput
from claimpack.evidence.pictures.photos import PrintSize, prepare
from claimpack.evidence.pictures.picture_kinds import declared_webp_size, decoded_apart, kind_of

SMALL = PrintSize(long_edge=60)
LARGE = PrintSize(long_edge=500)


def test_a_picture_is_known_by_its_content_not_its_name(tmp_path):
    picture = stored(tmp_path / "a.png")
    disguised = picture.rename(tmp_path / "a.jpg")
    assert prepare(disguised, "a.jpg", LARGE).width == 120


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"", "is empty"),
        (b"my cat", "is not a picture"),
        (b"%PDF-1.7", "is a PDF"),
        (b"GIF89a", "is a GIF picture"),
        (b"PK\3\4docx", "office document"),
        (b"\0\0\0\x18ftypqt  \0\0", "is a film"),
        (b"\xff\xd8\xff", "is a damaged JPEG picture"),
        (b"\x89PNG\r\n\x1a\n", "is a damaged PNG picture"),
    ],
)
def test_what_is_no_picture_is_named(tmp_path, content, what):
    path = tmp_path / "a.jpg"
    path.write_bytes(content)
    with pytest.raises(BadInput, match=what):
        prepare(path, "photos/a.jpg", SMALL)


@pytest.mark.parametrize(
    ("head", "kind"),
    [
        (b"RIFF\0\0\0\0WEBPVP8 ", "WebP"),
        (b"RIFF\0\0\0\0WAVEfmt ", None),
        (b"\0\0\0\x18ftypheic\0\0\0\0mif1", "HEIC"),
        (b"\0\0\0\x18ftypmif1\0\0\0\0avif", None),
    ],
)
def test_a_container_is_a_picture_by_what_it_holds(head, kind):
    assert kind_of(head) == kind


@pytest.mark.parametrize(
    ("head", "size"),
    [
        (b"RIFF....WEBPVP8X\x0a\0\0\0\0\0\0\0" + b"\xe7\x03\0\xcf\x07\0", (1000, 2000)),
        (b"RIFF....WEBPVP8L\x0a\0\0\0\x2f" + (999 | 1999 << 14).to_bytes(4, "little"), (1000, 2000)),
        (b"RIFF....WEBPVP8 \x0a\0\0\0\0\0\0\x9d\x01\x2a" + struct.pack("<HH", 1000, 2000), (1000, 2000)),
        (b"RIFF....WEBPnone", (0, 0)),
    ],
    ids=["extended", "lossless", "lossy", "none of them"],
)
def test_a_webp_tells_its_size_before_it_is_opened(head, size):
    assert declared_webp_size(head) == size


@pytest.mark.parametrize(("high", "apart"), [(4_000, False), (4_001, True)])
def test_a_large_png_has_a_process_of_its_own(tmp_path, high, apart):
    head = b"\x89PNG\r\n\x1a\n" + struct.pack(">I4sII", 13, b"IHDR", 4_000, high)
    (tmp_path / "a.png").write_bytes(head)
    assert decoded_apart(tmp_path / "a.png") is apart


def test_a_file_that_cannot_be_opened_needs_no_process(tmp_path):
    assert not decoded_apart(tmp_path / ("x" * 5000))


@pytest.mark.parametrize(("name", "apart"), [("a.jpg", False), ("a.png", False), ("a.webp", True), ("a.tif", True)])
def test_decoders_that_only_pixels_bound_have_a_process_of_their_own(tmp_path, name, apart):
    assert decoded_apart(stored(tmp_path / name)) is apart
