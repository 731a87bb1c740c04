import pytest

from claimpack.core.values.harmless import harmless


@pytest.mark.parametrize("text", ["", "Halden", "José 漢字", "two\nlines", "two  spaces"])
def test_what_steers_nothing_is_shown_as_it_is(text):
    assert harmless(text) == text


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("a\x1b[2Jb\n", "a[U+001B][2Jb\n"),
        ("a\u202eb\nc", "a[U+202E]b\nc"),
        ("a\ud800b", "a[U+D800]b"),
        ("a\rb", "a[U+000D]b"),
    ],
    ids=["control character", "direction override", "half a character", "carriage return"],
)
def test_what_steers_a_terminal_is_shown_as_its_code(text, shown):
    assert harmless(text) == shown


def test_a_tab_is_one_space():
    assert harmless("a\tb") == "a b"
