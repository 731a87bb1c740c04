from __future__ import annotations

import email
import email.policy

import pytest
from made_forms import one_field, values
from running import claimpack
from shop_builders import the_desk
from shops_with_claims import a_copy

MAPPING = 'id = "w7"\nmaker = "halden"\nfile = "w7.pdf"\n[fields]\nowner = "{owner.name}"\n'


@pytest.fixture
def shop(draft_shop, tmp_path):
    return a_copy(draft_shop, tmp_path)


def settings(shop, **tables):
    """The settings of the shop: these tables by maker."""
    told = "".join(f"[{table}]\nHalden = {value}\n" for table, value in tables.items())
    (shop / "shop.toml").write_text(told, encoding="utf-8")


def mailed(shop, *options):
    return claimpack("file", "26-0001", "--on", "2026-02-25", "--mail", "m.eml", *options, folder=shop)


def state(shop):
    return the_desk(shop).book.get("26-0001").standing.state


def read(shop):
    return email.message_from_bytes((shop / "m.eml").read_bytes(), policy=email.policy.default)


def test_the_mail_has_the_filed_packet_and_the_makers_form(shop):
    (shop / "forms").mkdir(exist_ok=True)
    (shop / "forms" / "w7.toml").write_text(MAPPING, encoding="utf-8")
    (shop / "forms" / "w7.pdf").write_bytes(one_field())
    settings(
        shop, maker_mail='"claims@halden.example.com"', maker_forms='"w7"', maker_subjects='"{number} {unit.model}"'
    )
    ran = mailed(shop, "--json")
    packet, form = (part.get_content() for part in read(shop).iter_attachments())
    assert (ran.json["mail"], read(shop)["Subject"]) == (str(shop / "m.eml"), "26-0001 CS-70")
    assert (packet, values(form)) == ((shop / "26-0001-packet.pdf").read_bytes(), {"owner": "A. Customer"})


def test_the_answer_says_that_a_person_sends_it(shop):
    settings(shop, maker_mail='"claims@halden.example.com"')
    assert "m.eml, for you to look at and send" in mailed(shop).out


@pytest.mark.parametrize(
    ("tables", "says"),
    [
        ({}, "the address of halden is not known"),
        ({"maker_mail": '"a@example.com\\nBcc: b@example.com"'}, "maker_mail.Halden"),
        ({"maker_mail": '"a@example.com"', "maker_subjects": '"{nmber}"'}, "key maker_subjects"),
        ({"maker_mail": '"a@example.com"', "maker_subjects": '"{"'}, "key maker_subjects"),
    ],
    ids=["no address", "line break", "unknown key", "a brace alone"],
)
def test_where_the_mail_cannot_be_written_nothing_is_filed(shop, tables, says):
    settings(shop, **tables)
    ran = mailed(shop)
    settings(shop)
    assert (ran.code, says.casefold() in ran.err.casefold(), state(shop)) == (2, True, "draft")
    assert not list(shop.glob("*.pdf")) + list(shop.glob("*.eml"))


def test_a_mail_does_not_take_the_packets_place(shop):
    settings(shop, maker_mail='"a@example.com"')
    assert (mailed(shop, "--out", "m.eml").code, state(shop)) == (2, "draft")


def test_a_mail_is_text_and_may_go_to_a_terminal(shop):
    settings(shop, maker_mail='"claims@halden.example.com"')
    late = ("--on", "2026-03-27", "--today", "2026-04-01")
    ran = claimpack("file", "26-0001", *late, "--mail", "-", folder=shop, terminal=True)
    # nothing but the day is against it
    assert (ran.code, "2026-03-26" in ran.err) == (4, True)


@pytest.mark.parametrize("beside", [["--json"], ["--mail", "-"]])
def test_a_packet_on_standard_output_has_nothing_beside_it(shop, beside):
    settings(shop, maker_mail='"claims@halden.example.com"')
    ran = claimpack("file", "26-0001", "--on", "2026-02-25", "--out", "-", *beside, folder=shop)
    assert (ran.code, state(shop)) == (2, "draft")
