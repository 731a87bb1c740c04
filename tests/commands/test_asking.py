import tomllib

import pytest
from running import claimpack


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


def test_going_on_after_back_asks_only_what_is_open(tmp_path):
    _, err = started(tmp_path, "It smokes.", "halden", "back", "back", "It stalls.")
    assert err.rpartition("[It smokes.]")[2].strip().startswith("Model?")


def test_back_from_the_first_question_stays_there(tmp_path):
    claim, err = started(tmp_path, "back", "It smokes.")
    assert ("This is the first question." in err, claim["failure"]["complaint"]) == (True, "It smokes.")


def test_back_reaches_answers_of_an_earlier_conversation(tmp_path):
    started(tmp_path, "It smokes.", "halden")
    claim, _ = started(tmp_path, "back", "tessaly")
    assert claim["maker"] == "tessaly"


def test_a_serial_given_again_replaces_the_one_before(tmp_path):
    claim, _ = started(tmp_path, "It smokes.", "halden", "CS-70", "saw", "HC70-1", "back", "HC70-2")
    assert claim["unit"]["serials"] == [{"role": "unit", "value": "HC70-2"}]


def test_a_unit_found_to_have_no_meter_loses_its_reading(tmp_path):
    answers = ("It smokes.", "halden", "CS-70", "saw", "HC70-1", "", "rental", "61", "back", "none")
    unit = started(tmp_path, *answers)[0]["unit"]
    assert (unit["meter"], "hours" in unit) == (False, False)


def test_a_day_still_to_come_is_refused(tmp_path):
    answers = ("It smokes.", "halden", "CS-70", "saw", "HC70-1", "", "rental", "none", "2026-03-02", "2025-03-02")
    claim, err = started(tmp_path, *answers)
    assert ("still to come" in err, str(claim["dates"]["purchased"])) == (True, "2025-03-02")


@pytest.mark.parametrize("second", ["zork", "quarl"])
def test_a_maker_no_plan_is_for_is_asked_back_each_time_it_is_another(tmp_path, second):
    _, err = started(tmp_path, "It smokes.", "zork", second)
    assert err.count("is not known") == (1 if second == "zork" else 2)


def test_what_a_claim_cannot_be_without_is_asked_twice(tmp_path):
    claim, err = started(tmp_path, "It smokes.", "halden", "", "CS-70")
    assert ("no claim without it" in err, claim["unit"]["model"]) == (True, "CS-70")
