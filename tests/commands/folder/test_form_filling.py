from __future__ import annotations

import pytest
from claim_folders import CLAIM, a_folder
from made_forms import MAPPING, a_shop_with_a_form, values
from running import NOW, claimpack

from claimpack.commands.desk.gather import gather
from claimpack.commands.desk.world import World
from claimpack.commands.folder.form_filling import fill_form, form_in_front
from claimpack.errors import BadInput


@pytest.fixture
def shop(tmp_path):
    return a_shop_with_a_form(tmp_path)


def gathered(shop, claim):
    return gather(World(folder=shop, environ={}, clock=NOW), claim, None, "")


def test_the_makers_form_is_filled_and_named_by_claim_and_form(shop):
    ran = claimpack("form", "fill", "claim", folder=shop)
    assert (ran.code, ran.out, "sheets" in ran.err) == (4, "26-0001-w7.pdf\n", False)
    assert values((shop / "26-0001-w7.pdf").read_bytes()) == {"owner": "A. Customer"}


@pytest.mark.parametrize(("named", "title"), [('name = "Form W-7"', "Form W-7"), ("", "w7")])
def test_a_form_is_called_by_its_name_or_by_its_id(shop, named, title):
    (shop / "forms" / "w7.toml").write_text(MAPPING.replace('name = "Form W-7"', named), encoding="utf-8")
    assert fill_form(gathered(shop, "claim"), "w7").title == title


def test_a_form_that_would_claim_nothing_is_left_out_and_refused_where_it_is_asked_for(shop):
    a_folder(shop / "old", CLAIM.replace("2025-0", "2023-0"), shots=())
    case = gathered(shop, "old")
    assert [form_in_front(case, wanted)[0] for wanted in ("", "none")] == [None, None]
    with pytest.raises(BadInput):
        form_in_front(case, "w7")


@pytest.mark.parametrize(
    ("file", "mapping"),
    [("w7.pdf", MAPPING.replace("owner =", "onwer =")), ("gone.pdf", MAPPING)],
    ids=["no such field", "no such file"],
)
def test_a_form_that_cannot_be_filled_leaves_nothing_behind(shop, file, mapping):
    (shop / "forms" / "w7.toml").write_text(mapping.replace("w7.pdf", file), encoding="utf-8")
    ran = claimpack("form", "fill", "claim", folder=shop)
    assert (ran.code, len(ran.err.splitlines()) <= 3, list(shop.glob("*.pdf"))) == (2, True, [])


def test_a_form_of_another_maker_is_filled_only_where_the_settings_give_it_to_the_claims(shop):
    (shop / "forms" / "w7.toml").write_text(MAPPING.replace('maker = "halden"', 'maker = "tessaly"'), encoding="utf-8")
    meant = claimpack("form", "fill", "claim", "--form", "w7", folder=shop).code
    (shop / "shop.toml").write_text("", encoding="utf-8")
    runs = [claimpack(*command, "claim", "--form", "w7", folder=shop) for command in (("form", "fill"), ("packet",))]
    assert (meant, [(ran.code, "maker_forms" in ran.err) for ran in runs]) == (4, [(2, True)] * 2)


def test_a_link_in_the_forms_place_is_not_followed(shop):
    (shop / "forms" / "w7.pdf").rename(shop / "elsewhere.pdf")
    (shop / "forms" / "w7.pdf").symlink_to(shop / "elsewhere.pdf")
    assert "symbolic link" in claimpack("form", "fill", "claim", folder=shop).err


def test_a_form_that_no_file_describes_is_told_with_the_setting(shop):
    (shop / "shop.toml").write_text('[maker_forms]\nhalden = "w8"\n', encoding="utf-8")
    ran = claimpack("check", "claim", folder=shop)
    assert (ran.code, "maker_forms.halden" in ran.err) == (2, True)
