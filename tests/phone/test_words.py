import json
import re

import pytest

from claimpack.core.clauses.picture_doubts import SAYS
from claimpack.phone.words import LANGUAGES, PAGE, language_for, words_in

SPANISH = words_in("es")


@pytest.mark.parametrize(
    ("accepted", "usual", "language"),
    [
        ("es-MX,es;q=0.9,en;q=0.8", "", "es"),
        ("en-US,en;q=0.9,es;q=0.8", "es-US", "en"),
        ("de,es;q=0.5,en;q=0.75", "", "en"),
        ("de-DE,de;q=0.9", "es-US", "es"),
        ("en;q=0, es;q=0.1", "", "es"),
        ("*", "es", "es"),
        ("", "", "en"),
        ("\x00;;q=9,,", "fr", "en"),
    ],
)
def test_the_phone_decides_the_language_and_else_the_shop(accepted, usual, language):
    assert language_for(accepted, usual) == language


def test_every_sentence_of_the_script_has_its_twin():
    script = (PAGE / "page.js").read_text(encoding="utf-8")
    said = [*re.findall(r'(?<![\w.])t\("([^"]+)"', script), *re.findall(r'section\("([^"]+)"', script)]
    assert (len(said) > 40, [each for each in said if each not in SPANISH]) == (True, [])


def test_every_sentence_of_the_page_has_its_twin():
    page = (PAGE / "page.html").read_text(encoding="utf-8")
    assert [each for each in re.findall(r">([^<>\n]+)<", page) if each not in SPANISH] == []


@pytest.mark.parametrize("key", SAYS)
def test_every_doubt_is_told_in_every_language_with_facts_it_has(key):
    facts = set(re.findall(r"\{(\w+)\}", " ".join(SAYS[key])))
    assert set(re.findall(r"\{(\w+)\}", SPANISH[f"doubt.{key}"])) <= facts


def test_the_languages_are_those_there_is_a_table_for():
    tables = [path.stem for path in PAGE.glob("*.json") if json.loads(path.read_bytes())]
    assert sorted(["en", *tables]) == sorted(LANGUAGES)
