import pytest
from builders import a_claim, a_plan
from pydantic import ValidationError


@pytest.mark.parametrize("number", ["", "-1", "26/41", "a" * 25, "26 41", "№1"])
def test_a_claim_number_is_letters_digits_and_hyphens(number):
    with pytest.raises(ValidationError):
        a_claim(number=number)


@pytest.mark.parametrize(
    "path", ["../receipt.pdf", "/etc/passwd", "a/../../b", "C:/x.jpg", "papers\\x.pdf", "photos/../../x"]
)
def test_a_path_that_leaves_the_folder_is_refused(path):
    with pytest.raises(ValidationError, match="leaves the claim folder"):
        a_claim(photos=[{"file": path}])


def test_a_wrong_currency_code_names_the_nearest():
    with pytest.raises(ValidationError, match="EUR"):
        a_claim(currency="EURO")


@pytest.mark.parametrize("written", ["photos/./plate.jpg", "./photos/plate.jpg", "photos//plate.jpg"])
def test_one_file_has_one_name(written):
    assert a_claim(photos=[{"file": written}]).photos[0].file == "photos/plate.jpg"


def test_a_currency_code_is_that_of_a_currency():
    assert a_claim(currency="EUR").currency == "EUR"


@pytest.mark.parametrize("word", ["unknown", "Unknown"])
def test_a_use_that_nobody_knows_is_left_out(word):
    with pytest.raises(ValidationError, match="leave the line out"):
        a_claim(unit__use=word)


@pytest.mark.parametrize("word", ["rental", "track and field", "go-kart", "on/off road"])
def test_a_use_is_a_plain_word_or_several(word):
    assert a_claim(unit__use=word).unit.use == word


@pytest.mark.parametrize("word", ["-rental", "rental-", "rental_fleet", "a|b"])
def test_a_use_of_other_marks_is_refused(word):
    with pytest.raises(ValidationError, match="no plain word"):
        a_claim(unit__use=word)


@pytest.mark.parametrize("named", ["Halden", "-halden", "halden test", "h" * 61, ""])
def test_the_id_of_a_plan_is_small_letters_digits_and_hyphens(named):
    with pytest.raises(ValidationError):
        a_plan(id=named)


@pytest.mark.parametrize("named", ["halden-2026", "7", "h" * 60])
def test_the_id_of_a_plan_has_sixty_characters_at_most(named):
    assert a_plan(id=named).id == named
