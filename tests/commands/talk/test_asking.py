import os
import tomllib

import pytest
from running import Pipe, claimpack
from typed_terminal import answered_at_a_terminal, terminal

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.talk.asking import Typed, typed_at


def started(tmp_path, *typed):
    """What claim.toml says after a conversation."""
    ran = claimpack("start", "26-0001", folder=tmp_path, typed="\n".join([*typed, "stop", ""]))
    return tomllib.loads((tmp_path / "26-0001" / "claim.toml").read_text()), ran.err


def test_back_asks_the_question_before_again(tmp_path):
    claim, _ = started(tmp_path, "It smokes.", "halden", "back", "tessaly")
    assert claim["maker"] == "tessaly"


def test_enter_keeps_an_answer_that_is_there(tmp_path):
    claim, err = started(tmp_path, "It smokes.", "halden", "back", "")
    assert ("Maker? [halden]" in err, claim["maker"]) == (True, "halden")


def test_the_questions_passed_on_the_way_back_are_asked_again_with_their_answers(tmp_path):
    _, err = started(tmp_path, "It smokes.", "halden", "CS-70", "back", "back", "back", "It stalls.", "", "")
    asked = err.rpartition("[It smokes.]")[2]
    assert "Maker? [halden] Model? [CS-70] Serial number of the unit?" in asked


def test_a_question_left_open_is_asked_again_on_the_way_back(tmp_path):
    claim, _ = started(tmp_path, "It smokes.", "halden", "CS-70", "HC70-1", "", "back", "back", "", "saw")
    assert claim["unit"]["kind"] == "saw"


def test_back_from_the_first_question_stays_there(tmp_path):
    claim, err = started(tmp_path, "back", "It smokes.")
    assert ("This is the first question." in err, claim["failure"]["complaint"]) == (True, "It smokes.")


def test_back_reaches_answers_of_an_earlier_conversation(tmp_path):
    started(tmp_path, "It smokes.", "halden")
    claim, _ = started(tmp_path, "back", "tessaly")
    assert claim["maker"] == "tessaly"


def test_a_serial_given_again_replaces_the_one_before(tmp_path):
    claim, _ = started(tmp_path, "It smokes.", "halden", "CS-70", "HC70-1", "back", "HC70-2")
    assert claim["unit"]["serials"] == [{"role": "unit", "value": "HC70-2"}]


def test_a_unit_found_to_have_no_meter_loses_its_reading(tmp_path):
    answers = ("It smokes.", "halden", "CS-70", "HC70-1", "saw", "", "rental", "61", "back", "none")
    unit = started(tmp_path, *answers)[0]["unit"]
    assert (unit["meter"], "hours" in unit) == (False, False)


def test_a_day_still_to_come_is_refused(tmp_path):
    answers = ("It smokes.", "halden", "CS-70", "HC70-1", "saw", "", "rental", "none", "2026-03-02", "2025-03-02")
    claim, err = started(tmp_path, *answers)
    assert ("still to come" in err, str(claim["dates"]["purchased"])) == (True, "2025-03-02")


@pytest.mark.parametrize("second", ["zork", "quarl"])
def test_a_maker_no_plan_is_for_is_asked_back_each_time_it_is_another(tmp_path, second):
    _, err = started(tmp_path, "It smokes.", "zork", second)
    assert err.count("is not known") == (1 if second == "zork" else 2)


def test_what_a_claim_cannot_be_without_is_asked_twice(tmp_path):
    claim, err = started(tmp_path, "It smokes.", "halden", "", "CS-70")
    assert ("no claim without it" in err, claim["unit"]["model"]) == (True, "CS-70")


def test_the_maker_may_be_answered_by_its_name(tmp_path):
    claim, err = started(tmp_path, "It smokes.", "tessaly pumps")
    assert (claim["maker"], "is not known" in err) == ("Tessaly Pumps", False)


@pytest.mark.parametrize("typed", ["2", "PROF", "p"])
def test_one_key_chooses_among_few_answers_and_what_was_chosen_is_told(tmp_path, typed):
    claim, err = started(tmp_path, "It smokes.", "1", "CS-70", "HC70-1", "", "", typed)
    assert ("1 household  2 professional  3 rental" in err, "  = professional" in err) == (True, True)
    assert (claim["maker"], claim["unit"]["use"]) == ("Halden", "professional")


def test_letters_that_begin_two_answers_are_asked_again(tmp_path):
    claim, err = started(tmp_path, *REGISTRATION[:-1], "re", "rec")
    assert ("'re' may be receipt or registration" in err, claim["proof"]["kind"]) == (True, "receipt")


def test_a_word_near_a_known_one_is_taken_with_y(tmp_path):
    claim, err = started(tmp_path, "It smokes.", "hald", "y")
    assert ("Did you mean 'halden'?" in err, claim["maker"]) == (True, "halden")


def test_a_day_is_answered_as_people_write_it_and_told_as_it_is_kept(tmp_path):
    claim, err = started(tmp_path, *REGISTRATION[:8], "3/4/2025", "4 Mar 2025")
    assert ("2025-03-04 or 2025-04-03" in err, "  = 2025-03-04" in err) == (True, True)
    assert str(claim["dates"]["purchased"]) == "2025-03-04"


def test_hours_with_a_comma_are_refused_in_the_words_of_the_question(tmp_path):
    _, err = started(tmp_path, "It smokes.", "halden", "CS-70", "HC70-1", "saw", "", "rental", "61,5", "61.5")
    assert "  Hour-meter reading: '61,5' is not a decimal number such as 12.50\n" in err


REGISTRATION = ("It smokes.", "halden", "CS-70", "HC70-1", "saw", "", "rental", "none", "2025-03-02", "", "receipt")


@pytest.mark.parametrize("never", ["never", "None", "no"])
def test_a_unit_may_never_have_been_registered(tmp_path, never):
    claim, err = started(tmp_path, *REGISTRATION, never)
    assert (claim["dates"]["never_registered"], err.count("Registered with")) == (True, 1)


def test_a_registration_found_after_all_takes_the_place_of_none(tmp_path):
    claim, err = started(tmp_path, *REGISTRATION, "never", "back", "2025-03-04")
    assert ("[never]" in err, "never_registered" in claim["dates"]) == (True, False)
    assert str(claim["dates"]["registered"]) == "2025-03-04"


MAIL = "Hello,\nit dies.\n\nThanks\nBob"


def test_a_mail_pasted_into_the_complaint_is_one_answer(tmp_path):
    answers = {"What is wrong": MAIL, "Maker?": "stop\n"}
    err = answered_at_a_terminal("start 26-0001", tmp_path, answers)
    claim = tomllib.loads((tmp_path / "26-0001" / "claim.toml").read_text())
    assert ("5 lines came at once" in err, claim["failure"]["complaint"], "maker" in claim) == (True, MAIL, False)


def test_lines_pasted_into_a_question_of_one_line_answer_no_later_question(tmp_path):
    answers = {"What is wrong": "It dies.\n", "Maker?": "halden\nCS-70\nsaw\n", "Model?": "stop\n"}
    err = answered_at_a_terminal("start 26-0001", tmp_path, answers)
    claim = tomllib.loads((tmp_path / "26-0001" / "claim.toml").read_text())
    assert ("only the first is taken; not taken: CS-70 / saw" in err, claim["maker"]) == (True, "halden")
    assert "model" not in claim["unit"]


def test_the_end_of_the_input_after_pasted_lines_takes_them_and_stops(tmp_path):
    err = answered_at_a_terminal("start 26-0001", tmp_path, {"What is wrong": f"{MAIL}\n\4", "Maker?": "stop\n"})
    claim = tomllib.loads((tmp_path / "26-0001" / "claim.toml").read_text())
    assert (claim["failure"]["complaint"], "Maker?" in err) == (MAIL, False)


def test_the_end_of_the_input_after_a_word_stops_as_well(tmp_path):
    answers = {
        "What is wrong, in the owner's words? [": "stop\n",
        "What is wrong": "It dies.\n",
        "Maker?": "back\n\4",
    }
    assert "[It dies.]" not in answered_at_a_terminal("start 26-0001", tmp_path, answers)


def test_an_answer_of_several_lines_is_shown_in_one_when_it_is_asked_for_again(tmp_path):
    answers = {
        "What is wrong, in the owner's words? [": "stop\n",
        "What is wrong": MAIL,
        "Maker?": "back\n",
    }
    err = answered_at_a_terminal("start 26-0001", tmp_path, answers)
    assert "[Hello, / it dies. / Thanks / Bob]" in err


def until_model(folder, pressed):
    """The maker that keys pressed at its question choose, and whether the next question was passed."""
    answers = {"What is wrong": "It dies.\n", "Maker?": pressed, "Model?": "stop\n"}
    err = answered_at_a_terminal("start 26-0001", folder, answers)
    claim = tomllib.loads((folder / "26-0001" / "claim.toml").read_text())
    return claim["maker"], "Serial number" in err


@pytest.mark.parametrize("pressed", ["1", "1\n"], ids=["alone", "with Enter out of habit"])
def test_one_key_chooses_at_a_terminal_and_answers_one_question(tmp_path, pressed):
    assert until_model(tmp_path, pressed) == ("Halden", False)


def test_a_word_that_begins_with_a_figure_is_no_choice(tmp_path):
    answers = {"What is wrong": "It dies.\n", "Maker?": "1st\n\4"}
    assert "'1st' is not known" in answered_at_a_terminal("start 26-0001", tmp_path, answers)


@pytest.mark.parametrize(
    ("pasted", "blank"),
    [("p\nsaw\n", ""), ("p\nsaw", "\n"), ("2\nsaw\n", "")],
    ids=["a letter", "a last line without an end", "a key that chooses"],
)
def test_of_lines_pasted_at_one_key_the_first_is_taken_and_the_message_has_a_line_of_its_own(pasted, blank):
    with terminal() as (keyboard, stream):
        os.write(keyboard, pasted.encode())
        world = World(stdin=stream, stdout=Pipe(), stderr=Pipe(), environ={})
        assert typed_at(Say(world), "Use?", "123") == Typed(pasted[0])
    assert world.stderr.getvalue().partition("  ")[0] == f"Use? {pasted[0]}\n{blank}"
