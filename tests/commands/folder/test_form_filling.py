from __future__ import annotations

import pytest
from made_forms import MAPPING, a_shop_with_a_form, values
from running import claimpack


@pytest.fixture
def shop(tmp_path):
    return a_shop_with_a_form(tmp_path)


def test_the_makers_form_is_filled_and_named_by_claim_and_form(shop):
    ran = claimpack("form", "fill", "claim", folder=shop)
    assert (ran.code, ran.out) == (4, "26-0001-w7.pdf\n")
    assert values((shop / "26-0001-w7.pdf").read_bytes()) == {"owner": "A. Customer"}


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
