from __future__ import annotations

import pytest
from claim_folders import a_folder
from running import claimpack
from shop_keys import PASSPHRASE, a_pkcs12
from shops_with_claims import a_copy

KNOWN = {"CLAIMPACK_PASSPHRASE": PASSPHRASE}


@pytest.fixture
def shop(draft_shop, tmp_path):
    place = a_copy(draft_shop, tmp_path)
    (place / "shop.p12").write_bytes(a_pkcs12())
    settings = place / "shop.toml"
    settings.write_text('sign = "shop.p12"\n' + settings.read_text())
    return place


def packet(shop, *more, **how):
    return claimpack("packet", "26-0001", "--out", "p.pdf", "--sign", *more, folder=shop, **how)


def state(shop):
    return claimpack("verify", "p.pdf", "--json", folder=shop).json["signature"]["state"]


def test_a_packet_is_signed_when_asked_with_the_passphrase_of_the_environment(shop):
    packet(shop, environ=KNOWN, typed="another\n", terminal=True)
    assert state(shop) == "valid"


def test_at_a_terminal_the_passphrase_is_asked_for(shop):
    ran = packet(shop, typed=f"{PASSPHRASE}\n", terminal=True)
    assert (state(shop), "Passphrase of shop.p12:" in ran.err) == ("valid", True)


def test_off_a_terminal_a_passphrase_that_is_nowhere_is_refused(shop):
    ran = packet(shop)
    assert (ran.code, "CLAIMPACK_PASSPHRASE" in ran.err, (shop / "p.pdf").exists()) == (2, True, False)


def test_a_wrong_passphrase_is_refused_and_not_repeated(shop):
    ran = packet(shop, environ={"CLAIMPACK_PASSPHRASE": "guess-7731"})
    assert (ran.code, "shop.p12 cannot be unlocked" in ran.err, "7731" in ran.err) == (2, True, False)


def test_a_shop_without_a_key_says_how_to_name_one(tmp_path):
    a_folder(tmp_path / "claim", shots=())
    ran = claimpack("packet", "claim", "--sign", folder=tmp_path)
    assert (ran.code, "shop.toml" in ran.err) == (2, True)


def test_a_key_that_is_not_there_is_named(shop):
    (shop / "shop.p12").unlink()
    ran = packet(shop, environ=KNOWN)
    assert (ran.code, "shop.p12" in ran.err) == (2, True)


def test_without_being_asked_a_packet_is_not_signed(shop):
    claimpack("packet", "26-0001", "--out", "p.pdf", folder=shop)
    assert claimpack("verify", "p.pdf", "--json", folder=shop).json["signature"] is None


def test_build_signs_too(shop):
    claimpack("build", "26-0001", "--out", "out", "--sign", folder=shop, environ=KNOWN)
    assert claimpack("verify", "out/packet.pdf", "--json", folder=shop).json["signature"]["state"] == "valid"


def test_what_is_filed_is_signed_where_the_shop_has_a_key(shop):
    claimpack("file", "26-0001", "--anyway", "test", "--out", "p.pdf", folder=shop, environ=KNOWN)
    told = claimpack("verify", "p.pdf", "--json", folder=shop).json
    assert (told["signature"]["state"], told["filed"]["same"]) == ("valid", True)


def test_the_passphrase_is_in_no_file_of_the_shop(shop):
    claimpack("file", "26-0001", "--anyway", "test", folder=shop, environ=KNOWN)
    assert not [path for path in shop.rglob("*") if path.is_file() and PASSPHRASE.encode() in path.read_bytes()]


def test_a_signer_cannot_move_the_cursor(shop):
    (shop / "shop.p12").write_bytes(a_pkcs12(name="Quarry\x1b[2J Road"))
    packet(shop, environ=KNOWN)
    assert "\x1b" not in claimpack("verify", "p.pdf", folder=shop).out
