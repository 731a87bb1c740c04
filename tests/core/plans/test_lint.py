import pytest
from builders import a_plan, a_window

from claimpack.core.clauses.window import Window
from claimpack.core.plans.lint import lint
from claimpack.core.plans.plan import WindowSet

OTHER = {"components": ["battery"], "maker": "Ampelion", "because": "warranted by the battery's own maker"}
CIRCLE = [
    {"code": "a", "hours": "1", "includes": ["b"]},
    {"code": "b", "hours": "1", "includes": ["c"]},
    {"code": "c", "hours": "1", "includes": ["a"]},
]


def test_a_sound_plan_raises_no_doubt():
    assert lint(a_plan()) == ()


@pytest.mark.parametrize(
    ("changes", "doubt"),
    [
        (
            {"operation": [{"code": "a", "hours": "1", "includes": ["bb"]}]},
            "includes 'bb', which is not in the schedule",
        ),
        ({"operation": [{"code": "a", "hours": "1", "includes": ["a"]}]}, "operation a: includes itself"),
        ({"excluded": {"components": ["Engine"]}}, "covers engine, which [excluded] takes away again"),
        (
            {"window": [a_window(scheduled=[{"component": "blade", "hours": 50}])]},
            "scheduled 'blade' is not among what it covers",
        ),
        ({"window": [a_window(id="replaced")], "replaced": {"period": "P90D"}}, "this id is kept"),
        ({"requires": {"serial_patterns": {"unit": "H.*"}}}, "'unit' is not among serial_roles"),
        ({"requires": {"approval_above": "0.001"}}, "approval_above: 0.001 has more decimals than USD has"),
        ({"pays__extras_cap": "0.001"}, "extras_cap: 0.001 has more decimals than USD has"),
        ({"pays__labour_rate": "0"}, "labour would be claimed at nothing"),
        (
            {"operation": [{"code": "d-1", "hours": "1"}], "pays__labour_rates": [{"class": "engine", "rate": "98"}]},
            "no operation is of class 'engine'",
        ),
        (
            {"pays__labour_rates": [{"class": "engine", "rate": "98"}, {"level": "gold", "rate": "99"}]},
            "engine labour at level gold is paid the rate of its class",
        ),
        ({"pays__claim_cap": "50", "pays__claim_least": "60"}, "no claim reaches it"),
        ({"pays__unit_cap": {"amount": "25", "per": "life"}, "pays__deductible": {"amount": "25"}}, "takes all of it"),
        (
            {"pays__diagnosis": {"operation": "find-falt"}, "operation": [{"code": "find-fault", "hours": "1"}]},
            "Did you mean 'find-fault'?",
        ),
        (
            {"requires": {"findings": [{"what": "capacity", "unit": "%", "at_most": "0.70"}]}},
            "write 70 for 70 %",
        ),
        ({"window": [a_window(uses=["residential"])]}, "claims say 'household' for 'residential'"),
        (
            {
                "pays__diagnosis": {"operation": "find the fault"},
                "operation": [{"code": "d-1", "name": "Find fault", "hours": "1"}],
            },
            "Did you mean 'd-1'?",
        ),
        ({"pays__parts_handling": [{"up_to": "50", "rate": "0.3"}]}, "parts above 50 have no handling"),
        ({"window": [a_window(), a_window(id="again")]}, "window again: says the same as another window"),
        ({"window": [a_window(), a_window(id="all", covers=["*"], period="P2Y")]}, "window engine: never decides"),
        ({"window": [a_window(**{"except": ["blade"]})]}, "except 'blade' is not among what it covers"),
        (
            {"window": [a_window(covers=["*"], **{"except": ["blades"]})], "excluded": {"components": ["blade"]}},
            "except 'blades' is written 'blade' elsewhere",
        ),
        ({"window": [a_window(**{"except": ["engine", "short block"]})]}, "leaves out all that it covers"),
        ({"elsewhere": [{**OTHER, "maker": "halden"}]}, "halden is the maker of this plan"),
        ({"window": [a_window(covers=["*"])], "elsewhere": [OTHER, OTHER]}, "'battery' is left to more than one"),
        ({"elsewhere": [OTHER]}, "no window covers every component"),
        ({"window": [a_window(whichever="last")]}, "whichever says nothing without hours or limits"),
        ({"window": [a_window(limits=[{"meter": "hour", "at": "9"}])]}, "meter 'hour' is nearly 'hours'"),
        ({"window": [a_window(uses=["houshold"])]}, "'houshold' is nearly 'household'"),
        ({"uses": ["household"], "window": [a_window(uses=["farm"])]}, "is for farm use, which the plan is not for"),
        (
            {"model_years": [2024, 2025], "window": [a_window(model_years=[2026, 2026])]},
            "is for model years that the plan is not for",
        ),
        (
            {
                "serials": ["H-1 .. H-9"],
                "requires": {"serial_roles": ["unit"], "serial_patterns": {"unit": "H-[0-9]{2}"}},
            },
            "'H-1 .. H-9' has no form that requires.serial_patterns gives",
        ),
        ({"start": ["purchased", {"of": "purchased", "plus": "P1Y"}]}, "start: names purchased twice"),
        ({"window": [a_window(start={"latest": ["registered"]})]}, "window engine: start: latest of one day"),
        ({"start_stock": ["invoiced", "delivered"]}, "start_stock: names delivered"),
        ({"window": [a_window(owners={"then": "P1Y"})]}, "window engine: owners.then is as long as its period"),
        (
            {"repair_time_extends": "calendar", "window": [a_window(repair_time_extends="calendar")]},
            "window engine: repair_time_extends says nothing",
        ),
        ({"window": [a_window(hours=100), a_window(id="more", hours=300)]}, "window engine: never decides"),
        ({"window": [a_window(period="P365D"), a_window(id="more", period="P1Y1D")]}, "window engine: never decides"),
    ],
)
def test_what_is_doubtful_is_told(changes, doubt):
    assert [told for told in lint(a_plan(**changes)) if doubt in told]


@pytest.mark.parametrize("code", ["a", "b", "c"])
def test_a_circle_of_operations_is_told_of_each(code):
    assert f"operation {code}: includes itself" in " ".join(lint(a_plan(operation=CIRCLE)))


@pytest.mark.parametrize(
    "changes",
    [
        {"excluded": {"components": ["blade"]}, "window": [a_window(covers=["*"])]},
        {"excluded": {"components": ["engine"]}, "window": [a_window(despite_exclusions=True)]},
        {"window": [a_window(covers=["*"], scheduled=[{"component": "blade", "hours": 50}])]},
        {"window": [a_window(id="replaced")]},
        {"window": [a_window(model_years=[2022, 2024])], "model_years": [2024, 2026]},
        {"window": [a_window(model_years=[2026, 2028])], "model_years": [2024, 2026]},
        {"window": [a_window(covers=["*"], **{"except": ["battery"]})], "uses": ["farm"], "model_years": [2024, 2026]},
        {"window": [a_window(hours=9, whichever="last"), a_window(id="more", hours=99, whichever="last")]},
        {"window": [a_window(covers=["*"])], "elsewhere": [OTHER]},
        {"serials": ["H-1 .. H-9"], "window": [a_window(**{"except": ["short block"]}, model_years=[2024, 2024])]},
        {"requires": {"serial_roles": ["unit"], "serial_patterns": {"Unit": "H.*"}}},
        {"window": [a_window(), a_window(id="first", first_owner_only=True)]},
        {"window": [a_window(), a_window(id="later", start=["in_service"])]},
        {"window": [a_window(owners={"transfer_within": "P30D", "then": "P6M"})], "repair_time_extends": "calendar"},
        {
            "start": {"earliest": ["registered", {"of": "purchased", "plus": "P2Y"}]},
            "start_stock": ["invoiced", "built"],
        },
        {"window": [a_window(), a_window(id="later", start=["in_service"], period="P2Y")]},
        {"window": [a_window(), a_window(id="rental", uses=["rental"], period="P2Y")]},
        {"window": [a_window(), a_window(id="hours", hours=300, period="P2Y")]},
        {"window": [a_window(), a_window(id="first", first_owner_only=True, period="P2Y")]},
        {"window": [a_window(), a_window(id="year", covers=["*"], period="P365D")]},
        {"window": [a_window(despite_exclusions=True), a_window(id="all", covers=["*"], period="P2Y")]},
    ],
)
def test_what_is_sound_is_not_doubted(changes):
    assert lint(a_plan(**changes)) == ()


def test_a_statute_with_the_id_of_a_window_is_told():
    window = Window(id="engine", covers=["blade"], period="P1Y")
    statute = WindowSet(id="s", name="A law", cites="XX 1", read_on="2026-01-01", window=[window])
    assert "window engine: the plan and a statute" in lint(a_plan().with_windows_of(statute))[0]
