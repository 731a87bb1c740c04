from pathlib import Path

import pytest
from running import claimpack, claimpack_in_bytes
from shops_with_claims import a_copy

from claimpack.commands.desk.named_files import ending_of
from claimpack.errors import BadInput


@pytest.mark.parametrize(("name", "ending"), [("sheet.pdf", ".pdf"), ("SHEET.PDF", ".pdf"), (None, "")])
def test_the_ending_says_what_is_to_be_written(name, ending):
    assert ending_of(name and Path(name), (".pdf", ".csv"), "It is printed.") == ending


@pytest.mark.parametrize(
    ("endings", "what", "do"),
    [
        ((".pdf",), "--out: p.txt is not a PDF file", "Let the name end in .pdf."),
        ((".pdf", ".csv"), "--out: p.txt is neither a PDF nor a CSV file", "Let the name end in .pdf or .csv."),
    ],
)
def test_another_ending_is_refused_with_those_there_are(endings, what, do):
    with pytest.raises(BadInput) as refused:
        ending_of(Path("p.txt"), endings, "It is printed.")
    assert (refused.value.what, refused.value.do) == (what, do)


@pytest.mark.parametrize("name", ["p", ".pdf", "pdf"])
def test_a_name_without_an_ending_is_refused(name):
    with pytest.raises(BadInput, match="is not a PDF file"):
        ending_of(Path(name), (".pdf",), "It is printed.")


@pytest.mark.parametrize(
    "command",
    [
        ("hold", "tag", "26-0001/1", "--out", "tag.txt"),
        ("hold", "sheet", "--out", "sheet.txt"),
        ("hold", "send", "26-0001/1", "--slip", "slip.txt"),
        ("chase", "26-0001", "--out", "letter.txt"),
    ],
)
def test_no_command_writes_a_pdf_under_another_ending(tmp_path, command):
    ran = claimpack(*command, folder=tmp_path)
    assert (ran.code, ".txt is " in ran.err, "end in .pdf" in ran.err) == (2, True, True)


FILES = (
    ("packet", "26-0001", "--out"),
    ("packet", "26-0001", "--filed", "--out"),
    ("tag", "26-0001", "--out"),
    ("hold", "tag", "26-0001/1", "--out"),
    ("hold", "sheet", "--out"),
)


@pytest.mark.parametrize("command", FILES, ids=lambda command: " ".join(command[:2]))
def test_a_pdf_goes_to_standard_output_and_what_is_said_beside_it(filed_shop, tmp_path, command):
    shop = a_copy(filed_shop, tmp_path)
    ran = claimpack_in_bytes(*command, "-", folder=shop)
    assert (ran.out[:5], ran.out.rstrip()[-5:], (shop / "-").exists()) == (b"%PDF-", b"%%EOF", False)


@pytest.mark.parametrize("command", FILES, ids=lambda command: " ".join(command[:2]))
def test_a_pdf_is_nothing_for_a_terminal_or_beside_json(filed_shop, tmp_path, command):
    shop = a_copy(filed_shop, tmp_path)
    refused = [claimpack(*command, "-", folder=shop, terminal=True), claimpack(*command, "-", "--json", folder=shop)]
    assert [(ran.code, "%PDF" in ran.out) for ran in refused] == [(2, False)] * 2


def test_a_packet_that_is_filed_may_go_to_standard_output(draft_shop, tmp_path):
    shop = a_copy(draft_shop, tmp_path)
    ran = claimpack_in_bytes("file", "26-0001", "--on", "2026-02-25", "--out", "-", folder=shop)
    assert (ran.code, ran.out[:5], "is filed on 2026-02-25" in ran.err) == (0, b"%PDF-", True)
