import re
from pathlib import Path

import pytest

import claimpack
from claimpack.core.values.wording.sentence import SAYS, Sentence, days_in_words, period_in_words, placeholders, say
from claimpack.core.values.wording.words import WORDS

SPEAKS = re.compile(r"(wording\.sentence|reasons) import")
SOURCES = "\n".join(
    path.read_text()
    for folder in ("core", "packet")
    for path in (Path(claimpack.__file__).parent / folder).rglob("*.py")
    if path.parent.name != "wording" and SPEAKS.search(path.read_text())
)
COMPOSED = {"missing.complaint", "missing.cause", "missing.correction"}
COMPOSED |= {f"{form}.{outcome}" for form in ("age", "span") for outcome in ("inside", "last-day", "outside")}
COMPOSED |= {f"start.{pick}{form}" for pick in ("earliest", "latest") for form in ("", "-later", "-unknown")}
COMPOSED |= {"start.from-later", "price.share-moved", "price.share-months-moved"}


def test_every_sentence_is_said_somewhere():
    assert [key for key in SAYS if f'"{key}"' not in SOURCES and key not in COMPOSED] == []


def test_every_sentence_is_said_with_all_its_facts():
    said = {key: say(key, **{name: _fact(name) for name in placeholders(SAYS[key])}).said() for key in SAYS}
    assert [key for key in said if "{" in said[key]] == []


def _fact(name):
    return "P1Y" if name.endswith("_period") else "presented" if name.endswith("_word") else "x"


def test_every_sentence_ends_as_sentences_do():
    sentences = [key for key in SAYS if not key.startswith(("missing.", "deadline.", "failure."))]
    assert [key for key in sentences if not SAYS[key].endswith((".", "?"))] == []


def test_every_key_that_is_used_has_a_sentence():
    used = set(
        re.findall(
            r'"((?:start|event|component|use|owner|excluded|hours|why|price|because|answer|missing|registered|replaced)\.[a-z-]+)"',
            SOURCES,
        )
    )
    assert used <= set(SAYS) | set(WORDS)


def test_every_fact_that_is_asked_for_has_a_word():
    asked = set(re.findall(r'unknown\([^)]*?"((?:dates|unit|owner|failure)\.[a-z_]+)"', SOURCES))
    assert asked
    assert asked <= set(WORDS) | set(SAYS)


def test_a_sentence_may_be_said_in_another_language():
    said = say("missing.serial", role="motor").said({"missing.serial": "número de serie: {role}"})
    assert said == "número de serie: motor"


def test_the_role_of_a_serial_number_is_said_by_its_word():
    said = say("missing.serial", role="Engine").said({}, {"serial.engine": "motor"})
    assert said == "serial number: motor"


def test_a_role_without_a_word_is_said_as_it_is_written():
    assert say("missing.serial", role="gearbox").said() == "serial number: gearbox"


def test_a_list_cut_short_ends_in_its_mark_alone():
    assert say("component.other", component="seal", covers="coil, …").said().endswith("only: coil, …")


def test_a_sentence_another_language_lacks_is_said_in_english():
    assert say("missing.proof").said({}) == "proof of purchase"


@pytest.mark.parametrize(
    ("fact", "said"),
    [
        ("household", "household"),
        ("household|rental", "household or rental"),
        ("household|professional|rental", "household, professional or rental"),
        ("household&rental", "household and rental"),
        ("nothing known", "nothing known"),
    ],
)
def test_words_are_joined_as_people_join_them(fact, said):
    assert say("use.other", uses_word=fact, use_word="x").said().startswith(f"It is for {said} use")


def test_words_may_be_said_in_another_language():
    said = say("use.fits", use_word="rental|household").said(words={"rental": "alquiler", "or": "o"})
    assert said == "It is for alquiler o household use."


@pytest.mark.parametrize(
    ("iso", "said"),
    [
        ("P1Y", "1 year"),
        ("P24M", "24 months"),
        ("P1Y6M", "1 year and 6 months"),
        ("P1W", "1 week"),
        ("P90D", "90 days"),
        ("P0D", "0 days"),
        (days_in_words(123_456), "123456 days"),
        ("P19998M", "19998 months"),
    ],
)
def test_a_period_is_said_however_long_it_is(iso, said):
    assert period_in_words(iso) == said


@pytest.mark.parametrize("fact", ["{role}", "{", "}", "{0}", "100 %"])
def test_what_people_wrote_is_never_a_placeholder(fact):
    assert say("missing.serial", role=fact).said() == f"serial number: {fact}"


def test_a_sentence_is_its_english():
    assert str(Sentence(key="missing.proof")) == "proof of purchase"


def test_a_serial_number_of_figures_alone_is_said_as_it_is_written():
    assert str(say("why.serial-form", value="20417", role="engine")).startswith("20417 does")


def test_figures_and_days_of_a_sentence_stand_apart_for_people_and_not_for_scripts():
    hours, late = (
        say("answer.not-covered-hours", over="1200.5", limit="2000"),
        say("late.unfiled", late_period="P1200D"),
    )
    facts = {"window": "engine", "file_by": "2026-02-01"}
    said = [each._replace(facts=facts | each.facts) for each in (hours, late)]
    assert [("1,200" in each.said(), "1200" in each.plainly()) for each in said] == [(True, True)] * 2
