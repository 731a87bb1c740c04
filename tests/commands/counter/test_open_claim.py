import threading
from unittest.mock import Mock

import pytest
from builders import a_claim
from claim_folders import receipt
from running import claimpack
from shop_builders import a_shop, an_empty_shop, happen, kept_claim, the_desk

from claimpack.commands.counter.taking_in import TakingIn
from claimpack.commands.desk.say import Say

SAW = ("--maker", "halden", "--model", "CS-70", "--serial", "HC70-9", "--purchased", "2025-06-01")
USED = ("--use", "professional", "--hours", "100", "--component", "short block")
SAME = ("--maker", "halden", "--model", "CS-70", "--serial", "hc70-1", "--purchased", "2025-06-01")

ANSWERS = """The saw will not start.
halden
CS-70
HC70-1
cut-off saw
E70-1
professional
112.4
2025-06-01

receipt

yes
555-0142
A. Customer
2026-02-20
short block
"""


@pytest.fixture
def shop(tmp_path):
    return an_empty_shop(tmp_path)


@pytest.fixture
def known(tmp_path):
    """A shop that had the saw HC70-1 in before."""
    return a_shop(tmp_path, "25-0310")


def opened(shop, *more, **how):
    return claimpack("open", *SAW, *USED, *more, folder=shop, **how)


def test_the_new_number_comes_first_then_the_answer(shop):
    assert opened(shop).out.splitlines()[:2] == [
        "26-0001",
        "COVERED  until 2026-06-01 under whole-unit warranty for professional use.",
    ]


def test_the_next_step_is_named_beside_the_answer(shop):
    assert "claimpack check 26-0001" in opened(shop).err


def test_every_option_goes_under_its_key(shop):
    more = ("--engine-serial", "E70-9", "--owner", "B", "--phone", "555-0101", "--email", "b@example.com")
    opened(shop, *more, "--second-owner", "--proof", "receipt", "--sold-in", "US-SC", "--complaint", "Dead.")
    claim = kept_claim(shop)
    assert (claim.unit.serial("engine"), claim.owner.phone, claim.owner.email) == ("E70-9", "555-0101", "b@example.com")
    assert (claim.owner.first_owner, claim.proof.kind, claim.unit.sold_in) == (False, "receipt", "US-SC")
    assert (claim.failure.complaint, claim.unit.meter) == ("Dead.", True)


@pytest.mark.parametrize(("told", "first"), [(("--first-owner",), True), (("--second-owner",), False), ((), None)])
def test_whether_the_owner_is_the_first_is_known_where_it_is_told(shop, told, first):
    opened(shop, *told)
    assert kept_claim(shop).owner.first_owner is first


def test_the_book_keeps_of_a_claim_what_was_told_and_no_more(shop):
    opened(shop)
    assert {"approval", "extras", "held"}.isdisjoint(kept_claim(shop).model_fields_set)


def test_it_is_brought_in_today_unless_told(shop):
    opened(shop)
    assert str(kept_claim(shop).dates.presented) == "2026-03-01"


def test_a_unit_without_a_meter_has_no_reading(shop):
    claimpack("open", *SAW, "--no-meter", folder=shop)
    assert (kept_claim(shop).unit.meter, kept_claim(shop).unit.hours) == (False, None)


def test_numbers_count_on(shop):
    opened(shop, "--number", "26-0041")
    assert opened(shop).out.splitlines()[0] == "26-0042"


def test_a_number_that_is_taken_is_refused_before_anything_is_asked(shop):
    opened(shop)
    ran = claimpack("open", "--number", "26-0001", folder=shop, typed=ANSWERS)
    assert (ran.code, "already in the book" in ran.err, "complaint" in ran.err) == (2, True, False)


def test_two_people_at_once_get_two_numbers(shop):
    counters = [threading.Thread(target=opened, args=(shop,)) for _ in range(4)]
    for counter in counters:
        counter.start()
    for counter in counters:
        counter.join()
    assert the_desk(shop).book.numbers() == ["26-0001", "26-0002", "26-0003", "26-0004"]


def test_a_number_that_somebody_else_takes_meanwhile_is_left_to_them(shop, monkeypatch):
    desk = the_desk(shop)
    add = desk.add

    def meanwhile(*claim):
        monkeypatch.setattr(desk, "add", add)
        opened(shop)
        return add(*claim)

    monkeypatch.setattr(desk, "add", meanwhile)
    entry = TakingIn(Say(desk.world), desk, quiet=True).take_in(a_claim(), "")
    assert entry.claim.number == "26-0002"


def test_without_options_it_asks(shop):
    ran = claimpack("open", folder=shop, typed=ANSWERS)
    assert (ran.code, kept_claim(shop).failure.component, kept_claim(shop).owner.phone) == (
        0,
        "short block",
        "555-0142",
    )


def test_only_what_the_options_leave_open_is_asked(shop):
    ran = claimpack("open", "--maker", "halden", folder=shop, typed="stop\n")
    assert ("Maker?" in ran.err, "What is wrong" in ran.err) == (False, True)


def test_stopping_with_enough_told_opens_the_claim(shop):
    ran = claimpack("open", folder=shop, typed="Dead.\nhalden\nCS-70\nHC70-9\n\nstop\n")
    assert (ran.code, kept_claim(shop).unit.serial("unit")) == (0, "HC70-9")


def test_on_demand_it_asks_what_enough_options_leave_open(shop):
    ran = claimpack("open", *SAW, "--ask", folder=shop, typed="It dies.\nstop\n")
    assert (ran.code, kept_claim(shop).failure.complaint) == (0, "It dies.")


def test_a_unit_that_was_never_registered_is_taken_in_so(shop):
    opened(shop, "--never-registered")
    assert kept_claim(shop).dates.never_registered


def test_a_day_of_registration_and_none_contradict_each_other(shop):
    ran = opened(shop, "--never-registered", "--registered", "2025-06-02")
    assert (ran.code, "--never-registered is true, but --registered is 2025-06-02" in ran.err) == (2, True)


def test_the_end_of_input_before_enough_is_told_keeps_nothing(shop):
    ran = claimpack("open", "--maker", "halden", folder=shop)
    assert (ran.code, the_desk(shop).book.numbers()) == (2, [])
    assert ("--model, --serial" in ran.err, "--photo" in ran.err) == (True, False)


@pytest.mark.parametrize(
    ("option", "value", "says"),
    [
        ("--failed", "soon", "open: --failed: 'soon' is not a date"),
        ("--failed", "2025-01-01", "--failed 2025-01-01 is before --purchased"),
        ("--use", "profesional", "open: --use: 'profesional' is no use"),
        ("--hours", "-1", "--hours: '-1' is below 0"),
        ("--engine-serial", " ", "--engine-serial: must not be empty"),
        ("--number", "26/1", "--number: '26/1' is no claim number"),
    ],
)
def test_an_option_that_has_no_meaning_is_refused(shop, option, value, says):
    ran = opened(shop, option, value)
    assert (ran.code, says in ran.err, the_desk(shop).book.numbers()) == (2, True, [])


def test_a_mistyped_maker_is_kept_and_the_nearest_suggested(shop):
    ran = claimpack("open", "--maker", "haldn", "--model", "CS-70", "--serial", "1", folder=shop)
    assert (ran.code, "claimpack set 26-0001 maker 'halden'" in ran.err) == (0, True)


@pytest.mark.parametrize(("maker", "told"), [("unheard of", True), ("haldn", False)])
def test_which_plans_there_are_is_told_where_no_maker_is_near(shop, maker, told):
    ran = claimpack("open", "--maker", maker, "--model", "CS-70", "--serial", "1", folder=shop)
    assert ("claimpack plan list" in ran.err) is told


def test_a_unit_on_an_open_claim_is_warned_of(known):
    ran = claimpack("open", *SAME, *USED, folder=known)
    assert (ran.code, "! hc70-1" in ran.err, "25-0310, draft" in ran.err) == (0, True, True)


def test_a_withdrawn_repair_is_warned_of_and_not_carried_over(known):
    happen(known, "25-0310", "withdrawn")
    ran = claimpack("open", *SAME, *USED, folder=known)
    assert ("had the same component before" in ran.err, kept_claim(known).earlier) == (True, ())


def test_an_earlier_repair_is_filled_in_with_its_day_and_claim(known):
    claimpack("open", *SAME, *USED, folder=known)
    repair = kept_claim(known).earlier[0]
    assert (repair.component, str(repair.repaired), repair.claim) == ("short block", "2026-02-24", "25-0310")


def test_warnings_are_in_the_document(known):
    answer = claimpack("open", *SAME, *USED, "--json", folder=known).json
    warning = answer["warnings"][0]
    assert (answer["claim"], warning["kind"], warning["claim"]) == ("26-0001", "open claim", "25-0310")


def test_a_new_unit_is_warned_of_nothing(known):
    assert opened(known, "--json").json["warnings"] == []


def test_in_conversation_the_warning_comes_with_the_serial(known):
    err = claimpack("open", folder=known, typed=ANSWERS).err
    assert err.index("25-0310") < err.index("of the engine?")


def test_a_warning_is_said_once(known):
    assert claimpack("open", folder=known, typed=ANSWERS).err.count("is on an open claim") == 1


def test_the_document_is_alone_on_stdout(known):
    ran = claimpack("open", *SAME, *USED, "--json", folder=known)
    assert (ran.json["verdict"], ran.err) == ("covered", "")


def test_outside_a_shop_it_is_refused(tmp_path):
    ran = claimpack("open", *SAW, folder=tmp_path)
    assert (ran.code, "claimpack shop init" in ran.err) == (2, True)


def test_a_reading_and_no_meter_contradict_each_other(shop):
    ran = claimpack("open", *SAW, "--no-meter", "--hours", "61", folder=shop)
    assert (ran.code, the_desk(shop).book.numbers()) == (2, [])


def test_a_conversation_broken_off_is_told_as_a_command(shop):
    ran = claimpack("open", folder=shop, typed="Dead.\nhalden\nstop\n")
    assert (ran.code, "claimpack open --complaint Dead. --maker halden" in ran.err) == (2, True)


@pytest.mark.parametrize("option", ["--purchased", "--delivered", "--registered", "--presented", "--failed"])
def test_a_day_still_to_come_is_refused(shop, option):
    ran = opened(shop, "--today", "2026-02-23", option, "2026-02-24")
    assert (ran.code, the_desk(shop).book.numbers()) == (2, [])
    assert f"{option}: 2026-02-24" in ran.err


def test_a_date_or_a_number_is_no_component_and_asked_again(shop):
    claimpack("open", folder=shop, typed=ANSWERS.replace("short block", "2026-06-01\n2026-06-01\n4242\nshort block"))
    assert kept_claim(shop).component() == "short block"


def test_a_date_as_an_option_is_no_component(shop):
    ran = opened(shop, "--component", "2026-06-01")
    assert (ran.code, "open: --component: '2026-06-01' is no component" in ran.err) == (2, True)


def test_a_serial_number_of_another_form_is_told_once(shop):
    ran = claimpack("open", folder=shop, typed=ANSWERS)
    assert ran.err.count("! HC70-1 ") == 1


def test_a_serial_number_of_another_form_is_told_where_options_say_all(shop):
    ran = claimpack("open", *SAW, *USED, folder=shop)
    assert "! HC70-9 " in ran.err


def test_scripts_read_which_serial_numbers_are_odd(shop):
    odd = claimpack("open", *SAW, *USED, "--json", folder=shop).json["odd_serials"]
    assert [said.split()[0] for said in odd] == ["HC70-9"]


def test_the_makers_approval_is_the_first_step_where_it_is_lacking(shop):
    ran, listed = opened(shop), claimpack("list", "--json", folder=shop).json["claims"][0]
    assert ran.err.index("prior approval") < ran.err.index("Opened.")
    assert (listed["next"], listed["approval_wanted"]) == ("get the maker's approval, repair, then file", True)


def test_where_no_approval_is_needed_none_is_asked_for(shop):
    assert opened(shop, "--component", "ignition coil", "--json").json["first"] == []


def test_a_claim_with_another_maker_takes_owner_unit_and_dates_of_the_first(known):
    ran = claimpack("open", "--like", "25-0310", "--maker", "Ampelion", "--model", "E70", folder=known)
    first, other = kept_claim(known, "25-0310"), kept_claim(known, "26-0001")
    assert (ran.code, other.maker, other.unit.model, other.failure.component) == (0, "Ampelion", "E70", "")
    assert (other.owner, other.dates, other.unit.serials) == (first.owner, first.dates, first.unit.serials)


def test_the_papers_of_the_first_are_kept_for_the_other_too(known, tmp_path):
    (tmp_path / "receipt.pdf").write_bytes(receipt("Paid."))
    claimpack("paper", "add", "25-0310", tmp_path / "receipt.pdf", folder=known)
    claimpack("open", "--like", "25-0310", "--maker", "Ampelion", folder=known)
    first, other = (the_desk(known).book.get(number).files for number in ("25-0310", "26-0001"))
    assert [file.path for file in other] == [file.path for file in first] == ["papers/receipt.pdf"]


def test_meters_are_kept_as_they_are_told(shop):
    opened(shop, "--meter", "cycles=4100", "--meter", "shots=none")
    meters = [(meter.kind, meter.total) for meter in kept_claim(shop).unit.meters]
    assert meters == [("cycles", 4100), ("shots", None)]


def test_a_claim_to_be_like_that_is_not_there_is_refused(known):
    assert claimpack("open", "--like", "25-9999", "--maker", "Ampelion", folder=known).code == 2


ALIKE = ("open", "--maker", "halden", "--model", "CS-70", "--purchased", "2025-09-12", "--owner", "Marrow Lane Paving")


def test_of_two_units_on_one_receipt_the_second_is_asked_for_its_own_serial_number(shop):
    claimpack(*ALIKE, "--serial", "HC70-118-21001", "--hours", "61", "--number", "26-0101", folder=shop)
    refused = claimpack("open", "--like", "26-0101", typed="", folder=shop)
    assert (refused.code, "--serial" in refused.err) == (2, True)
    assert (
        claimpack("open", "--like", "26-0101", "--serial", "HC70-118-21002", "--number", "26-0102", folder=shop).code
        == 0
    )
    second = kept_claim(shop, "26-0102")
    assert (second.owner.name, str(second.dates.purchased)) == ("Marrow Lane Paving", "2025-09-12")
    assert ([one.value for one in second.unit.serials], second.unit.hours) == (["HC70-118-21002"], None)


def test_the_same_maker_with_another_serial_number_is_another_unit_and_what_came_along_is_told(shop):
    claimpack(*ALIKE, "--serial", "HC70-118-21001", "--hours", "61", "--number", "26-0101", folder=shop)
    other = ("--maker", "halden", "--serial", "HC70-118-21009", "--number", "26-0109")
    ran = claimpack("open", "--like", "26-0101", *other, folder=shop)
    assert (ran.code, kept_claim(shop, "26-0109").unit.hours) == (0, None)
    assert "Another unit alike; from 26-0101 came model CS-70, the day of sale, the owner" in ran.err


def test_a_unit_in_stock_is_opened_without_owner_and_receipt(shop):
    stock = ("--case", "stock", "--serial", "HC70-118-21003", "--invoiced", "2025-09-10", "--number", "26-0103")
    assert claimpack("open", "--maker", "halden", "--model", "CS-70", *stock, folder=shop).code == 0
    assert (kept_claim(shop, "26-0103").is_stock, str(kept_claim(shop, "26-0103").unit.invoiced)) == (
        True,
        "2025-09-10",
    )


def test_a_part_sold_is_opened_without_the_machine(shop):
    part = ("--case", "part", "--part-name", "ignition coil", "--sold", "2026-01-10", "--never-fitted")
    assert (
        claimpack("open", "--maker", "halden", "--model", "CS-70", *part, "--number", "26-0104", folder=shop).code == 0
    )
    claim = kept_claim(shop, "26-0104")
    assert (claim.unit.serials, claim.component(), claim.part_sold.never_fitted) == ((), "ignition coil", True)


@pytest.mark.parametrize(
    "wrong",
    [("--case", "recall"), ("--case", "part", "--sold", "2026-03-02"), ("--case", "stock", "--invoiced", "soon")],
)
def test_a_case_that_cannot_be_is_refused(shop, wrong):
    given = ("open", "--maker", "halden", "--model", "CS-70", "--serial", "HC70-118-21005", *wrong)
    assert claimpack(*given, folder=shop).code == 2


def test_a_part_without_a_model_is_told_a_command_that_can_be_typed(shop):
    part = ("--maker", "halden", "--case", "part", "--part-name", "ignition coil", "--sold", "2026-01-10")
    refused = claimpack("open", *part, "--never-fitted", typed="", folder=shop)
    assert (refused.code, "--never-fitted" in refused.err, "--never-fitted yes" in refused.err) == (2, True, False)
    assert "one unit" not in refused.err


def test_the_new_claim_is_at_hand_before_its_answer_is_told(shop, monkeypatch):
    monkeypatch.setattr(TakingIn, "tell", Mock(side_effect=BrokenPipeError))
    opened(shop)
    assert claimpack("at-hand", "--json", folder=shop).json["claim"] == "26-0001"


def test_the_same_unit_with_the_same_maker_comes_in_anew(known):
    ran = claimpack("open", "--like", "25-0310", "--serial", "HC70-1", "--json", "--today", "2026-03-01", folder=known)
    dates = kept_claim(known).dates
    assert (str(dates.presented), dates.repaired, dates.failed) == ("2026-03-01", None, None)
    assert dates.purchased == kept_claim(known, "25-0310").dates.purchased
    assert [warning["kind"] for warning in ran.json["warnings"]] == ["open claim"]
    assert "The same unit" in ran.err
