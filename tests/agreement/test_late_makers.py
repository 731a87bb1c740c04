"""What a maker owes by its terms is told alike by the lists, the dates, the amounts and the letters."""

from __future__ import annotations

import pytest
from made_once import made_once
from manager_shop import a_managed_shop, filed_in, on, took_place

LATE = "2026-03-20"


@made_once
def refused_without_grounds(place):
    """A claim of 150.00 that was refused without a reason on the first of February, under the terms of Texas."""
    shop = a_managed_shop(place)
    filed_in(shop, received="2026-01-02", proof__file=None, held=[])
    took_place(shop, "26-0001", "answered", "2026-02-01", answer="refused")
    return shop


@pytest.fixture
def shop(tmp_path):
    return refused_without_grounds(tmp_path)


def told(shop, *words, day=LATE):
    return on(day, *words, "--json", shop=shop).json


def test_a_refusal_without_grounds_is_one_fact_for_every_command(shop):
    pending = told(shop, "pending")
    (claim,), amounts = pending["claims"], pending["three_amounts"]
    (item,) = told(shop, "due")["items"]
    assert (claim["turn"], claim["pay_due"], claim["no_grounds_on"]) == ("maker", "2026-03-03", "2026-02-01")
    assert (item["what"], item["on"], item["cites"]) == ("payment expected", claim["pay_due"], claim["cites"])
    assert (amounts["late"]["amounts"], amounts["only_the_shop"]["amounts"]) == ({"USD": "150.00"}, {})
    assert told(shop, "show", "26-0001")["next"] == claim["step"]
    assert [row["next"] for row in told(shop, "list")["claims"]] == [claim["step"]]


def test_a_refusal_without_grounds_is_missed_on_a_statement(shop):
    (shop / "memo.csv").write_text("Claim,Amount\nHX-1,1.00\n")
    missing = told(shop, "statement", "memo.csv", "--maker", "halden", "--memo", "M", "--dry-run")["missing"]
    assert [one["claim"] for one in missing] == ["26-0001"]


@pytest.mark.parametrize("grounds", [(), ("--grounds", "It is open.")])
def test_letters_about_a_refusal_without_grounds_name_the_section(shop, grounds):
    (claim,) = told(shop, "pending")["claims"]
    letter = " ".join(told(shop, "chase", "26-0001", "--text", *grounds)["text"].split())
    assert [claim["cites"] in letter, "grounds counts as acceptance" in letter, "not legal" in letter] == [True] * 3


def test_before_its_last_day_to_pay_the_maker_is_waited_for(shop):
    told_then = told(shop, "pending", day="2026-03-03")
    assert (told_then["claims"][0]["turn"], told_then["three_amounts"]["only_the_shop"]["amounts"]) == ("maker", {})


def test_a_letter_that_went_out_is_told_by_every_command(shop):
    on(LATE, "chase", "26-0001", "--sent", shop=shop)
    pending = told(shop, "pending")
    (claim,), (late,) = pending["claims"], pending["three_amounts"]["late"]["claims"]
    mark = f"chased on {claim['chased_on']}, ask again from {claim['ask_again']}"
    because = [item["because"] for item in told(shop, "due")["items"] if item["what"] == "payment expected"]
    again = on(LATE, "chase", "26-0001", "--text", shop=shop).err
    said = [claim["step"], late["what"], told(shop, "show", "26-0001")["next"], *because, again]
    assert [mark in one for one in said] == [True] * 5


def test_a_favour_is_refused_without_grounds_and_nothing_follows(tmp_path):
    shop = a_managed_shop(tmp_path)
    days = {"purchased": "2025-01-02", "delivered": "2025-01-02", "registered": "2025-01-03"}
    days |= dict.fromkeys(["failed", "presented", "repaired"], "2027-02-20")
    favour = {"goodwill__because": "A good customer."} | {f"dates__{role}": day for role, day in days.items()}
    filed_in(shop, on="2027-02-21", received="2027-02-22", **favour)
    took_place(shop, "26-0001", "answered", "2027-03-01", answer="refused")
    (claim,) = told(shop, "pending", day="2027-05-01")["claims"]
    letter = on("2027-05-01", "chase", "26-0001", shop=shop)
    assert (claim["turn"], claim["pay_due"], letter.code) == ("shop", None, 3)


@pytest.mark.parametrize("year", ["2025", "2027"], ids=["covered", "not covered, and no favour asked"])
def test_an_answer_remarks_on_a_refusal_without_grounds_where_the_list_counts_it(tmp_path, year):
    shop = a_managed_shop(tmp_path)
    days = {"purchased": "2025-01-02", "delivered": "2025-01-02", "registered": "2025-01-03"}
    days |= dict.fromkeys(["failed", "presented", "repaired"], f"{year}-02-20")
    filed_in(
        shop, on=f"{year}-02-21", received=f"{year}-02-22", **{f"dates__{role}": day for role, day in days.items()}
    )
    remarked = on(f"{year}-03-01", "answer", "26-0001", "refused", shop=shop)
    (claim,) = told(shop, "pending", day=f"{year}-03-01")["claims"]
    assert (
        ("counts as acceptance" in f"{remarked.out}{remarked.err}")
        == (claim["no_grounds_on"] is not None)
        == (year == "2025")
    )


OVER = {"purchased": "2025-01-02", "delivered": "2025-01-02", "registered": "2025-01-03"}
OVER |= dict.fromkeys(["failed", "presented", "repaired"], "2027-02-20")


@pytest.mark.parametrize(
    "answer", [{"answer": "refused"}, {"answer": "part", "amount": "50.00"}], ids=["all", "a part"]
)
@pytest.mark.parametrize("year", ["2026", "2027"], ids=["covered", "not covered, and no favour asked"])
def test_a_refusal_is_contested_where_list_and_show_say_so(tmp_path, year, answer):
    shop = a_managed_shop(tmp_path, "us-wa")
    days = OVER | dict.fromkeys(["failed", "presented", "repaired"], f"{year}-02-20")
    filed_in(
        shop, on=f"{year}-02-21", **{f"dates__{role}": day for role, day in days.items()}, proof__file=None, held=[]
    )
    took_place(shop, "26-0001", "answered", f"{year}-03-01", **answer)
    if "amount" in answer:
        took_place(shop, "26-0001", "paid", f"{year}-03-02", amount=answer["amount"])
    steps = [told(shop, "list", day=f"{year}-03-05")["claims"][0]["next"]]
    steps += [told(shop, "show", "26-0001", day=f"{year}-03-05")["next"]]
    steps += [on(f"{year}-03-05", "chase", "26-0001", shop=shop).err.replace("--grounds", "contest")]
    letter = on(f"{year}-03-05", "chase", "26-0001", "--grounds", "It is open.", "--text", shop=shop)
    assert [("contest" in step) for step in steps] == [letter.code == 0] * 3 == [year == "2026"] * 3
