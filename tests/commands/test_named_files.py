from pathlib import Path

import pytest
from running import claimpack

from claimpack.commands.named_files import ending_of
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
