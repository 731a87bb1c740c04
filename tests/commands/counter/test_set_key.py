import tomllib

import pytest
from claim_folders import a_folder
from running import claimpack
from shop_builders import a_shop, happen, kept_claim, the_desk


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path)


def put(shop, *arguments):
    return claimpack("set", "26-0001", *arguments, folder=shop)


def test_a_value_is_changed_and_told_old_and_new(shop):
    ran = put(shop, "unit.hours", "112.4")
    assert (ran.out, str(kept_claim(shop).unit.hours)) == ("· unit.hours: 100 -> 112.4\n", "112.4")


def test_several_keys_change_at_once_in_one_revision(shop):
    put(shop, "owner.name", "B", "failure.defect", "workmanship")
    assert (kept_claim(shop).owner.name, the_desk(shop).book.get("26-0001").revision) == ("B", 2)


def test_all_of_them_or_none(shop):
    ran = put(shop, "owner.name", "B", "dates.repaired", "soon")
    assert (ran.code, kept_claim(shop).owner.name) == (2, "A. Customer")


@pytest.mark.parametrize("key", ["parts[1].unit_cost", "parts.1.unit_cost"])
def test_an_item_of_a_list_is_named_by_its_number(tmp_path, key):
    shop = a_shop(tmp_path, parts=[{"name": "Gasket"}])
    put(shop, key, "4.10")
    assert str(kept_claim(shop).parts[0].unit_cost) == "4.10"


def test_the_next_item_is_added(shop):
    put(shop, "unit.serials[3].role", "battery", "unit.serials[3].value", "B-1")
    assert kept_claim(shop).unit.serial("battery") == "B-1"


def test_a_table_that_was_not_there_is_made(shop):
    put(shop, "approval.number", "A-17")
    assert kept_claim(shop).approval.number == "A-17"


def test_yes_and_no_are_understood(shop):
    put(shop, "owner.first_owner", "no")
    assert kept_claim(shop).owner.first_owner is False


def test_an_unknown_key_suggests_the_nearest(shop):
    ran = put(shop, "unit.hous", "3")
    assert (ran.code, "Did you mean unit.hours?" in ran.err) == (2, True)


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("unit.hours", "lots"),
        ("dates.repaired", "2026-02-30"),
        ("failure.defect", "bad"),
        ("dates.failed", "2026-02-20"),
    ],
)
def test_a_value_that_has_no_meaning_is_refused(shop, key, value):
    ran = put(shop, key, value)
    assert (ran.code, the_desk(shop).book.get("26-0001").revision) == (2, 1)


def test_a_key_without_a_value_is_refused_with_the_way_to_take_it_away(shop):
    ran = put(shop, "owner.name")
    assert (ran.code, "--unset" in ran.err) == (2, True)


@pytest.mark.parametrize("rest", [("dates.failed", "--unset"), ("dates.failed", "", "--unset")])
def test_a_key_is_taken_away(shop, rest):
    ran = put(shop, *rest)
    assert (ran.out, kept_claim(shop).dates.failed) == ("· dates.failed: 2026-02-02 -> nothing\n", None)


def test_items_are_taken_away_by_the_numbers_they_had(tmp_path):
    shop = a_shop(tmp_path, parts=[{"name": "A"}, {"name": "B"}, {"name": "C"}])
    put(shop, "parts[1]", "parts[2]", "--unset")
    assert [part.name for part in kept_claim(shop).parts] == ["C"]


def test_the_tenth_item_is_taken_before_the_ninth(tmp_path):
    shop = a_shop(tmp_path, parts=[{"name": name} for name in "ABCDEFGHIJ"])
    put(shop, "parts[9]", "parts[10]", "--unset")
    assert "".join(part.name for part in kept_claim(shop).parts) == "ABCDEFGH"


def test_a_needed_key_cannot_be_taken_away(shop):
    ran = put(shop, "maker", "--unset")
    assert (ran.code, "key maker is missing" in ran.err) == (2, True)


def test_a_claim_keeps_its_number(shop):
    assert (put(shop, "number", "26-0002").code, the_desk(shop).book.numbers()) == (2, ["26-0001"])


def test_what_is_the_same_makes_no_revision(shop):
    ran = put(shop, "unit.hours", "100")
    assert ("nothing changed" in ran.err, the_desk(shop).book.get("26-0001").revision) == (True, 1)


def test_the_history_says_which_keys_and_why(shop):
    put(shop, "unit.hours", "112.4", "--because", "misread")
    event = the_desk(shop).book.history("26-0001")[-1]
    assert (event.what, event.why, event.facts) == ("edited", "misread", {"changed": "unit.hours"})


def test_after_filing_it_is_a_correction(shop):
    happen(shop, "26-0001", "filed", claimed="1.00", currency="USD")
    ran = put(shop, "unit.hours", "112.4")
    assert (the_desk(shop).book.history("26-0001")[-1].what, "new version" in ran.err) == ("corrected", True)


def test_a_withdrawn_claim_takes_no_change(shop):
    happen(shop, "26-0001", "withdrawn")
    ran = put(shop, "unit.hours", "112.4")
    assert (ran.code, "withdrawn" in ran.err) == (2, True)


def test_the_document_tells_before_and_after(shop):
    changed = put(shop, "unit.hours", "112.4", "--json").json["changed"]
    assert changed == [{"key": "unit.hours", "before": "100", "after": "112.4"}]


def in_folder(tmp_path, *arguments):
    folder = a_folder(tmp_path / "claim")
    (folder / "claim.toml").write_text("# from the counter\n" + (folder / "claim.toml").read_text())
    ran = claimpack("set", folder, *arguments, folder=tmp_path)
    text = (folder / "claim.toml").read_text()
    return ran, text, tomllib.loads(text)


def test_a_claim_folder_is_changed_and_its_comments_stay(tmp_path):
    _, text, keys = in_folder(tmp_path, "unit.hours", "112.4")
    assert (text.startswith("# from the counter\n"), keys["unit"]["hours"]) == (True, "112.4")


def test_dates_in_a_claim_folder_are_dates(tmp_path):
    _, text, _ = in_folder(tmp_path, "dates.repaired", "2026-02-25")
    assert "repaired = 2026-02-25\n" in text


def test_a_new_list_in_a_claim_folder_is_a_list_of_tables(tmp_path):
    _, text, keys = in_folder(tmp_path, "extras[1].what", "Freight", "extras[1].amount", "12.50")
    assert ("[[extras]]" in text, keys["extras"]) == (True, [{"what": "Freight", "amount": "12.50"}])


def test_a_claim_folder_is_untouched_by_a_wrong_value(tmp_path):
    ran, _, keys = in_folder(tmp_path, "unit.hours", "lots")
    assert (ran.code, keys["unit"]["hours"]) == (2, "100")


def test_another_verdict_is_told_and_a_mistyped_maker_suggested(shop):
    ran = put(shop, "maker", "haldn")
    assert ("was covered, and is undecided now" in ran.err, "maker 'halden'" in ran.err) == (True, True)


@pytest.mark.parametrize(("day", "code"), [("2026-02-28", 0), ("2026-03-01", 0), ("2026-03-02", 2)])
def test_a_day_still_to_come_is_refused(shop, day, code):
    assert put(shop, "dates.repaired", day, "--today", "2026-03-01").code == code


def test_a_day_still_to_come_names_its_key_and_today(shop):
    said = put(shop, "dates.repaired", "2026-03-02").err
    assert ("key dates.repaired: 2026-03-02" in said, "--today" in said) == (True, True)


def test_a_day_still_to_come_is_refused_in_a_claim_folder(tmp_path):
    ran, _, keys = in_folder(tmp_path, "dates.repaired", "2026-03-02")
    assert (ran.code, str(keys["dates"]["repaired"])) == (2, "2026-02-24")


def test_a_day_still_to_come_that_is_there_hinders_no_other_change(shop):
    assert put(shop, "owner.name", "B", "--today", "2026-02-20").code == 0


def test_a_serial_is_set_by_its_role(shop):
    ran = put(shop, "unit.serials.engine", "E70-9")
    assert (ran.out, kept_claim(shop).unit.serial("engine")) == ("· unit.serials.engine: E70-1 -> E70-9\n", "E70-9")


def test_a_serial_of_a_new_role_is_added(shop):
    ran = put(shop, "unit.serials.battery", "B-1")
    assert (ran.err, kept_claim(shop).unit.serial("battery")) == ("", "B-1")


def test_a_role_that_looks_mistyped_is_told(shop):
    ran = put(shop, "unit.serials.enigne", "E70-9")
    assert "If 'engine' was meant: claimpack set 26-0001 unit.serials.enigne --unset" in ran.err


def test_a_serial_is_taken_away_by_its_role(shop):
    put(shop, "unit.serials.engine", "--unset")
    assert [serial.role for serial in kept_claim(shop).unit.serials] == ["unit"]


def test_a_serial_in_a_claim_folder_is_set_by_its_role(tmp_path):
    _, text, keys = in_folder(tmp_path, "unit.serials.engine", "E70-9", "unit.serials.battery", "B-1")
    roles = {serial["role"]: serial["value"] for serial in keys["unit"]["serials"]}
    assert (text.startswith("# from the counter\n"), roles["engine"], roles["battery"]) == (True, "E70-9", "B-1")


def test_a_finding_is_corrected_where_it_stands(shop):
    claimpack("finding", "add", "26-0001", "gap", "0.6", folder=shop)
    claimpack("set", "26-0001", "findings.1.value", "0.3", folder=shop)
    assert kept_claim(shop).findings[0].value == "0.3"


def test_a_finding_takes_no_comma_between_digits(shop):
    claimpack("finding", "add", "26-0001", "gap", "0.6", folder=shop)
    ran = claimpack("set", "26-0001", "findings[1].value", "0,3", folder=shop)
    assert (ran.code, "Write 0.3." in ran.err, kept_claim(shop).findings[0].value) == (2, True, "0.6")


@pytest.mark.parametrize(
    ("key", "says"),
    [
        ("proof.file", "claimpack paper add 26-0001 ../r.pdf --proof receipt"),
        ("papers[1]", "claimpack paper add 26-0001 ../r.pdf"),
        ("photos[1].file", "claimpack photo add 26-0001 ../r.pdf"),
    ],
)
def test_a_file_that_lies_elsewhere_is_brought_in_by_another_command(shop, key, says):
    (shop.parent / "r.pdf").write_bytes(b"%PDF")
    ran = put(shop, key, "../r.pdf")
    assert (ran.code, "is outside the claim" in ran.err, ran.err.endswith(f"{says}\n")) == (2, True, True)


def test_a_file_that_lies_outside_a_folder_is_to_be_copied_into_it(tmp_path):
    a_folder(tmp_path / "claim")
    (tmp_path / "r.pdf").write_bytes(b"%PDF")
    ran = claimpack("set", "claim", "proof.file", tmp_path / "r.pdf", folder=tmp_path / "claim" / "..")
    assert (ran.code, "Copy it into the folder" in ran.err) == (2, True)


def test_a_path_that_leads_nowhere_leaves_the_claim_folder(shop):
    ran = put(shop, "proof.file", "../nothing.pdf")
    assert (ran.code, "../nothing.pdf" in ran.err) == (2, True)


def test_a_name_that_the_book_keeps_no_file_of_is_told_at_once(shop):
    ran = put(shop, "proof.file", "papers/lost.pdf")
    assert "the file papers/lost.pdf: The book keeps no such file; claimpack paper add 26-0001" in ran.err
    assert "lost.pdf" not in put(shop, "owner.name", "B").err


def test_a_held_part_before_others_is_not_taken_off(tmp_path):
    shop = a_shop(tmp_path, held=[{"part": "piston"}, {"part": "cylinder"}])
    ran = claimpack("set", "26-0001", "held[1]", "--unset", folder=shop)
    assert (ran.code, "hold release 26-0001/1 --because TEXT" in ran.err) == (2, True)
    assert [held.part for held in kept_claim(shop).held] == ["piston", "cylinder"]


def test_a_serial_number_taken_away_is_told_by_its_role(shop):
    assert put(shop, "unit.serials.engine", "--unset").out == "· unit.serials.engine: E70-1 -> nothing\n"


def test_a_serial_number_of_another_form_than_the_plans_is_told(tmp_path):
    shop = a_shop(tmp_path, plan="halden-2025")
    assert "! X does not have the form the plan gives" in put(shop, "unit.serials.unit", "X").err


def test_a_serial_number_of_another_form_is_told_when_it_is_set_and_no_more(tmp_path):
    shop = a_shop(tmp_path, plan="halden-2025")
    put(shop, "unit.serials.unit", "X")
    assert "form the plan gives" not in put(shop, "owner.phone", "555-0101").err


def test_a_key_set_in_a_commented_claim_file_stands_in_its_table_above_the_lists(tmp_path):
    claimpack(
        "start", "c", folder=tmp_path, typed="Dead.\nhalden\nCS-70\nHC70-1\n\n\n\n\n\n\n\n\n\n\n\n\n2026-02-05\nstop\n"
    )
    claimpack("set", "c", "failure.cause", "Worn.", folder=tmp_path)
    text = (tmp_path / "c" / "claim.toml").read_text()
    assert text.index('complaint = "Dead."') < text.index('cause = "Worn."') < text.index("# [[parts]]")


def test_never_for_a_day_is_refused_with_the_key_that_says_so(shop):
    ran = put(shop, "dates.registered", "never")
    assert (ran.code, "dates.never_registered true" in ran.err) == (2, True)


def test_a_serial_of_a_known_role_is_not_told_as_mistyped(shop):
    assert "is a new role" not in put(shop, "unit.serials.engine", "E70-5").err


@pytest.mark.parametrize(("key", "value"), [("findings[1].what", "gap at 0,3"), ("unit.serials[1].value", "HC70,9")])
def test_a_comma_may_stand_where_no_number_does(shop, key, value):
    claimpack("finding", "add", "26-0001", "gap", "0.6", "mm", folder=shop)
    assert put(shop, key, value).code == 0


@pytest.mark.parametrize("key", ["parts[1].unit_cost", "parts[1].list_price", "parts[1].core"])
def test_money_is_read_as_people_write_it_in_the_claims_currency(tmp_path, key):
    shop = a_shop(tmp_path, parts=[{"name": "Gasket"}], currency="USD")
    assert put(shop, key, "$4.10").code == 0
    assert "4.10" in str(getattr(kept_claim(shop).parts[0], key.partition(".")[2]))


def test_a_day_is_read_as_people_write_it(shop):
    assert (put(shop, "dates.repaired", "24 Feb 2026").code, str(kept_claim(shop).dates.repaired)) == (0, "2026-02-24")


@pytest.mark.parametrize(("key", "value"), [("owner.name", "never"), ("dates.registered", "2025-03-20")])
def test_never_is_refused_for_a_day_alone(shop, key, value):
    assert put(shop, key, value).code == 0
