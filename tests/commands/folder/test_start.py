import tomllib

from running import NOW, Pipe, claimpack

from claimpack.__main__ import run
from claimpack.commands.desk.world import World

ANSWERS = """The saw will not start.
halden
CS-70
HC70-118-20417
cut-off saw
E70-55102
professional
112.4
2025-06-01

receipt

yes

A. Customer
2026-02-20

short block
"""


def started(tmp_path):
    return tomllib.loads((tmp_path / "26-0001" / "claim.toml").read_text())


def test_a_whole_conversation_ends_in_a_verdict(tmp_path):
    ran = claimpack("start", "26-0001", folder=tmp_path, typed=ANSWERS)
    assert (ran.code, ran.out.split()[0]) == (0, "COVERED")


def test_answers_are_written_under_their_keys(tmp_path):
    claimpack("start", "26-0001", folder=tmp_path, typed=ANSWERS)
    claim = started(tmp_path)
    assert (claim["unit"]["hours"], claim["unit"]["serials"][1]) == ("112.4", {"role": "engine", "value": "E70-55102"})


def test_the_number_is_the_folders_name(tmp_path):
    claimpack("start", "26-0001", folder=tmp_path, typed="stop\n")
    assert started(tmp_path)["number"] == "26-0001"


def test_stopping_saves_what_was_answered(tmp_path):
    ran = claimpack("start", "26-0001", folder=tmp_path, typed="It smokes.\nhalden\nstop\n")
    assert (ran.code, started(tmp_path)["maker"]) == (4, "halden")


def test_the_end_of_input_saves_like_stop(tmp_path):
    claimpack("start", "26-0001", folder=tmp_path, typed="It smokes.\n")
    assert started(tmp_path)["failure"]["complaint"] == "It smokes."


def test_ctrl_c_saves_like_stop(tmp_path):
    class Left(Pipe):
        def readline(self, *size):
            line = super().readline(*size)
            if line:
                return line
            raise KeyboardInterrupt

    world = World(stdin=Left("It smokes.\n"), stdout=Pipe(), stderr=Pipe(), environ={}, folder=tmp_path, clock=NOW)
    assert (run(["start", "26-0001"], world), started(tmp_path)["failure"]["complaint"]) == (4, "It smokes.")
    assert "claimpack start 26-0001\n" in world.stderr.getvalue()


def test_going_on_asks_only_what_is_open(tmp_path):
    claimpack("start", "26-0001", folder=tmp_path, typed="It smokes.\nhalden\nstop\n")
    ran = claimpack("start", "26-0001", folder=tmp_path, typed="stop\n")
    assert ("Maker?" in ran.err, "Model?" in ran.err) == (False, True)


def test_a_mistyped_maker_is_asked_again_with_the_nearest(tmp_path):
    ran = claimpack("start", "26-0001", folder=tmp_path, typed="It smokes.\nhaldn\nhalden\nstop\n")
    assert ("Did you mean 'halden'?" in ran.err, started(tmp_path)["maker"]) == (True, "halden")


def test_an_impossible_date_is_refused_at_once(tmp_path):
    typed = ANSWERS.replace("2026-02-20", "2025-01-01\n2026-02-20")
    ran = claimpack("start", "26-0001", folder=tmp_path, typed=typed)
    assert ("is before" in ran.err, str(started(tmp_path)["dates"]["failed"])) == (True, "2026-02-20")


def test_a_question_mark_explains_the_question(tmp_path):
    ran = claimpack("start", "26-0001", folder=tmp_path, typed="?\nstop\n")
    assert "goes to the maker as it is" in ran.err


def test_blank_writes_the_commented_file_and_asks_nothing(tmp_path):
    ran = claimpack("start", "26-0001", "--blank", folder=tmp_path)
    assert (ran.code, "# presented" in (tmp_path / "26-0001" / "claim.toml").read_text()) == (0, True)


def test_blank_does_not_wipe_out_a_claim(tmp_path):
    claimpack("start", "26-0001", folder=tmp_path, typed="It smokes.\nstop\n")
    ran = claimpack("start", "26-0001", "--blank", folder=tmp_path)
    assert (ran.code, started(tmp_path)["failure"]["complaint"]) == (2, "It smokes.")


def test_a_file_in_the_folders_place_is_refused(tmp_path):
    (tmp_path / "26-0001").write_text("x")
    assert claimpack("start", "26-0001", folder=tmp_path).code == 2


def test_quotes_in_an_answer_stay_text(tmp_path):
    claimpack("start", "26-0001", folder=tmp_path, typed='He said: "it\\is" <b>dead</b>\nstop\n')
    assert started(tmp_path)["failure"]["complaint"] == 'He said: "it\\is" <b>dead</b>'


def test_parts_of_the_commented_file_can_be_taken_into_use_after_an_answer(tmp_path):
    claimpack("start", "26-0001", folder=tmp_path, typed=ANSWERS)
    file = tmp_path / "26-0001" / "claim.toml"
    text = (
        file.read_text()
        .replace("# [[parts]]", "[[parts]]")
        .replace('# name = ""\n# quantity', 'name = "Coil"\n# quantity')
    )
    file.write_text(text)
    assert (claimpack("check", "26-0001", folder=tmp_path).code, started(tmp_path)["parts"]) == (4, [{"name": "Coil"}])


SHOPS_PLAN = """format = 1
id = "zenon-1"
maker = "zenon"
models = ["Z1"]
currency = "USD"
window = [{id = "all", covers = ["*"], period = "P12M"}]
pays = {labour_rate = "90.00"}
"""


def test_inside_a_shop_its_own_plans_are_known(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    (tmp_path / "shop" / "coverage" / "zenon-1.toml").write_text(SHOPS_PLAN)
    ran = claimpack("start", "26-0001", folder=tmp_path / "shop", typed="It smokes.\nzenon\n?\nstop\n")
    assert ("is not known" in ran.err, "One of: Z1." in ran.err) == (False, True)


def test_the_plans_named_are_named_again_to_go_on(tmp_path):
    (tmp_path / "zenon-1.toml").write_text(SHOPS_PLAN)
    ran = claimpack("start", "26-0001", "--plans", "zenon-1.toml", folder=tmp_path, typed="stop\n")
    assert "claimpack start 26-0001 --plans zenon-1.toml\n" in ran.err
