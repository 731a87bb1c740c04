import pytest
from builders import CLAIM, PLAN, changed

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.keys import Contradiction, clashes_in_words, contradiction, record_from
from claimpack.core.facts.lines import Labour
from claimpack.core.plans.plan import Plan
from claimpack.errors import BadInput


def told(kind=Claim, **changes):
    """What is told of a record that cannot be made."""
    keys = changed(CLAIM if kind is Claim else PLAN, changes)
    with pytest.raises(BadInput) as caught:
        record_from(kind, keys, "claim.toml")
    return "\n".join(caught.value.lines())


def test_a_record_is_made_from_sound_keys():
    assert record_from(Claim, CLAIM, "claim.toml").number == "26-0001"


@pytest.mark.parametrize(
    ("changes", "line"),
    [
        ({"maker": None}, "claim.toml: key maker is missing"),
        ({"makr": "x"}, "key makr is not known. Did you mean maker?"),
        ({"dates__presentd": "2026-01-01"}, "key dates.presentd is not known. Did you mean presented?"),
        ({"failure__part": {"nam": "x"}}, "key failure.part.nam is not known. Did you mean name?"),
        ({"proof__zzz": 1}, "key proof.zzz is not known. Known here: kind, file, read."),
        ({"parts": [{"name": "a"}, {"name": "b", "quantty": 1}]}, "key parts[2].quantty is not known"),
        ({"failure": [{}, {"cuase": "x"}]}, "key failure[2].cuase is not known"),
        ({"photos": [{"file": "a.jpg", "marks": [{"shap": "ring"}]}]}, "key photos[1].marks[1].shap is not known"),
        ({"failure__defect": "materiel"}, "key failure.defect: 'materiel' is not one of"),
        ({"failure__defect": "materiel"}, "Did you mean 'material'?"),
        ({"dates__failed": "yesterday"}, "key dates.failed: 'yesterday' is not a date such as 2026-02-05"),
        ({"dates__failed": "2026-02-30"}, "'2026-02-30' is not a date such as 2026-02-05"),
        ({"dates__failed": "9999-01-01"}, "9999-01-01 is outside the years"),
        ({"unit__hours": "-1"}, "key unit.hours: '-1' is below 0"),
        ({"unit__hours": "many"}, "key unit.hours: 'many' is not a decimal number"),
        ({"unit__hours": "300 h"}, "'300 h' is not a decimal number such as 12.50; write the number alone: 300"),
        ({"unit__meter": "yes please"}, "key unit.meter: must be true or false, not 'yes please'"),
        ({"parts": [{"name": "a", "quantity": 0}]}, "key parts[1].quantity: 0 is not above 0"),
        ({"parts": {"name": "a"}}, "key parts: must be a list in [ ]"),
        ({"unit": "saw"}, "key unit: must be a table of keys"),
        ({"maker": 12}, "key maker: must be text in quotes, not 12"),
        ({"maker": " "}, "key maker: must not be empty"),
        ({"maker": "x" * 301}, "key maker: is longer than 300 characters"),
        ({"labour": [{"operation": "x", "started": "2026-02-24"}]}, "2026-02-24 is not a time such as"),
        ({"dates__failed": "2024-01-01"}, "dates.failed 2024-01-01 is before dates.purchased 2025-03-14"),
        ({"unit__built": "2025-03-15"}, "unit.built 2025-03-15 is after dates.delivered 2025-03-14"),
    ],
)
def test_a_problem_is_told_with_its_key_and_a_way_out(changes, line):
    assert line in told(**changes)


@pytest.mark.parametrize(
    ("changes", "line"),
    [
        ({"hold": {"for": "90 days"}}, "key hold.for: '90 days' is not a period such as"),
        ({"pays": {"deductible": "25"}}, 'must be a table of keys, as in {amount = "25.00", payer = "owner"}'),
        ({"pays": {"deductible": {"amont": "25"}}}, "Did you mean amount?"),
        ({"pays": {"tax": "8.1 %"}}, "key pays.tax: '8.1 %' is a percentage: write a fraction of 1, here 0.081"),
        ({"pays": {"parts_handling": "50%"}}, "here 0.5"),
        ({"pays": {"claim_cap": "$600"}}, "write the number alone: 600"),
        ({"hold": {"fr": "P90D"}}, "key hold.fr is not known. Did you mean for?"),
        ({"start_without_proof": {"frm": "built"}}, "Did you mean from?"),
        ({"window": [{"id": "a", "period": "P1Y"}]}, "key window[1].covers is missing"),
        ({"window": []}, "key window: must not be empty"),
        ({"currency": "EURO"}, "Did you mean 'EUR'?"),
    ],
)
def test_a_problem_of_a_plan_is_told_as_well(changes, line):
    assert line in told(Plan, **changes)


@pytest.mark.parametrize(
    ("changes", "ends"),
    [
        ({"dates__failed": "2024-01-01"}, "is before dates.delivered 2025-03-14"),
        ({"failure__defect": "zzz"}, "'accident' or 'unknown'."),
        ({"failure__defect": 5}, "'accident' or 'unknown'."),
        ({"proof": "receipt"}, "must be a table of keys; known here: kind, file, read"),
        ({"unit__serials": [{"role": "unit"}, {"value": "x"}]}, "key unit.serials[2].role is missing"),
    ],
    ids=["a contradiction", "far from every choice", "no word", "a table of many keys", "two entries"],
)
def test_a_problem_is_told_without_a_hint_that_does_not_help(changes, ends):
    assert told(**changes).splitlines()[-2].endswith(ends)


@pytest.mark.parametrize(
    ("letters", "said"),
    [(57, f"'{'+' * 57}' is"), (58, f"'{'+' * 58}' is"), (59, f"'{'+' * 56}... is")],
    ids=["below", "sixty with its quotes", "above"],
)
def test_a_value_is_told_in_full_up_to_sixty_letters_with_its_quotes(letters, said):
    assert f"key number: {said}" in told(number="+" * letters)
    assert f"{said} not one of" in told(failure__defect="+" * letters)


def test_every_problem_is_told_at_once():
    assert "3 things are wrong" in told(makr="x", failure__defect="x", dates__failed="x")


def test_of_very_many_problems_a_dozen_are_told():
    assert "and 8 more" in told(**{f"key{number}": 1 for number in range(20)})


def test_what_a_long_value_was_is_cut_short():
    assert len(told(unit__meter="y" * 5000)) < 200


def test_what_to_do_is_told_last():
    assert told(maker=None).endswith("Correct it and try again.")


OPTIONS = {"dates.failed": "--failed", "dates.purchased": "--purchased", "unit.hours": "--hours"}
OPTIONS |= {"unit.built": "--built", "dates.delivered": "--delivered", "maker": "--maker"}


@pytest.mark.parametrize(
    ("changes", "line"),
    [
        ({"unit__hours": "many"}, "open: --hours: 'many' is not a decimal number"),
        ({"maker": None}, "open: --maker is missing"),
        ({"dates__failed": "2024-01-01"}, "open: --failed 2024-01-01 is before --purchased 2025-03-14"),
        ({"unit__built": "2025-03-15"}, "open: --built 2025-03-15 is after --delivered 2025-03-14"),
    ],
)
def test_what_options_gave_is_told_by_the_option(changes, line):
    with pytest.raises(BadInput) as caught:
        record_from(Claim, changed(CLAIM, changes), "open", OPTIONS)
    assert line in "\n".join(caught.value.lines())


def test_without_a_source_the_values_are_named_in_the_words_given():
    keys = changed(CLAIM, {"unit": {**CLAIM["unit"], "hours": "61,5"}})
    with pytest.raises(BadInput, match=r"^Meter: '61,5' is not a decimal number"):
        record_from(Claim, keys, "", {"unit.hours": "Meter"})


def test_a_time_however_long_is_told_in_a_line():
    with pytest.raises(BadInput) as refused:
        record_from(Labour, {"operation": "clean", "started": "x" * 40_000}, "claim.toml")
    assert max(map(len, str(refused.value).splitlines())) < 200


@pytest.mark.parametrize("changes", [{"currency": "x" * 40_000}, {"last_day": "x" * 40_000}, {"x" * 40_000: 1}])
def test_what_is_wrong_is_told_in_a_line_however_long_it_is(changes):
    assert max(map(len, told(Plan, **changes).splitlines())) < 700


def test_a_table_of_too_many_entries_is_told_as_one():
    many = {f"role {number}": "H.*" for number in range(13)}
    assert "requires.serial_patterns: has more than 12 entries" in told(Plan, requires__serial_patterns=many)


CLASH = Contradiction("{} 2026-02-20 is before {} 2026-03-14", ("failed", "purchased"))


def test_keys_are_called_by_their_names():
    said = clashes_in_words([CLASH], lambda key: f"--{key}")
    assert said == "--failed 2026-02-20 is before --purchased 2026-03-14"


def test_every_clash_is_told():
    assert clashes_in_words([CLASH, CLASH], str).count("is before") == 2


def test_a_refusal_says_it_with_the_keys():
    assert contradiction([CLASH]).message() == "failed 2026-02-20 is before purchased 2026-03-14"


@pytest.mark.parametrize(("letters", "ends"), [(199, "z"), (200, "z"), (201, "...")])
def test_a_key_is_told_in_full_up_to_two_hundred_letters(letters, ends):
    key = "z" * (letters - len("dates."))
    assert told(**{f"dates__{key}": 1}).split("key ")[1].split(" is not")[0].endswith(ends)
