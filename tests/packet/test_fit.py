from __future__ import annotations

import hashlib
import io

import pikepdf
import pytest
from packets import RECEIPT, Drawn, Parts, drawn_pages, image, receipt, saved
from pikepdf import Dictionary
from PIL import Image

from claimpack.errors import BadInput
from claimpack.packet.fit import (
    MOST_DRAWS,
    STEPS,
    PhotoNeed,
    PrintStep,
    fit,
    in_words,
    room_taken,
    size_limit,
    steps_ahead,
    too_large_with_originals,
)

NEEDS = (
    PhotoNeed("plate.jpg", "serial plate"),
    PhotoNeed("whole.jpg", "whole unit"),
    PhotoNeed("part.jpg", "failed part"),
    PhotoNeed("damage.jpg", "damage, close up"),
    PhotoNeed("shop.jpg", "in the shop"),
)


class Drawing:
    """Packets whose photos weigh what their steps say; counts how often one was drawn."""

    def __init__(self, fixed: int = 100_000, bytes_a_pixel: float = 0.08) -> None:
        self.fixed = fixed
        self.bytes_a_pixel = bytes_a_pixel
        self.drawn: list[dict[str, PrintStep]] = []

    def __call__(self, steps) -> bytes:
        self.drawn.append(dict(steps))
        with pikepdf.new() as pdf:
            page = pdf.add_blank_page()
            page.obj.Resources = Dictionary(XObject=Dictionary())
            pdf.Root.Fixed = pdf.make_stream(noise(self.fixed))
            for place, step in enumerate(steps.values()):
                photo = image(pdf, plain_jpeg())
                size = int(step.long_edge**2 * 0.75 * self.bytes_a_pixel * step.quality / 70)
                photo.write(plain_jpeg() + noise(size), filter=pikepdf.Name.DCTDecode)
                page.obj.Resources.XObject[f"/Im{place}"] = photo
            return saved(pdf)


def noise(size: int) -> bytes:
    """Bytes that do not compress, always the same."""
    return hashlib.shake_128(b"noise").digest(size)


def plain_jpeg() -> bytes:
    written = io.BytesIO()
    Image.new("L", (8, 8)).save(written, "JPEG")
    return written.getvalue()


def test_a_packet_that_fits_is_drawn_once_and_left_alone():
    draw = Drawing()
    found = fit(5_000_000, NEEDS, draw)
    assert (len(draw.drawn), found.notes, set(found.steps.values())) == (1, (), {STEPS[0]})


def test_a_packet_just_as_large_as_the_limit_fits():
    size, draw = len(Drawing()({need.file: STEPS[0] for need in NEEDS})), Drawing()
    assert len(fit(size, NEEDS, draw).pdf) == size
    assert len(draw.drawn) == 1
    assert len(fit(size - 1, NEEDS, draw).pdf) < size


@pytest.mark.parametrize("level", range(1, 8))
def test_a_packet_made_smaller_that_is_just_as_large_as_the_limit_fits(level):
    steps = {need.file: STEPS[max(0, level - steps_ahead(need.shot))] for need in NEEDS}
    size = len(Drawing()(steps))
    assert size * 0.9 <= len(fit(size, NEEDS, Drawing()).pdf) <= size


@pytest.mark.parametrize(
    ("limit", "fixed", "advice"), [(150_000, 100_000, "Leave out photos"), (500_000, 900_000, "Raise the limit")]
)
def test_what_takes_most_room_is_what_something_is_advised_about(limit, fixed, advice):
    with pytest.raises(BadInput) as caught:
        fit(limit, NEEDS, Drawing(fixed=fixed))
    assert caught.value.do.startswith(advice)


@pytest.mark.parametrize(("limit", "is_named"), [(150_000, True), (50_000, False)])
def test_photos_are_told_to_take_room_only_where_the_packet_could_fit_without_them(limit, is_named):
    with pytest.raises(BadInput) as caught:
        fit(limit, NEEDS, Drawing())
    assert ("photos" in caught.value.why) == is_named


def test_a_limit_that_pages_alone_fill_leaves_no_room_for_photos():
    room = room_taken(Drawing()({need.file: STEPS[0] for need in NEEDS}))
    with pytest.raises(BadInput) as caught:
        fit(room.papers + room.rest, NEEDS, Drawing())
    assert "photos" in caught.value.why


class Weighed:
    """Packets as large as they are said to be at each level; tells which levels were drawn."""

    needs = (PhotoNeed("part.jpg", "failed part"), PhotoNeed("other.jpg", ""))

    def __init__(self, photos: int, fixed: int, *smaller: int) -> None:
        self.first = Drawing(fixed)
        self.first.bytes_a_pixel = photos / (2 * STEPS[0].long_edge ** 2 * 0.75 * STEPS[0].quality / 70)
        self.smaller = smaller
        self.levels: list[int] = []

    def __call__(self, steps) -> bytes:
        part, other = (STEPS.index(steps[need.file]) for need in self.needs)
        level = other + (part == other - 1 and other == 7)
        self.levels.append(level)
        return bytes(self.smaller[level - 1]) if level else self.first(steps)


SMALLER = {
    "as photos do": [1_000_000 * 85**level // 100**level for level in range(1, 9)],
    "slowly": range(990_000, 910_000, -10_000),
    "at the very end": [*range(999_000, 992_000, -1000), 300_000],
    "at once": range(300_000, 292_000, -1000),
}


@pytest.mark.parametrize("how", SMALLER)
@pytest.mark.parametrize("just_fits", range(1, 9))
def test_however_photos_shrink_the_search_is_short_and_ends_at_the_sharpest_it_can_know_of(how, just_fits):
    sizes = SMALLER[how]
    limit, draw = sizes[just_fits - 1] + 100, Weighed(900_000, 100_000, *sizes)
    found, levels = fit(limit, Weighed.needs, draw), draw.levels
    assert len(levels) == len(set(levels)) <= MOST_DRAWS
    chosen = sizes.index(len(found.pdf)) + 1
    assert chosen >= just_fits
    assert chosen - 1 in levels or len(found.pdf) >= 0.9 * limit or len(levels) == MOST_DRAWS


@pytest.mark.parametrize(("size", "is_enough"), [(900_000, True), (899_999, False)])
def test_a_packet_that_fills_nine_tenths_of_the_limit_is_not_drawn_again(size, is_enough):
    draw = Weighed(2_000_000, 100_000, *[size] * 8)
    fit(1_000_000, Weighed.needs, draw)
    assert (len(draw.levels) == 2) == is_enough


def test_a_guess_that_was_too_sharp_is_mended_by_what_it_weighed():
    draw = Weighed(1_000_000, 2_000_000, *range(2_950_000, 2_350_000, -75_000))
    fit(2_600_000, Weighed.needs, draw)
    assert draw.levels == [0, 4, 5, 6]


def test_originals_left_out_are_told_with_what_they_would_be_too_much():
    assert "200 kB over" in too_large_with_originals(1_200_000, 1_000_000)


def test_every_photo_starts_at_what_print_needs():
    draw = Drawing()
    fit(600_000, NEEDS, draw)
    assert draw.drawn[0] == {need.file: STEPS[0] for need in NEEDS}


@pytest.mark.parametrize("limit", [800_000, 700_000, 600_000, 500_000, 400_000, 350_000, 300_000])
def test_a_packet_too_large_is_made_to_fit(limit):
    found = fit(limit, NEEDS, Drawing())
    assert limit * 0.7 < len(found.pdf) <= limit


@pytest.mark.parametrize("limit", [*range(250_000, 900_000, 12_345)])
def test_it_is_never_drawn_more_than_six_times(limit):
    draw = Drawing()
    fit(limit, NEEDS, draw)
    assert len(draw.drawn) <= MOST_DRAWS


@pytest.mark.parametrize("bytes_a_pixel", [0.02, 0.3])
def test_a_good_guess_needs_few_draws(bytes_a_pixel):
    draw = Drawing(bytes_a_pixel=bytes_a_pixel)
    first = len(Drawing(bytes_a_pixel=bytes_a_pixel)({need.file: STEPS[0] for need in NEEDS}))
    fit(first * 2 // 3, NEEDS, draw)
    assert len(draw.drawn) <= 3


def test_the_packet_given_is_the_one_drawn_with_the_steps_given():
    found = fit(500_000, NEEDS, Drawing())
    assert Drawing()(found.steps) == found.pdf


def test_the_failed_part_and_its_damage_stay_two_steps_ahead():
    steps = fit(450_000, NEEDS, Drawing()).steps
    others = STEPS.index(steps["whole.jpg"])
    assert others >= 2
    assert [STEPS.index(steps[file]) for file in ("part.jpg", "damage.jpg")] == [others - 2, others - 2]


def test_a_serial_plate_stays_one_step_ahead():
    steps = fit(450_000, NEEDS, Drawing()).steps
    assert STEPS.index(steps["plate.jpg"]) == STEPS.index(steps["shop.jpg"]) - 1


@pytest.mark.parametrize(
    ("shot", "ahead"),
    [
        ("failed part", 2),
        ("Failed-Part as found", 2),
        ("damage close up", 2),
        ("Close-up of the crack", 2),
        ("serial plate", 1),
        ("whole unit", 0),
        ("", 0),
    ],
)
def test_how_far_a_shot_stays_ahead(shot, ahead):
    assert steps_ahead(shot) == ahead


def test_nothing_goes_below_what_can_be_read():
    assert min(STEPS) == STEPS[-1] == PrintStep(640, 62)


def test_what_was_done_is_told_largest_first():
    found = fit(450_000, NEEDS, Drawing())
    sizes = [int(note.split(" at ")[1].split(" px")[0]) for note in found.notes]
    assert sizes == sorted(sizes, reverse=True)
    assert sum(int(note.split()[0]) for note in found.notes) == sum(step != STEPS[0] for step in found.steps.values())


def test_a_note_reads_like_a_sentence():
    notes = fit(450_000, [PhotoNeed(f"{number}.jpg", "") for number in range(4)], Drawing()).notes
    (note,) = notes
    assert note.startswith("4 photos re-encoded at ")
    assert ", quality " in note


def test_papers_larger_than_the_limit_are_told_after_one_draw():
    draw = Drawing(fixed=900_000)
    with pytest.raises(BadInput, match=r"cannot be made smaller than 90\d kB, 40\d kB over the limit"):
        fit(500_000, NEEDS, draw)
    assert len(draw.drawn) == 1


def test_a_packet_without_photos_cannot_shrink():
    with pytest.raises(BadInput, match="over the limit"):
        fit(50_000, [], Drawing())


def test_scans_are_counted_as_papers():
    def scanned(pdf: pikepdf.Pdf) -> bytes:
        scan = image(pdf, plain_jpeg() + noise(50_000))
        pdf.pages[0].obj.Resources = Dictionary(XObject=Dictionary(Scan=scan))
        pdf.pages[0].obj.Contents = pdf.make_stream(b"200 0 0 400 0 0 cm /Scan Do")
        return saved(pdf)

    with pikepdf.open(io.BytesIO(receipt())) as paper:
        packet = Parts(drawn=Drawn(drawn_pages()), papers={RECEIPT: scanned(paper)}).assembled()
    room = room_taken(packet)
    assert room.papers > 50_000 > room.photos > 0
    assert sum(room) == len(packet)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("5MB", 5_000_000),
        ("5 mb", 5_000_000),
        (" 4.5 MiB ", 4_718_592),
        ("800kB", 800_000),
        ("800 KB", 800_000),
        ("10KiB", 10_240),
        ("5000000B", 5_000_000),
        ("512 B", 512),
        ("0.5GB", 500_000_000),
        ("1.5 B", 1),
    ],
)
def test_a_size_is_read_as_people_write_it(text, size):
    assert size_limit(text) == size


@pytest.mark.parametrize("text", ["", "MB", "5 boxes", "-5MB", "0MB", "5,5MB", "5MB or so", "1e6", "٥MB", "5" * 13])
def test_a_text_that_is_no_size_is_refused(text):
    with pytest.raises(BadInput, match="is not a size"):
        size_limit(text)


def test_a_number_without_a_unit_is_asked_of_what():
    with pytest.raises(BadInput, match="5 what"):
        size_limit("5")


@pytest.mark.parametrize(
    ("size", "said"),
    [
        (0, "0 bytes"),
        (999, "999 bytes"),
        (1000, "1 kB"),
        (999_999, "999 kB"),
        (1_000_000, "1.0 MB"),
        (4_250_000, "4.2 MB"),
    ],
)
def test_a_size_is_told_in_thousands(size, said):
    assert in_words(size) == said
