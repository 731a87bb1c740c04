import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.windows.applies import covered_elsewhere, speaks_about
from claimpack.core.windows.reasons import settled


def said(claim, plan=None, **window):
    """Every reason of a plan's one window, by rule."""
    plan = plan or a_plan(window=[a_window(**window)])
    return {reason.rule: reason.says.key for reason in speaks_about(claim, plan, plan.window[0])}


@pytest.mark.parametrize(
    ("component", "key"),
    [
        ("short block", "component.covered"),
        ("Short-Block", "component.covered"),
        ("SHORT_BLOCK ", "component.covered"),
        ("block, short", "component.covered"),
        ("ignition coil", "component.other"),
        ("starter", "component.other"),
        ("seat", "component.unfamiliar"),
        ("*", "component.unfamiliar"),
        (None, "component.unknown"),
    ],
)
def test_a_window_speaks_about_its_components(component, key):
    plan = a_plan(words={"ignition coil": [], "starter motor": ["starter"]})
    assert said(a_claim(failure__component=component), plan)["component"] == key


@pytest.mark.parametrize("component", ["anything", None])
def test_a_window_for_everything_speaks_about_anything(component):
    assert said(a_claim(failure__component=component), covers=["*"])["component"] == "component.everything"


@pytest.mark.parametrize(
    ("despite", "key", "speaks"), [(False, "excluded.component", False), (True, "excluded.despite", True)]
)
def test_an_excluded_component_reaches_all_but_statutory_windows(despite, key, speaks):
    plan = a_plan(excluded__components=["Short Block"], window=[a_window(despite_exclusions=despite)])
    reasons = speaks_about(a_claim(), plan, plan.window[0])
    assert (reasons[-1].says.key, settled(reasons)) == (key, speaks)


@pytest.mark.parametrize("despite", [False, True])
def test_an_excluded_defect_reaches_every_window(despite):
    plan = a_plan(excluded__defects=["misuse"], window=[a_window(despite_exclusions=despite)])
    assert settled(speaks_about(a_claim(failure__defect="misuse"), plan, plan.window[0])) is False


@pytest.mark.parametrize("defect", [None, "unknown", "material"])
def test_another_defect_is_not_excluded(defect):
    plan = a_plan(excluded__defects=["misuse"])
    assert "defect" not in said(a_claim(failure__defect=defect), plan)


def test_an_unknown_component_might_be_an_excluded_one():
    plan = a_plan(excluded__components=["blade"], window=[a_window(covers=["*"])])
    assert said(a_claim(failure__component=None), plan)["exclusion"] == "excluded.unknown"


@pytest.mark.parametrize(
    ("word", "key"),
    [
        ("short blok", "component.near"),
        ("short blocks", "component.near"),
        ("engines", "component.near"),
        ("rear engine", "component.within"),
        ("engine mount", "component.unfamiliar"),
        ("seat", "component.unfamiliar"),
        ("blade", "component.other"),
        ("engine block", "component.unfamiliar"),
    ],
)
def test_a_component_the_plan_does_not_know_is_asked_about_and_not_refused(word, key):
    assert said(a_claim(failure__component=word))["component"] == key


@pytest.mark.parametrize(
    ("word", "key"),
    [
        ("air filters", "excluded.near"),
        ("foam air filter", "excluded.within"),
        ("air filter cover", "excluded.within"),
        ("oil filter", None),
        ("starter", None),
    ],
)
def test_a_mistyped_component_might_be_an_excluded_one(word, key):
    plan = a_plan(excluded__components=["air filter", "starter rope"], window=[a_window(covers=["*"])])
    assert said(a_claim(failure__component=word), plan).get("exclusion") == key


def test_a_word_the_plan_knows_is_no_slip_of_the_pen():
    plan = a_plan(window=[a_window(covers=["piston rings"]), a_window(id="ring", covers=["piston ring"])])
    assert said(a_claim(failure__component="piston ring"), plan)["component"] == "component.other"


@pytest.mark.parametrize(("count", "ends"), [(8, "part 6, part 7"), (9, "part 7, …"), (30, "part 7, …")])
def test_of_many_components_the_first_few_are_told(count, ends):
    covers = [f"part {number}" for number in range(count)]
    plan = a_plan(window=[a_window(covers=covers)])
    reason = speaks_about(a_claim(), plan, plan.window[0])[0]
    assert reason.says.facts["covers"].endswith(ends)


def test_a_phrase_that_holds_an_excluded_word_does_not_reach_a_window_despite_exclusions():
    plan = a_plan(excluded__components=["air filter"], window=[a_window(covers=["*"], despite_exclusions=True)])
    assert "exclusion" not in said(a_claim(failure__component="foam air filter"), plan)


def test_what_an_operation_replaces_is_known_and_not_asked_about():
    operation = [{"code": "spindle", "name": "Replace blade spindle", "hours": "1"}]
    plan = a_plan(excluded__components=["blade"], window=[a_window(covers=["*"])], operation=operation)
    assert "exclusion" not in said(a_claim(failure__component="blade spindle"), plan)


@pytest.mark.parametrize(
    ("word", "key"),
    [
        ("battery", "left-out.component"),
        ("batery", "left-out.near"),
        ("battery lid", "left-out.within"),
        (None, "left-out.unknown"),
        ("blade", "component.everything-but"),
    ],
)
def test_what_a_window_leaves_out_it_does_not_cover(word, key):
    assert said(a_claim(failure__component=word), covers=["*"], **{"except": ["battery"]})["component"] == key


def test_a_window_for_other_components_asks_nothing_about_what_it_leaves_out():
    found = said(a_claim(failure__component=None), **{"except": ["short block"]})
    assert found["component"] == "component.unknown"


OTHER = {"components": ["battery"], "maker": "Ampelion", "because": "its own maker"}


@pytest.mark.parametrize(
    ("word", "key"),
    [
        ("battery", "elsewhere.component"),
        ("batery", "elsewhere.near"),
        ("battery lid", "elsewhere.near"),
        (None, "elsewhere.unknown"),
        ("blade", None),
    ],
)
def test_a_window_for_everything_leaves_out_what_another_maker_covers(word, key):
    plan = a_plan(window=[a_window(covers=["*"])], elsewhere=[OTHER])
    assert said(a_claim(failure__component=word), plan).get("elsewhere") == key


def test_the_other_maker_is_named_with_why():
    plan = a_plan(window=[a_window(covers=["*"])], elsewhere=[OTHER])
    reasons = speaks_about(a_claim(failure__component="battery"), plan, plan.window[0])
    (facts,) = [reason.says.facts for reason in reasons if reason.rule == "elsewhere"]
    assert (facts["maker"], facts["because"]) == ("Ampelion", "its own maker")


def test_without_a_component_nobody_else_is_said_to_cover_it():
    assert covered_elsewhere(a_claim(failure__component=None), a_plan(elsewhere=[OTHER])) is None


@pytest.mark.parametrize(
    ("covers", "elsewhere"), [(["*"], []), (["short block"], [OTHER])], ids=["no other maker", "named components"]
)
@pytest.mark.parametrize("component", ["battery", None])
def test_where_another_maker_takes_nothing_from_a_window_none_is_spoken_of(covers, elsewhere, component):
    plan = a_plan(window=[a_window(covers=covers)], elsewhere=elsewhere)
    assert "elsewhere" not in said(a_claim(failure__component=component), plan)


@pytest.mark.parametrize("covers", [["battery"], ["*", "battery"]])
def test_a_window_that_names_what_another_maker_covers_keeps_it(covers):
    plan = a_plan(window=[a_window(covers=covers)], elsewhere=[OTHER])
    assert "elsewhere" not in said(a_claim(failure__component="battery"), plan)


def test_a_window_whose_parts_are_all_left_out_or_excluded_covers_nothing_whatever_failed():
    plan = a_plan(excluded__components=["blade"], window=[a_window(covers=["blade", "belt"], **{"except": ["belt"]})])
    assert said(a_claim(failure__component="gizmo"), plan)["exclusion"] == "excluded.rest"
