import pytest
from claim_folders import a_folder, picture

from claimpack.errors import BadInput, NotFound
from claimpack.folder.claim_folder import claim_folders_in, every_file, inside, read_claim_folder

NAMED = ["papers/receipt.pdf", *(f"photos/{index}.jpg" for index in range(5))]


@pytest.fixture
def folder(tmp_path):
    return a_folder(tmp_path / "26-0001")


def test_a_claim_is_read_from_its_folder_or_its_file(folder):
    assert read_claim_folder(folder).claim == read_claim_folder(folder / "claim.toml").claim


def test_papers_not_named_one_by_one_are_those_in_the_folder(folder):
    assert [paper.file for paper in read_claim_folder(folder).claim.papers] == ["papers/receipt.pdf"]


def test_pictures_the_claim_does_not_name_are_told(folder):
    (folder / "photos" / "spare.jpg").write_bytes(picture())
    assert read_claim_folder(folder).unlisted == ("photos/spare.jpg",)


@pytest.mark.parametrize(
    ("path", "error", "said"),
    [
        ("nowhere", NotFound, "there is no such claim folder"),
        ("empty", NotFound, "there is no claim.toml in it"),
        ("file", BadInput, "is a file, not a claim folder"),
    ],
)
def test_what_is_no_claim_folder_says_so(tmp_path, path, error, said):
    (tmp_path / "empty").mkdir()
    (tmp_path / "file").write_text("")
    with pytest.raises(error, match=said):
        read_claim_folder(tmp_path / path)


def test_a_claim_folder_names_itself(folder):
    assert claim_folders_in(folder) == claim_folders_in(folder / "claim.toml") == [folder]


def test_a_folder_of_claim_folders_names_them_in_order(folder, tmp_path):
    a_folder(tmp_path / "26-0000")
    (tmp_path / "notes").mkdir()
    assert claim_folders_in(tmp_path) == [tmp_path / "26-0000", folder]


@pytest.mark.parametrize("path", ["nowhere", "notes"])
def test_where_there_is_no_claim_folder_none_is_named(tmp_path, path):
    (tmp_path / "notes").mkdir()
    with pytest.raises(NotFound, match="there is no"):
        claim_folders_in(tmp_path / path)


def test_the_files_of_a_claim_are_those_named_and_those_beside_them(folder):
    (folder / "photos" / "spare.jpg").write_bytes(picture())
    (folder / "coverage").mkdir()
    (folder / "coverage" / "own.toml").write_text("")
    assert list(every_file(read_claim_folder(folder))) == ["coverage/own.toml", *NAMED, "photos/spare.jpg"]


def test_hidden_files_and_what_was_built_do_not_belong_to_a_claim(folder):
    (folder / "photos" / ".thumbs").write_text("")
    (folder / "packet.pdf").write_text("")
    assert list(every_file(read_claim_folder(folder))) == NAMED


def test_files_are_named_as_a_claim_writes_them(folder):
    (folder / "papers" / "Re\u0301cu  2.pdf").write_bytes(b"x")
    assert [paper.file for paper in read_claim_folder(folder).claim.papers] == [
        "papers/Récu 2.pdf",
        "papers/receipt.pdf",
    ]


@pytest.mark.parametrize("names", [("in voice.pdf", "in  voice.pdf"), ("R\u00e9cu.pdf", "Re\u0301cu.pdf")])
def test_two_files_that_a_claim_would_write_alike_are_refused(folder, names):
    for name in names:
        (folder / "papers" / name).write_bytes(b"x")
    with pytest.raises(BadInput, match="are one name"):
        read_claim_folder(folder)


def test_two_files_beside_a_claim_that_it_would_write_alike_are_refused(folder):
    (folder / "coverage").mkdir()
    for name in ("own plan.toml", "own  plan.toml"):
        (folder / "coverage" / name).write_text("")
    read = read_claim_folder(folder)
    with pytest.raises(BadInput, match="are one name"):
        every_file(read)


@pytest.mark.parametrize("name", ["a\x1b[31m.pdf", "a\udcff.pdf"])
def test_a_file_whose_name_is_no_text_is_refused(folder, name):
    (folder / "papers" / name).write_bytes(b"x")
    with pytest.raises(BadInput, match="control character"):
        read_claim_folder(folder)


def test_a_path_inside_the_folder_is_taken():
    assert inside("photos/a.jpg", "claim 26-0001") == "photos/a.jpg"


@pytest.mark.parametrize("name", ["../a.jpg", "/etc/passwd", "photos\\a.jpg", "C:a.jpg"])
def test_a_path_out_of_the_folder_is_refused(name):
    with pytest.raises(BadInput, match="leaves"):
        inside(name, "claim 26-0001")


def test_a_file_is_no_folder_of_claims(tmp_path):
    (tmp_path / "notes.txt").write_text("")
    with pytest.raises(BadInput, match="is a file, and claims come in folders"):
        claim_folders_in(tmp_path / "notes.txt")


@pytest.mark.parametrize("name", ["papers/NUL.pdf", "aux/receipt.pdf"])
def test_a_file_is_not_called_as_a_device(name):
    with pytest.raises(BadInput, match="is the name of a device"):
        inside(name, "claim 26-0001")


def test_hidden_files_and_folders_among_the_pictures_are_none(folder):
    before = read_claim_folder(folder).unlisted
    (folder / "photos/.thumbs").write_bytes(b"x")
    (folder / "photos/more").mkdir()
    assert read_claim_folder(folder).unlisted == before
