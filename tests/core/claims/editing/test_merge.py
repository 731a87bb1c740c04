import pytest
from builders import CLAIM, changed

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.merge import merged, unfounded

ONE = {"what": "compression", "value": "42"}
TWO = {"what": "leak-down", "value": "60"}
THREE = {"what": "spark gap", "value": "0.6"}
PICTURE = {"file": "photos/a.jpg", "shot": "damage"}


def a_claim(**changes):
    return Claim.model_validate(changed(CLAIM, {"findings": [ONE, TWO], "photos": [PICTURE], **changes}))


def brought_together(mine, theirs, side=None, base=None):
    """The claim with both changes in it, and the clashes in words."""
    found = merged(a_claim(**(base or {})), a_claim(**mine), a_claim(**theirs), side)
    return Claim.model_validate(found.keys), [str(clash) for clash in found.clashes]


def findings(claim):
    return [finding.what for finding in claim.findings]


def test_what_nobody_changed_stays():
    assert brought_together({}, {}) == (a_claim(), [])


def test_keys_that_each_changed_are_both_there():
    claim, clashes = brought_together({"owner__email": "a@example.com"}, {"owner__phone": "555-0101"})
    assert (claim.owner.email, claim.owner.phone, clashes) == ("a@example.com", "555-0101", [])


def test_what_they_added_is_kept_when_my_text_does_not_know_it():
    claim, clashes = brought_together({"owner__name": "B."}, {"findings": [ONE, TWO, THREE]})
    assert (findings(claim), clashes) == (["compression", "leak-down", "spark gap"], [])


def test_a_key_both_changed_alike_is_no_clash():
    claim, clashes = brought_together({"owner__phone": "555-0101"}, {"owner__phone": "555-0101"})
    assert (claim.owner.phone, clashes) == ("555-0101", [])


def test_a_key_both_changed_is_named_with_both_values():
    base = {"owner__phone": "555-0100"}
    _, clashes = brought_together({"owner__phone": "555-0101"}, {"owner__phone": "555-0102"}, base=base)
    assert clashes == ["owner.phone: yours is '555-0101', theirs is '555-0102' (it was '555-0100')"]


def test_mine_is_taken_where_i_choose_it_and_theirs_elsewhere_stays():
    theirs = {"owner__phone": "555-0102", "owner__email": "a@example.com"}
    claim, _ = brought_together({"owner__phone": "555-0101"}, theirs, side="mine")
    assert (claim.owner.phone, claim.owner.email) == ("555-0101", "a@example.com")


def test_theirs_is_taken_where_i_choose_it_and_mine_elsewhere_stays():
    mine = {"owner__phone": "555-0101", "owner__email": "a@example.com"}
    claim, _ = brought_together(mine, {"owner__phone": "555-0102"}, side="theirs")
    assert (claim.owner.phone, claim.owner.email) == ("555-0102", "a@example.com")


def test_entries_that_each_added_are_both_there_theirs_first():
    claim, clashes = brought_together(
        {"findings": [ONE, TWO, {"what": "oil", "value": "black"}]}, {"findings": [ONE, TWO, THREE]}
    )
    assert (findings(claim), clashes) == (["compression", "leak-down", "spark gap", "oil"], [])


def test_an_entry_both_added_alike_is_there_once():
    claim, clashes = brought_together({"findings": [ONE, TWO, THREE]}, {"findings": [ONE, THREE, TWO]})
    assert (findings(claim), clashes) == (["compression", "spark gap", "leak-down"], [])


def test_an_entry_i_took_out_stays_out_beside_one_they_added():
    claim, clashes = brought_together({"findings": [TWO]}, {"findings": [ONE, TWO, THREE]})
    assert (findings(claim), clashes) == (["leak-down", "spark gap"], [])


def test_an_entry_they_took_out_stays_out_beside_one_i_changed():
    claim, clashes = brought_together({"findings": [ONE, {**TWO, "value": "61"}]}, {"findings": [TWO]})
    assert ([finding.value for finding in claim.findings], clashes) == (["61"], [])


def test_an_entry_i_changed_and_they_took_out_is_a_clash():
    _, clashes = brought_together({"findings": [{**ONE, "value": "43"}, TWO]}, {"findings": [TWO]})
    assert clashes == ["findings[1]: yours is 'compression, 43', theirs is nothing (it was 'compression, 42')"]


def test_an_entry_both_changed_is_a_clash_of_the_whole_entry():
    mine, theirs = {"findings": [{**ONE, "value": "43"}, TWO]}, {"findings": [{**ONE, "unit": "psi"}, TWO]}
    assert len(brought_together(mine, theirs)[1]) == 1


FREIGHT = {"what": "freight", "amount": "12.50"}


def extras(claim):
    return [extra.what for extra in claim.extras]


def test_an_entry_both_renamed_is_a_clash_and_not_there_twice():
    mine, theirs = ({"extras": [{**FREIGHT, "what": what}]} for what in ("freight in", "freight for the block"))
    claim, clashes = brought_together(mine, theirs, base={"extras": [FREIGHT]})
    assert (extras(claim), len(clashes)) == (["freight for the block"], 1)


def test_an_entry_i_renamed_is_renamed_where_they_added_one():
    mine, theirs = {"extras": [{**FREIGHT, "what": "freight in"}]}, {"extras": [FREIGHT, {**FREIGHT, "what": "rags"}]}
    claim, clashes = brought_together(mine, theirs, base={"extras": [FREIGHT]})
    assert (extras(claim), clashes) == (["freight in", "rags"], [])


def test_a_held_part_both_renamed_keeps_its_place():
    mine, theirs = ({"held": [{"part": part}, {"part": "muffler"}]} for part in ("block", "short engine"))
    claim, clashes = brought_together(mine, theirs, base={"held": [{"part": "short block"}, {"part": "muffler"}]})
    assert ([held.part for held in claim.held], len(clashes)) == (["short engine", "muffler"], 1)


def test_one_entry_of_two_alike_may_be_taken_out():
    base = {"findings": [ONE, ONE]}
    claim, clashes = brought_together({"findings": [ONE]}, {"findings": [ONE, ONE, THREE]}, base=base)
    assert (findings(claim), clashes) == (["compression", "spark gap"], [])


def test_one_picture_added_by_both_in_two_ways_is_a_clash():
    new = {"file": "photos/b.jpg"}
    mine, theirs = (
        {"photos": [PICTURE, {**new, "shot": "damage"}]},
        {"photos": [PICTURE, {**new, "shot": "whole unit"}]},
    )
    claim, clashes = brought_together(mine, theirs, side="mine")
    assert ([photo.shot for photo in claim.photos], len(clashes)) == (["damage", "damage"], 1)


def test_papers_that_each_added_are_both_there():
    claim, clashes = brought_together({"papers": ["papers/mine.pdf"]}, {"papers": ["papers/theirs.pdf"]})
    assert (claim.paper_files()[1:], clashes) == (("papers/theirs.pdf", "papers/mine.pdf"), [])


def test_my_order_is_kept_where_they_only_added():
    claim, clashes = brought_together({"findings": [TWO, ONE]}, {"findings": [ONE, TWO, THREE]})
    assert (findings(claim), clashes) == (["leak-down", "compression", "spark gap"], [])


def test_two_orders_are_a_clash():
    base = {"findings": [ONE, TWO, THREE]}
    mine, theirs = {"findings": [THREE, ONE, TWO]}, {"findings": [ONE, THREE, TWO]}
    assert brought_together(mine, theirs, base=base)[1] == [
        "findings: their order: yours is '3, 1, 2', theirs is '1, 3, 2'"
    ]


@pytest.mark.parametrize(
    ("side", "order"),
    [
        (None, ["compression", "spark gap", "leak-down"]),
        ("theirs", ["compression", "spark gap", "leak-down"]),
        ("mine", ["spark gap", "compression", "leak-down"]),
    ],
)
def test_of_two_orders_the_chosen_one_is_kept_and_theirs_while_nobody_chose(side, order):
    base = {"findings": [ONE, TWO, THREE]}
    claim, _ = brought_together({"findings": [THREE, ONE, TWO]}, {"findings": [ONE, THREE, TWO]}, side, base=base)
    assert findings(claim) == order


def test_what_they_added_stays_where_they_put_it_among_entries_that_both_put_in_one_order():
    claim, clashes = brought_together({"findings": [TWO, ONE]}, {"findings": [TWO, THREE, ONE]}, side="mine")
    assert (findings(claim), clashes) == (["leak-down", "spark gap", "compression"], [])


def test_an_entry_i_changed_and_put_elsewhere_is_still_that_entry():
    claim, clashes = brought_together({"findings": [{**TWO, "value": "61"}, ONE]}, {"findings": [ONE, TWO, THREE]})
    told = [(finding.what, finding.value) for finding in claim.findings]
    assert (told, clashes) == ([("leak-down", "61"), ("compression", "42"), ("spark gap", "0.6")], [])


@pytest.mark.parametrize(
    ("coil", "mine"),
    [({"name": "coil"}, {"quantity": "2"}), ({"name": "coil", "number": "A-1"}, {"name": "ignition coil"})],
    ids=["by its name", "by its number"],
)
def test_a_part_is_known_again_behind_one_that_i_took_out(coil, mine):
    ring = {"name": "ring"}
    base, theirs = {"parts": [ring, coil]}, {"parts": [ring, {**coil, "unit_cost": "4.10"}]}
    found = merged(a_claim(**base), a_claim(parts=[{**coil, **mine}]), a_claim(**theirs))
    assert [(clash.key, bool(clash.mine)) for clash in found.clashes] == [("parts[2]", True)]


def test_an_approval_they_added_is_kept():
    claim, clashes = brought_together({"owner__name": "B."}, {"approval": {"number": "A-9"}})
    assert (claim.approval.number, clashes) == ("A-9", [])


def test_without_a_base_every_difference_is_named():
    found = unfounded(a_claim(owner__phone="1"), a_claim(findings=[ONE]))
    assert [clash.key for clash in found] == ["owner.phone", "findings[2]"]
