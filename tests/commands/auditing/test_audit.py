import pytest
from running import NOW, claimpack
from shop_builders import a_shop, happen, the_desk
from shops_with_claims import a_copy

from claimpack.core.auditing.report.audit import AuditReport
from claimpack.core.auditing.rule import NotCompared
from claimpack.core.events.events import NewEvent
from claimpack.core.values.wording.sentence import say


def audited(shop, *arguments, **options):
    return claimpack("audit", *arguments, "--today", "2026-03-01", folder=shop, **options)


def file_claim(shop, number, packet=b"%PDF the packet", **facts):
    """File a claim with a packet that is kept."""
    sha256 = the_desk(shop).vault.keep_content(packet)
    happen(shop, number, "filed", claimed="100.00", currency="USD", packet=sha256, revision="1", **facts)
    return the_desk(shop).vault.place(sha256)


@pytest.fixture
def two(tmp_path):
    """A shop with two claims for one component of one unit."""
    return a_shop(tmp_path, "26-0001", "26-0002", proof__file=None)


def test_a_book_without_exceptions_answers_yes(tmp_path):
    ran = audited(a_shop(tmp_path, proof__file=None))
    assert (ran.code, ran.out.splitlines()[0]) == (0, "NOTHING FOUND  1 claim, 61 rules")


def test_rules_that_go_by_what_the_shop_has_not_told_are_named_with_it(tmp_path):
    (line,) = " ".join(audited(a_shop(tmp_path, proof__file=None)).out.split()).split("61 rules ")[1:]
    assert line == (
        "· Not asked for want of what shop.toml or a parts list would tell: below-floor (terms), work-when-shut "
        "(opening_hours), part-over-list (parts/halden.csv), owner-at-the-shop (phone). "
        "Asked in part: owner-is-staff (staff)."
    )


@pytest.mark.parametrize("narrowed", [("--maker", "tessaly"), ("--since", "2026-02-28")], ids=["maker", "since"])
def test_an_audit_of_no_claim_is_no_yes(tmp_path, narrowed):
    ran = audited(a_shop(tmp_path, proof__file=None), *narrowed)
    assert (ran.code, ran.out) == (4, "NOTHING LOOKED AT  0 claims, 0 rules\n")


def test_scripts_are_told_how_much_was_looked_at(tmp_path):
    shop = a_shop(tmp_path, proof__file=None, maker="unknown maker")
    told = audited(shop, "--rule", "filed-late", "--rule", "same-paper", "--json").json
    assert (told["looked_at"], told["rules"]) == ("in part", ["same-paper"])


def test_what_was_not_compared_is_part_of_the_answer(tmp_path, monkeypatch):
    report = AuditReport(1, (), (NotCompared(say("alike-pictures.too-many", count=5000, shot="hour meter")),))
    monkeypatch.setattr("claimpack.commands.auditing.audit.audited", lambda *_: report)
    shop = a_shop(tmp_path)
    assert [each["rule"] for each in audited(shop, "--json").json["not_compared"]] == ["alike-pictures"]
    assert "alike-pictures: 5,000 pictures of the shot hour meter" in " ".join(audited(shop).out.split())


def test_exceptions_are_told_by_weight_with_rule_and_evidence(tmp_path):
    two = a_shop(tmp_path, "26-0001", "26-0002")
    file_claim(two, "26-0001")
    ran = audited(two)
    assert ran.code == 3
    assert ran.out.index("Serious:") < ran.out.index("evidence-missing") < ran.out.index("Worth a look:")
    told = " ".join(ran.out.split())
    assert "unit-claimed-twice: 1 It may be innocent: The first repair" in told
    assert "? Claims 26-0001 and 26-0002 both ask for the short block of one unit" in told
    assert "70-1; 26-0001: 2026-02-02 to 2026-02-24" in told


def test_the_answer_is_one_json_document(two):
    found = audited(two, "--json").json
    assert (found["claims"], found["totals"], found["today"]) == (2, {"serious": 0, "look": 1}, "2026-03-01")
    assert found["exceptions"][0]["claims"] == ["26-0001", "26-0002"]
    assert set(found["exceptions"][0]) == {
        "rule",
        "weight",
        "claims",
        "what",
        "evidence",
        "also",
        "innocent",
        "at_risk",
    }


def test_what_a_finding_puts_at_risk_is_told_for_it_and_in_all(two):
    file_claim(two, "26-0001")
    found = audited(two, "--json").json
    assert [each["at_risk"] for each in found["exceptions"]] == [{"USD": "100.00"}] * len(found["exceptions"])
    assert (found["at_risk"], len(found["exceptions"]) > 1) == ({"USD": "100.00"}, True)
    assert "at risk: 100.00 USD" in audited(two).out


def test_audit_look_is_audit(two):
    assert audited(two, "look", "--json").json == audited(two, "--json").json


def test_one_claim_is_compared_with_all(two):
    found = audited(two, "26-0002", "--json").json
    assert found["claims"] == 1
    assert [each["rule"] for each in found["exceptions"]] == ["unit-claimed-twice"]


def test_one_rule_can_be_asked_alone(two):
    assert audited(two, "--rule", "same-picture", "--json").json["rules"] == ["same-picture"]


def test_an_unknown_rule_suggests_the_nearest(two):
    ran = audited(two, "--rule", "same-pictures")
    assert (ran.code, ran.out) == (2, "")
    assert "Did you mean 'same-picture'?" in ran.err


def test_an_unknown_claim_is_refused(two):
    assert audited(two, "26-0009").code == 2


@pytest.mark.parametrize(
    ("option", "claims"),
    [(("--maker", "Halden"), 2), (("--maker", "tessaly"), 0), (("--since", "2026-02-06"), 0)],
    ids=["maker", "other maker", "since"],
)
def test_an_audit_can_be_about_some_claims(two, option, claims):
    assert audited(two, *option, "--json").json["claims"] == claims


def test_a_rule_switched_off_in_the_settings_finds_nothing(two):
    settings = two / "shop.toml"
    settings.write_text('audit_off = ["unit-claimed-twice"]\n' + settings.read_text())
    assert audited(two).code == 0
    rules = {rule["id"]: rule["on"] for rule in audited(two, "--rules", "--json").json["rules"]}
    assert (rules["unit-claimed-twice"], rules["same-picture"]) == (False, True)


def test_the_rules_are_listed_with_what_they_say(two):
    ran = audited(two, "--rules")
    assert ran.code == 0
    assert "same-picture              on  Two claims show the same picture." in ran.out


def test_a_listed_rule_names_what_it_goes_by_beside_the_claims(two):
    told = {rule["id"]: rule["goes_by"] for rule in audited(two, "--rules", "--json").json["rules"]}
    assert (told["work-when-shut"], told["same-picture"]) == (["opening_hours"], [])
    assert "Goes by: opening_hours." in audited(two, "--rules").out


def test_every_listed_rule_names_its_source(two):
    assert all(rule["source"] and rule["says"] for rule in audited(two, "--rules", "--json").json["rules"])


def test_a_packet_changed_in_the_vault_is_found(tmp_path):
    shop = a_shop(tmp_path)
    file_claim(shop, "26-0001").write_bytes(b"something else")
    found = audited(shop, "--rule", "packet-changed", "--json").json["exceptions"]
    assert [each["claims"] for each in found] == [["26-0001"]]


def test_a_vault_that_is_not_there_leaves_packets_unasked_about(tmp_path):
    shop = a_shop(tmp_path)
    file_claim(shop, "26-0001")
    (shop / "vault").rename(shop / "elsewhere")
    ran = audited(shop, "--rule", "packet-changed", "--json")
    assert (ran.code, ran.json["looked_at"], ran.json["not_asked"][0]["lacks"]) == (4, "nothing", "vault")


def test_a_correction_after_filing_is_found_until_it_is_sent_again(tmp_path):
    shop = a_shop(tmp_path)
    file_claim(shop, "26-0001")
    happen(shop, "26-0001", "corrected")
    assert audited(shop, "--rule", "corrected-after-filing").code == 3
    happen(shop, "26-0001", "answered", answer="questioned")
    file_claim(shop, "26-0001")
    assert audited(shop, "--rule", "corrected-after-filing").code == 0


def test_late_filing_is_counted_from_the_first_time(tmp_path):
    shop = a_shop(tmp_path, plan="halden-2025")
    file_claim(shop, "26-0001")
    with the_desk(shop).changing("26-0001") as changing:
        changing.keep(changing.claim, NewEvent(what="answered", on=NOW.date(), facts={"answer": "questioned"}))
    with the_desk(shop).changing("26-0001") as changing:
        again = {"claimed": "100.00", "currency": "USD", "revision": "1"}
        changing.keep(changing.claim, NewEvent(what="filed", on=NOW.date().replace(year=2027), facts=again))
    assert audited(shop, "--rule", "filed-late").code == 0


def test_the_floor_of_the_terms_in_force_is_asked(tmp_path):
    shop = a_shop(tmp_path, plan="halden-2025", parts=[{"name": "Coil", "unit_cost": "40.00"}])
    settings = shop / "shop.toml"
    settings.write_text(settings.read_text().replace('terms = ""', 'terms = "us-sd-outdoor-power"'))
    found = audited(shop, "--rule", "below-floor", "--json").json["exceptions"]
    assert [each["evidence"]["terms"] for each in found] == ["us-sd-outdoor-power"]


def test_labour_is_compared_with_what_the_shop_charged_on_the_day_of_the_repair(tmp_path):
    shop = a_shop(tmp_path, plan="halden-2025", parts=[], labour=[{"operation": "hone the bore", "hours": "1"}])
    settings = shop / "shop.toml"
    rates = 'labour_rates = [{since = 2025-01-01, rate = "80.00"}, {since = 2026-02-20, rate = "120.00"}]\n'
    settings.write_text(rates + settings.read_text().replace('terms = ""', 'terms = "us-sd-outdoor-power"'))
    found = audited(shop, "--rule", "below-floor", "--json").json["exceptions"]
    assert [each["claims"] for each in found] == [["26-0001"]]


def test_terms_that_are_not_there_are_told_among_what_was_not_asked(tmp_path):
    (told,) = audited(a_shop(tmp_path, terms="us-zz"), "--rule", "below-floor", "--json").json["not_asked"]
    assert (told["lacks"], "us-zz" in told["what"]) == ("terms_unread", True)


def test_claims_without_a_plan_are_told_among_what_was_not_asked(tmp_path):
    shop = a_shop(tmp_path, maker="unknown maker")
    (told,) = audited(shop, "--rule", "filed-late", "--json").json["not_asked"]
    assert (told["lacks"], told["claims"], told["rules"]) == ("plan", 1, ["filed-late"])
    assert "? 1 claim: No plan of theirs is within reach. Not asked: " in audited(shop).out


def test_progress_is_shown_on_a_terminal(two):
    assert "Auditing [" in audited(two, terminal=True).err


def test_help_names_what_there_is():
    ran = claimpack("audit", "--help")
    assert ran.code == 0
    assert all(word in ran.out for word in ("look", "sample", "conclude"))


def test_a_maker_nobody_knows_is_refused_with_the_nearest(two):
    ran = audited(two, "--maker", "Haldn")
    assert (ran.code, "Did you mean 'Halden'?" in ran.err) == (2, True)


def test_a_claim_filed_over_a_block_is_found_with_the_reason_given(draft_shop, tmp_path):
    shop = a_copy(draft_shop, tmp_path)
    claimpack("set", "26-0001", "failure.defect", "misuse", folder=shop)
    claimpack("file", "26-0001", "--anyway", "Owner insists.", folder=shop)
    found = audited(shop, "--rule", "filed-over-block", "--json").json["exceptions"]
    assert [(each["weight"], each["what"].split("; ")[1]) for each in found] == [
        ("serious", "the reason given: Owner insists.")
    ]


def test_what_the_shop_says_of_itself_is_measured_with(tmp_path):
    labour = [{"operation": "x", "started": "2026-02-22T09:00", "ended": "2026-02-22T10:00"}]
    parts = [{"number": "P-1", "name": "short block", "unit_cost": "200.00"}]
    shop = a_shop(tmp_path, "26-0001", labour=labour, parts=parts, owner__phone="+1 555 0101")
    (shop / "parts").mkdir(exist_ok=True)
    (shop / "parts" / "halden.csv").write_text("number,name,cost\nP-1,short block,$100.00\n")
    told = (
        'currency = "USD"\nopening_hours = {mon = "08:00-17:30"}\nstaff = [{name = "Ben Marsh", phone = "555-0101"}]\n'
    )
    (shop / "shop.toml").write_text(told + (shop / "shop.toml").read_text())
    rules = {each["rule"] for each in audited(shop, "--json").json["exceptions"]}
    assert {"work-when-shut", "part-over-list", "owner-at-the-shop"} <= rules


def test_a_change_of_what_decides_cover_just_before_filing_is_found(tmp_path):
    shop = a_shop(tmp_path, "26-0001", unit__use="rental")
    claimpack("set", "26-0001", "unit.use", "professional", "--today", "2026-02-28", folder=shop)
    happen(shop, "26-0001", "filed", claimed="100.00", currency="USD", revision="2")
    found = audited(shop, "--rule", "changed-before-filing", "--json").json["exceptions"]
    assert [each["what"].split(" was ")[0] for each in found] == ["unit.use"]
