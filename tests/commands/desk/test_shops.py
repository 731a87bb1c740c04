from __future__ import annotations

import pytest
from manager_shop import open_in
from running import NOW, Pipe
from several_shops import two_shops

from claimpack.commands.desk.desk import Desk
from claimpack.commands.desk.shops import not_ours
from claimpack.commands.desk.world import World
from claimpack.errors import BadInput, NotFound, WrongState


@pytest.fixture
def place(tmp_path):
    """The folder of Ashby, whose settings name the folder of Hollis, and of Hollis, which names nobody's."""
    return two_shops(tmp_path)


def desk_in(folder, *, every=False):
    environ = {"CLAIMPACK_WHO": "ann", "CLAIMPACK_SHOPS": "all" if every else ""}
    return Desk(World(folder=folder, stdout=Pipe(), stderr=Pipe(), environ=environ, clock=NOW))


def shops_of(folder, *, every=False):
    return desk_in(folder, every=every).shops


def rewritten(settings, old, new):
    told = settings.read_text()
    assert old in told
    settings.write_text(told.replace(old, new))


def with_a_claim_of_no_shop(place):
    settings = place / "hollis" / "shop.toml"
    rewritten(settings, 'id = "hollis"', "")
    open_in(place / "hollis", "N-1")
    rewritten(settings, "format = 1", 'format = 1\nid = "hollis"')
    return place


def test_a_list_of_one_shop_says_nothing_of_shops(place):
    shops = shops_of(place / "ashby")
    assert (shops.whose("A-1"), shops.shown("A-1"), shops.with_shop("A-1")) == ("ashby", "", {})
    assert shops.name_shown == "Ashby"


def test_a_list_of_all_shops_says_whose_each_claim_is(place):
    shops = shops_of(place / "ashby", every=True)
    assert (shops.whose("H-1"), shops.shown("H-1"), shops.with_shop("H-1")) == ("hollis", "hollis", {"shop": "hollis"})
    assert shops.name_shown == "All shops: ashby, hollis"


@pytest.mark.parametrize(
    ("folder", "every", "undated"),
    [("ashby", True, ()), ("hollis", True, ("ashby",)), ("hollis", False, ())],
    ids=["all known", "one unknown", "one shop alone"],
)
def test_the_terms_of_a_shop_whose_folder_nobody_named_are_not_known(place, folder, every, undated):
    assert shops_of(place / folder, every=every).undated == undated


@pytest.mark.parametrize(("every", "undated"), [(True, ("",)), (False, ())])
def test_the_terms_of_claims_that_are_no_shops_are_not_known_where_they_are_looked_at(place, every, undated):
    assert shops_of(with_a_claim_of_no_shop(place) / "ashby", every=every).undated == undated


def test_the_desk_of_another_shop_stands_in_its_folder_and_is_the_same_each_time(place):
    shops = shops_of(place / "ashby")
    other = shops.desk_of("hollis")
    assert (other.shop_id, other.day, shops.desk_of("hollis") is other) == ("hollis", NOW.date(), True)


def test_there_is_no_desk_of_a_shop_whose_folder_nobody_named(place):
    assert shops_of(place / "hollis").desk_of("ashby") is None


@pytest.mark.parametrize(("every", "desks"), [(False, ["ashby"]), (True, ["ashby", "hollis"])])
def test_the_desks_are_those_of_the_shops_that_are_looked_at(place, every, desks):
    assert [desk.shop_id for desk in shops_of(place / "ashby", every=every).desks] == desks


def test_a_folder_named_for_a_shop_that_is_none_is_not_found(place):
    rewritten(place / "ashby" / "shop.toml", "../hollis", "../nowhere")
    with pytest.raises(NotFound, match=r"key shops\.hollis: \.\./nowhere is"):
        shops_of(place / "ashby").desk_of("hollis")


@pytest.mark.parametrize(("told", "is_of"), [('id = "kettle"', "kettle"), ("", "a shop without id")])
def test_a_folder_named_for_a_shop_that_is_another_is_refused_with_whose_it_is(place, told, is_of):
    rewritten(place / "hollis" / "shop.toml", 'id = "hollis"', told)
    with pytest.raises(BadInput, match=f"is the folder of {is_of}$"):
        shops_of(place / "ashby").desk_of("hollis")


@pytest.mark.parametrize(("number", "told"), [("A-1", ""), ("H-1", ", and the shop hollis's"), ("X-9", "")])
def test_of_a_number_it_is_told_whether_another_shop_has_it(place, number, told):
    assert shops_of(place / "ashby").told_of(number) == told


@pytest.mark.parametrize(("shop", "said"), [("ashby", ""), ("hollis", "the shop hollis's"), ("", "no shop's yet")])
def test_whose_a_claim_is_goes_without_saying_where_it_is_this_shops(place, shop, said):
    assert shops_of(place / "ashby").other(shop) == said


def test_a_claim_of_another_shop_is_refused_and_one_of_this_shop_is_not(place):
    shops = shops_of(place / "ashby")
    shops.must_be_ours("A-1", "ashby")
    with pytest.raises(WrongState):
        shops.must_be_ours("H-1", "hollis")


def test_where_all_shops_are_meant_a_claim_of_another_is_changed_but_takes_no_file(place):
    desk = desk_in(place / "ashby", every=True)
    with desk.changing("H-1") as changing:
        changing.keep(changing.claim)
    with pytest.raises(WrongState), desk.changing("H-1") as changing:
        changing.keep(changing.claim, files=[])


@pytest.mark.parametrize(("whose", "do"), [("hollis", "--shop ../hollis"), ("kettle", 'shops = {kettle = "DIR"}')])
def test_who_works_on_another_shops_claim_is_sent_to_its_folder(place, whose, do):
    assert do in not_ours(shops_of(place / "ashby").desk_of("ashby").shop, "H-1", whose).do


@pytest.mark.parametrize("named", [False, True], ids=["likely mistyped", "both are shops"])
def test_an_id_much_like_another_shops_is_refused_unless_that_shops_folder_is_named(place, named):
    settings = place / "hollis" / "shop.toml"
    rewritten(settings, 'id = "hollis"', 'id = "ashbi"' + '\nshops = {ashby = "../ashby"}' * named)
    shops = shops_of(place / "hollis")
    if named:
        shops.must_be_told_apart()
    else:
        with pytest.raises(BadInput) as refused:
            shops.must_be_told_apart()
        assert 'id = "ashby"' in refused.value.do
