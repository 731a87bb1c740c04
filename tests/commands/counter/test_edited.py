import os
import shlex
import sys
import tempfile

import pytest
from claim_folders import a_folder
from made_once import made_once
from running import claimpack
from shop_builders import a_shop, kept_claim

FOUND = {"what": "compression", "value": "42", "unit": "psi"}


@pytest.fixture(autouse=True)
def _kept_here(tmp_path, monkeypatch):
    (tmp_path / "kept").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "kept"))


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, findings=[FOUND])


def editor(place, script="text"):
    """An editor that makes one change to the text it is given."""
    program = place / "editor.py"
    program.write_text(
        f"import pathlib, sys\nfile = pathlib.Path(sys.argv[-1])\ntext = file.read_text()\nfile.write_text({script})\n"
    )
    return {"EDITOR": f"{shlex.quote(sys.executable)} {shlex.quote(str(program))}", "PATH": os.environ["PATH"]}


def edited(folder, script="text", claim="26-0001", arguments=()):
    return claimpack("edit", claim, *arguments, folder=folder, environ=editor(folder.parent, script))


def kept(shop):
    """The text that was kept when an edit was refused."""
    return next(path for path in (shop.parent / "kept").rglob("*.toml") if not path.stem.endswith("-before"))


def going_on(shop, *arguments, script="text"):
    return edited(shop, script, arguments=("--from", kept(shop), *arguments))


def ben(shop, *arguments):
    """What an editor runs to let somebody else change the claim while it is open."""
    command = [sys.executable, "-m", "claimpack", *arguments]
    environ = {**os.environ, "CLAIMPACK_WHO": "ben"}
    return f"__import__('subprocess').run({command}, cwd={str(shop)!r}, env={environ}, check=True) and "


HOURS = "text.replace('hours = \"100\"', 'hours = \"112.4\"')"
PHONE = "text.replace('[owner]', '[owner]\\nphone = \"555-0101\"')"


NEW_PHONE = ("set", "26-0001", "owner.phone", "555-0102")


@made_once
def refused(place, change, *meanwhile):
    """A shop where an edit was refused, because of what somebody else did meanwhile; its text is kept beside it."""
    (place / "kept").mkdir()
    shop = a_shop(place, findings=[FOUND])
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(tempfile, "tempdir", str(place / "kept"))
        edited(shop, "".join(ben(shop, *each) for each in meanwhile) + change)
    return shop


@pytest.fixture
def stale(tmp_path):
    """A shop where an edit of the hours was refused, because a phone and a finding came meanwhile."""
    return refused(tmp_path, HOURS, NEW_PHONE, ("finding", "add", "26-0001", "gap", "0.6", "mm"))


def test_going_on_keeps_what_others_changed_meanwhile(stale):
    ran = going_on(stale)
    claim = kept_claim(stale)
    assert (ran.code, ran.out) == (0, "· unit.hours: 100 -> 112.4\n")
    assert (claim.owner.phone, [finding.what for finding in claim.findings]) == ("555-0102", ["compression", "gap"])


def test_going_on_names_what_others_changed(stale):
    assert "opened, and kept: owner.phone, findings[2]\n" in going_on(stale).err


def test_going_on_opens_the_text_with_both_changes(stale):
    going_on(stale, script="text.replace('555-0102', '555-0103' if '112.4' in text else '')")
    assert kept_claim(stale).owner.phone == "555-0103"


@pytest.fixture
def clashing(tmp_path):
    """A shop where an edit of the phone was refused, because another phone came meanwhile."""
    return refused(tmp_path, PHONE, NEW_PHONE)


def test_a_key_both_changed_is_refused_with_both_values(clashing):
    ran = going_on(clashing)
    assert (ran.code, "owner.phone: yours is '555-0101', theirs is '555-0102'" in ran.err) == (2, True)
    assert ("--mine" in ran.err, kept_claim(clashing).owner.phone) == (True, "555-0102")


@pytest.mark.parametrize(
    ("side", "phone", "whose"), [("--mine", "555-0101", "yours"), ("--theirs", "555-0102", "theirs")]
)
def test_a_side_may_be_chosen(clashing, side, phone, whose):
    ran = going_on(clashing, side)
    assert (ran.code, kept_claim(clashing).owner.phone, f"{whose} is taken" in ran.err) == (0, phone, True)


def test_a_text_that_does_not_tell_its_revision_loses_nothing_silently(stale):
    file = kept(stale)
    file.write_text(file.read_text().partition("\n")[2])
    ran = going_on(stale)
    assert (ran.code, "findings[2]: yours is nothing" in ran.err, len(kept_claim(stale).findings)) == (2, True, 2)


def test_a_wrong_text_is_put_right_and_brought_together(stale):
    file = kept(stale)
    file.write_text(file.read_text().replace("112.4", "lots"))
    ran = going_on(stale, script="text.replace('lots', '113')")
    assert (ran.code, kept_claim(stale).owner.phone, str(kept_claim(stale).unit.hours)) == (0, "555-0102", "113")


@pytest.mark.parametrize("arguments", [("--mine",), ("--from", "x", "--mine", "--theirs")])
def test_a_side_without_a_choice_is_refused(shop, arguments):
    assert edited(shop, arguments=arguments).code == 2


def test_in_a_folder_going_on_keeps_what_others_changed(tmp_path):
    folder = a_folder(tmp_path / "claim")
    edited(folder, ben(folder, "set", ".", "owner.phone", "555-0102") + HOURS, claim=".")
    ran = claimpack("edit", ".", "--from", kept(folder), folder=folder, environ=editor(tmp_path))
    text = (folder / "claim.toml").read_text()
    assert (ran.code, "555-0102" in text, "112.4" in text) == (0, True, True)


def test_in_a_folder_nobody_changed_the_text_is_kept_as_written(tmp_path):
    folder = a_folder(tmp_path / "claim")
    edited(folder, "'# mine\\n' + text.replace('\"100\"', '\"lots\"')", claim=".")
    ran = claimpack(
        "edit", ".", "--from", kept(folder), folder=folder, environ=editor(tmp_path, "text.replace('lots', '9')")
    )
    assert (ran.code, (folder / "claim.toml").read_text().startswith("# mine\n")) == (0, True)


def without_editor(shop, *arguments):
    return claimpack("edit", "26-0001", "--from", kept(shop), *arguments, folder=shop)


def test_without_a_terminal_a_kept_text_is_brought_together_all_the_same(stale):
    ran = without_editor(stale)
    assert (ran.code, ran.out, kept_claim(stale).owner.phone) == (0, "· unit.hours: 100 -> 112.4\n", "555-0102")


def test_without_a_terminal_a_side_may_be_chosen(clashing):
    ran = without_editor(clashing, "--mine")
    assert (ran.code, kept_claim(clashing).owner.phone) == (0, "555-0101")


@pytest.mark.parametrize(("side", "hours", "findings"), [("--mine", "112.4", 1), ("--theirs", "100", 2)])
def test_of_a_text_that_does_not_tell_its_revision_a_side_is_taken_whole(stale, side, hours, findings):
    kept(stale).write_text(kept(stale).read_text().partition("\n")[2])
    without_editor(stale, side)
    claim = kept_claim(stale)
    assert (str(claim.unit.hours), len(claim.findings)) == (hours, findings)


def test_beside_what_both_changed_the_rest_of_what_others_changed_is_named(stale):
    kept(stale).write_text(kept(stale).read_text().replace("[owner]", '[owner]\nphone = "555-0101"'))
    assert "and kept: findings[2]\n" in without_editor(stale, "--mine").err


def test_without_a_terminal_a_wrong_text_changes_nothing(stale):
    kept(stale).write_text(kept(stale).read_text().replace("112.4", "lots"))
    assert (without_editor(stale).code, str(kept_claim(stale).unit.hours)) == (2, "100")


def test_a_key_that_both_changed_is_named_once(clashing):
    err = without_editor(clashing, "--mine").err
    assert (err.count("owner.phone"), "and kept" in err) == (1, False)


def test_both_sides_cannot_be_taken(shop):
    assert edited(shop, arguments=("--mine", "--theirs")).code == 2


def test_what_others_changed_is_never_said_to_be_nothing(stale):
    told = going_on(stale).err
    assert ("Changed by others" in told, "nothing" in told) == (True, False)


@pytest.mark.parametrize("as_json", [False, True])
def test_an_edit_is_told_in_words_or_in_one_document(shop, as_json):
    ran = edited(shop, HOURS, arguments=["--json"][:as_json])
    assert (ran.code, ran.out.startswith("{"), "unit.hours" in ran.out) == (0, as_json, True)


class Folder:
    """A claim folder as it was opened, as somebody left their text of it, and as others left it meanwhile."""

    def __init__(self, place):
        self.file = a_folder(place / "claim") / "claim.toml"
        self.before = self.file.read_text()
        self.kept = place / "text.toml"

    def gone_on(self, mine, theirs, *side):
        """What came of going on with the text, and what the folder then says."""
        self.kept.write_text(mine)
        self.kept.with_name("text-before.toml").write_text(self.before)
        self.file.write_text(theirs)
        ran = claimpack("edit", ".", "--from", self.kept, *side, folder=self.file.parent)
        return ran, self.file.read_text()


@pytest.fixture
def folder(tmp_path):
    return Folder(tmp_path)


def with_hours(text):
    return text.replace('hours = "100"', 'hours = "112.4"')


def with_phone(text, phone="555-0102"):
    return text.replace("[owner]", f'[owner]\nphone = "{phone}"')


@pytest.mark.parametrize("side", [(), ("--mine",)])
def test_in_a_folder_a_side_is_taken_of_what_both_changed_alone(folder, side):
    ran, text = folder.gone_on(with_hours(folder.before), with_phone(folder.before), *side)
    assert (ran.code, "112.4" in text, "555-0102" in text, "Comments" in ran.err) == (0, True, True, True)


def test_in_a_folder_a_text_that_changes_what_others_changed_alike_is_kept_as_written(folder):
    mine = f"# mine\n{with_hours(folder.before)}"
    assert folder.gone_on(mine, f"# theirs\n{folder.before}")[1] == mine


def test_in_a_folder_a_text_that_changes_nothing_leaves_what_stands_there(folder):
    theirs = f"# theirs\n{with_phone(folder.before)}"
    ran, text = folder.gone_on(folder.before, theirs)
    assert (text, "Comments" in ran.err) == (theirs, False)


WRONG = "number = "


def test_a_folder_that_cannot_be_read_any_more_is_not_written_over(folder):
    ran, text = folder.gone_on(with_hours(folder.before), WRONG, "--theirs")
    assert (ran.code, text) == (2, WRONG)


def test_a_folder_that_cannot_be_read_any_more_gives_way_to_the_text_where_that_is_said(folder):
    mine = with_hours(folder.before)
    ran, text = folder.gone_on(mine, WRONG, "--mine")
    assert (ran.code, text) == (0, mine)


def test_in_a_folder_a_text_of_which_nobody_knows_what_was_there_before_is_refused(folder):
    folder.kept.write_text(with_hours(folder.before))
    ran = claimpack("edit", ".", "--from", folder.kept, folder=folder.file.parent)
    assert (ran.code, folder.file.read_text()) == (2, folder.before)
