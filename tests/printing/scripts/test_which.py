from __future__ import annotations

import pytest

from claimpack.printing.scripts.which import called, script_of


@pytest.mark.parametrize(
    ("letters", "script"),
    [
        ("あア", "Japanese"),
        ("山公", "Chinese"),
        ("한글", "Korean"),
        ("محمد", "Arabic"),
        ("שלום", "Hebrew"),
        ("aéЖ", None),
    ],
)
def test_a_letter_is_of_its_script(letters, script):
    assert {script_of(letter) for letter in letters} == {script}


@pytest.mark.parametrize(
    ("mark", "name"), [("あ", "Japanese"), ("ย", "Thai"), ("😀", "grinning face"), ("\x07", "U+0007")]
)
def test_what_cannot_be_printed_has_a_name(mark, name):
    assert called(mark) == name
