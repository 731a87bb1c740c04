from __future__ import annotations

import email
import email.policy

import pytest
from running import NOW

from claimpack.reports.mail import Mail, as_message

MAIL = Mail(
    "service@example.com",
    "Quarry Road Small Engine",
    "claims@halden.example.com",
    "Claim 26-0001",
    "Attached is our claim.\n",
    (("26-0001-packet.pdf", b"%PDF-1.7 \xff\n"), ("26-0001-w7.pdf", b"%PDF-1.4\n")),
)


def read(**changes):
    """The mail as another reader has it."""
    return email.message_from_bytes(as_message(MAIL._replace(**changes), NOW), policy=email.policy.default)


def test_a_mail_says_from_to_and_about_what():
    message = read()
    told = [message[name] for name in ("From", "To", "Subject", "Date", "X-Unsent")]
    assert told == [
        "Quarry Road Small Engine <service@example.com>",
        "claims@halden.example.com",
        "Claim 26-0001",
        "Sun, 01 Mar 2026 09:30:00 -0500",
        "1",
    ]


def test_the_files_are_attached_byte_for_byte_under_their_names():
    found = [(part.get_filename(), part.get_content_type(), part.get_content()) for part in read().iter_attachments()]
    assert found == [(name, "application/pdf", content) for name, content in MAIL.attached]


def test_the_words_of_the_mail_are_in_any_letters():
    assert read(body="Ærøskøbing, 中").get_body().get_content().strip() == "Ærøskøbing, 中"


@pytest.mark.parametrize("mark", ["\r\n", "\n", "\r", "\x85", "\u2028", "\x0b", "\n\n"])
@pytest.mark.parametrize("key", ["subject", "sender_name"])
def test_nothing_in_a_header_begins_another(key, mark):
    message = read(**{key: f"Claim{mark}Bcc: other@example.com"})
    assert sorted(message.keys()) == sorted(read().keys())
    assert "Claim Bcc: other@example.com" in (message["Subject"], message["From"].addresses[0].display_name)


@pytest.mark.parametrize("key", ["to", "sender"])
def test_an_address_with_a_line_break_is_refused(key):
    with pytest.raises(ValueError, match="line break"):
        as_message(MAIL._replace(**{key: "a@example.com\nBcc: other@example.com"}), NOW)


def test_a_shop_without_an_address_leaves_it_to_the_mail_program():
    assert "From" not in read(sender="")


def test_a_long_subject_in_any_letters_comes_back_whole():
    subject = "Ærø " * 80
    assert read(subject=subject)["Subject"] == subject.strip()


def test_no_line_is_longer_than_a_server_takes():
    written = as_message(MAIL._replace(subject="long " * 500, body="word " * 500), NOW)
    assert max(map(len, written.split(b"\r\n"))) <= 998


def test_the_same_mail_gives_the_same_bytes():
    assert as_message(MAIL, NOW) == as_message(MAIL, NOW)
