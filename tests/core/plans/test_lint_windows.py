from builders import a_plan, a_window

from claimpack.core.plans.lint import lint


def test_shares_that_end_before_the_window_are_told():
    shares = [{"until": "P6M", "maker": "1"}]
    assert "window engine: its shares end after 6 months" in " ".join(lint(a_plan(window=[a_window(shares=shares)])))


def test_shares_that_end_before_the_cover_of_a_registered_unit_are_told():
    window = a_window(registered_within="P30D", registered_adds="P1Y", shares=[{"until": "P12M", "maker": "1"}])
    assert "its shares end after 12 months" in " ".join(lint(a_plan(window=[window])))


def test_shares_that_end_before_the_cover_of_a_repaired_unit_are_told():
    window = a_window(repair_adds="P12M", shares=[{"until": "P12M", "maker": "1"}])
    assert "its shares end after 12 months" in " ".join(lint(a_plan(window=[window])))
