from __future__ import annotations

import io

import pypdf
import pytest

from claimpack.printing.document import Titles, document
from claimpack.printing.lettering import page_text, width_of
from claimpack.printing.papers import PAPERS
from claimpack.printing.scripts.found import face_for
from claimpack.printing.scripts.lines import face_of, in_faces, in_order
from claimpack.printing.typeface import REGULAR, printable


def needs(script: str):
    return pytest.mark.skipif(face_for(script) is None, reason=f"no typeface for {script} on this machine")


def test_a_line_of_the_usual_letters_is_one_run():
    assert in_faces("26-0001 Ångström Щукина", REGULAR) == [(REGULAR, "26-0001 Ångström Щукина")]


def test_letters_that_run_to_the_right_stand_as_they_are_written():
    assert in_order("26-0001 ≥ 42") == "26-0001 ≥ 42"


@needs("Hebrew")
@pytest.mark.source("UAX #9, rule L2: what is read from the right stands in reverse, numbers do not")
def test_letters_that_run_to_the_left_stand_in_reverse_and_numbers_do_not():
    assert in_order("אבג 42") == "42 גבא"


@needs("Arabic")
@pytest.mark.source("The Unicode Standard, Arabic Presentation Forms-B: initial, medial and final meem, hah, dal")
def test_arabic_letters_are_joined():
    assert in_order("محمد") == "\ufeaa\ufee4\ufea4\ufee3"


@needs("Arabic")
def test_a_name_in_arabic_is_set_in_a_typeface_that_has_its_letters():
    runs = in_faces(in_order("Sam محمد"), REGULAR)
    assert [face for face, _ in runs] == [REGULAR, face_for("Arabic")]


@needs("Hebrew")
def test_a_line_is_as_wide_as_its_runs():
    assert width_of("ab שלום", REGULAR, 10) == pytest.approx(
        width_of("ab ", REGULAR, 10) + width_of("שלום", REGULAR, 10)
    )


@needs("Japanese")
def test_signs_between_japanese_letters_are_set_as_those_are():
    assert face_of("山", "山のエンジン") == face_for("Japanese")


@needs("Hebrew")
def test_the_first_words_of_a_long_text_stand_on_its_first_line():
    titles = Titles("x", "", "")
    content = document(lambda: [page_text("אבג " + "דהו " * 60 + "זחט")], PAPERS["letter"], titles)
    lines = pypdf.PdfReader(io.BytesIO(content)).pages[0].extract_text().splitlines()
    first, last = (next(at for at, line in enumerate(lines) if word in line) for word in ("אבג", "זחט"))
    assert last == first + 2


@needs("Hebrew")
def test_what_a_typeface_was_found_for_is_printed():
    assert printable("שלום") == "שלום"


@needs("Hebrew")
def test_a_letter_that_the_typeface_of_its_script_lacks_is_told_by_its_name():
    assert printable("\N{HEBREW LETTER ALEF}\u05ff") == "\N{HEBREW LETTER ALEF}[Hebrew]"
