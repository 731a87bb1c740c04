import contextlib
import errno
import json
import os
import zipfile

import pytest
from book_builders import ANA, OPENED, an_entry, kept
from running import claimpack
from shops_with_claims import a_shop_with, walked

from claimpack.book.keeping.archive import open_archive, write_archive
from claimpack.book.keeping.moving import everything, restore
from claimpack.book.opening import open_book
from claimpack.errors import BadInput, NotFound
from claimpack.file_contents import hash_of

PHOTO = b"a picture"
SHA256 = hash_of(PHOTO)


in_memory = pytest.mark.parametrize("lies_in", ["memory"])
"""An archive is written alike wherever the book lies."""


@contextlib.contextmanager
def quietly(_count):
    yield lambda: None


def archived(book, path, content=PHOTO):
    with everything(book) as read:
        return write_archive(path, read, lambda _sha256: content, quietly)


@pytest.fixture
def archive(book, tmp_path):
    """The archive of a book with one claim and one picture."""
    book.add([an_entry("26-0001", kept("photos/a.jpg", SHA256))], ANA, OPENED)
    archived(book, tmp_path / "book.zip")
    return tmp_path / "book.zip"


@pytest.fixture
def rewritten(archive):
    """Write the archive anew with some entries replaced; None leaves one out."""

    def rewrite(**entries):
        with zipfile.ZipFile(archive) as old:
            kept_entries = {name: old.read(name) for name in old.namelist()}
        kept_entries |= {name.replace("__", "."): content for name, content in entries.items()}
        with zipfile.ZipFile(archive, "w") as new:
            for name, content in kept_entries.items():
                if content is not None:
                    new.writestr(name, content)
        return archive

    return rewrite


def proved(path):
    with open_archive(path) as opened:
        return opened.prove()


def test_an_archive_is_an_ordinary_zip_of_json_lines(archive):
    with zipfile.ZipFile(archive) as zipped:
        assert zipped.testzip() is None
        assert sorted(zipped.namelist())[:3] == ["claims.jsonl", "clocks.jsonl", "contents.json"]
        assert json.loads(zipped.read("claims.jsonl"))["number"] == "26-0001"


def test_the_contents_count_and_hash_what_is_in_it(archive, book):
    with zipfile.ZipFile(archive) as zipped:
        contents = json.loads(zipped.read("contents.json"))
        assert contents["sha256"]["events"] == hash_of(zipped.read("events.jsonl"))
    assert (contents["rows"]["claims"], contents["files"], contents["history"]) == (1, 1, book.chain_end()[1])


def test_the_same_book_gives_the_same_bytes(archive, book, tmp_path):
    archived(book, tmp_path / "again.zip")
    assert (tmp_path / "again.zip").read_bytes() == archive.read_bytes()


def test_a_book_moved_between_databases_gives_the_same_archive(archive, tmp_path):
    moved = open_book(str(tmp_path / "moved.sqlite"), create=True)
    with open_archive(archive) as opened:
        restore(moved, opened.rows)
    archived(moved, tmp_path / "again.zip")
    assert (tmp_path / "again.zip").read_bytes() == archive.read_bytes()


def test_a_whole_archive_names_the_files_it_needs(archive):
    assert proved(archive) == [SHA256]


def test_a_file_comes_out_as_it_went_in(archive):
    with open_archive(archive) as opened:
        assert opened.content(SHA256) == PHOTO


def test_an_empty_book_has_an_archive(tmp_path):
    archived(open_book(":memory:", create=True), tmp_path / "book.zip")
    assert proved(tmp_path / "book.zip") == []


def test_a_changed_table_is_named(rewritten):
    with pytest.raises(BadInput, match=r"events\.jsonl was changed"):
        proved(rewritten(events__jsonl=b"{}\n"))


def test_a_table_that_is_missing_is_named(rewritten):
    with pytest.raises(BadInput, match=r"events\.jsonl is missing"):
        proved(rewritten(events__jsonl=None))


def test_a_file_that_is_missing_is_counted(rewritten):
    with pytest.raises(BadInput, match="it needs 1 files, and holds 0"):
        proved(rewritten(**{f"files/{SHA256}": None}))


def test_a_changed_file_is_named(rewritten):
    path = rewritten(**{f"files/{SHA256}": b"another picture"})
    with open_archive(path) as opened, pytest.raises(BadInput, match=f"files/{SHA256} was changed"):
        opened.content(SHA256)


def test_lines_that_are_no_rows_are_refused(rewritten, archive):
    line = b"[1]\n"
    with zipfile.ZipFile(archive) as zipped:
        contents = json.loads(zipped.read("contents.json"))
    contents["sha256"]["events"] = hash_of(line)
    with pytest.raises(BadInput, match="a line that is no row"):
        proved(rewritten(events__jsonl=line, contents__json=json.dumps(contents)))


@pytest.mark.parametrize("content", [None, b"{}", b"not json"], ids=["none", "empty", "no JSON"])
def test_a_zip_without_contents_is_no_archive(rewritten, content):
    with pytest.raises(BadInput, match="is no archive of a book"):
        proved(rewritten(contents__json=content))


def test_a_file_that_is_no_zip_is_no_archive(tmp_path):
    (tmp_path / "book.zip").write_text("hello")
    with pytest.raises(BadInput, match="archive"):
        proved(tmp_path / "book.zip")


def test_an_archive_cut_off_is_refused(archive):
    archive.write_bytes(archive.read_bytes()[:-100])
    with pytest.raises(BadInput):
        proved(archive)


def telling_sizes(archive, name, **sizes):
    """The archive with a member that tells other sizes than it has, `packed` or `unpacked`, in the list of members."""
    content = archive.read_bytes()
    with zipfile.ZipFile(archive) as zipped:
        listed = bytearray(content[zipped.start_dir :])
    entry = listed.index(name.encode()) - 46
    for place, size in sizes.items():
        at = entry + {"packed": 20, "unpacked": 24}[place]
        listed[at : at + 4] = size.to_bytes(4, "little")
    archive.write_bytes(content[: -len(listed)] + listed)


@in_memory
def test_members_that_lie_over_each_other_are_refused(archive):
    twice = 2 * archive.stat().st_size
    telling_sizes(archive, f"files/{SHA256}", packed=twice, unpacked=twice)
    with pytest.raises(BadInput, match="over each other"):
        proved(archive)


def most_unpacked(archive):
    """Bytes that the clocks of an archive may unpack to: what all that is packed may, less what the rest does."""
    with zipfile.ZipFile(archive) as zipped:
        packed = [member for member in zipped.infolist() if member.compress_type != zipfile.ZIP_STORED]
    rest = sum(member.file_size for member in packed if member.filename != "clocks.jsonl")
    return 100_000_000 + 300 * sum(member.compress_size for member in packed) - rest


CEILINGS = pytest.mark.parametrize(
    ("name", "most"),
    [
        (f"files/{SHA256}", lambda _: 500_000_000),
        ("contents.json", lambda _: 16_000_000),
        ("clocks.jsonl", most_unpacked),
    ],
    ids=["a kept file", "the contents", "the rows"],
)


@in_memory
@CEILINGS
def test_an_archive_as_large_as_one_may_be_is_opened(archive, name, most):
    telling_sizes(archive, name, unpacked=most(archive))
    with open_archive(archive) as opened:
        assert opened.contents.files == 1


@in_memory
@CEILINGS
def test_an_archive_a_byte_larger_is_refused_before_it_is_unpacked(archive, name, most):
    telling_sizes(archive, name, unpacked=most(archive) + 1)
    with pytest.raises(BadInput, match=r"larger than 500 MB|too long|far more than a book"), open_archive(archive):
        pass


@in_memory
def test_rows_and_contents_are_packed_and_kept_files_stored(archive):
    with zipfile.ZipFile(archive) as zipped:
        stored = {member.filename for member in zipped.infolist() if member.compress_type == zipfile.ZIP_STORED}
    assert stored == {f"files/{SHA256}"}


@in_memory
def test_a_table_may_grow_beyond_what_a_zip_of_old_can_tell(archive):
    with zipfile.ZipFile(archive) as zipped:
        # PKWARE's APPNOTE.TXT, 4.4.3.2: version 4.5 is needed to extract what is in the ZIP64 format
        assert {zipped.getinfo(name).extract_version for name in ("claims.jsonl", "events.jsonl")} == {45}


@in_memory
def test_rows_are_written_one_way_with_keys_in_order_and_letters_as_they_are(book, tmp_path):
    book.add([an_entry("26-0001", owner__name="Zoë Łucka")], ANA, OPENED)
    archived(book, tmp_path / "book.zip")
    with zipfile.ZipFile(tmp_path / "book.zip") as zipped:
        row = zipped.read("revisions.jsonl").decode()
    assert list(json.loads(row)) == sorted(json.loads(row))
    assert "Zoë Łucka" in row


def backup(path, *names):
    """A backup of an empty book with these files of its shop's folder."""
    with everything(open_book(":memory:", create=True)) as read:
        write_archive(path, read, lambda _sha256: PHOTO, quietly, dict.fromkeys(names, b"format = 1"))
    return path


@pytest.mark.parametrize("name", ["shop.toml", "coverage/halden.toml", "tag/small/halden 2.toml"])
def test_a_file_of_a_shops_folder_comes_out_of_a_backup(tmp_path, name):
    with open_archive(backup(tmp_path / "b.zip", name)) as opened:
        assert opened.settings() == {name: b"format = 1"}


@pytest.mark.parametrize(
    "name",
    [
        "book.sqlite", "coverage", "photos/a.jpg", "shop.toml/a", "/coverage/a.toml", "coverage/../shop.toml",
        "../shop.toml", "coverage//a.toml", "coverage/a\x07.toml", "C:coverage/a.toml",
    ],
)  # fmt: skip
def test_a_file_that_belongs_into_no_shops_folder_comes_out_of_none(tmp_path, name):
    with open_archive(backup(tmp_path / "b.zip", name)) as opened, pytest.raises(BadInput, match="no file of a shop"):
        opened.settings()


def test_a_folder_named_as_an_archive_is_refused_in_the_systems_words(tmp_path):
    with pytest.raises(BadInput) as refused, open_archive(tmp_path):
        pass
    assert refused.value.why == os.strerror(errno.EISDIR)


def test_an_archive_that_is_not_there_is_not_found(tmp_path):
    with pytest.raises(NotFound, match="no such file"):
        proved(tmp_path / "book.zip")


def test_an_archive_that_fails_leaves_no_file(book, tmp_path):
    book.add([an_entry("26-0001", kept("photos/a.jpg", SHA256))], ANA, OPENED)

    def gone(_sha256):
        raise NotFound("gone")

    with everything(book) as read, pytest.raises(NotFound):
        write_archive(tmp_path / "book.zip", read, gone, quietly)
    assert list(tmp_path.glob("*.zip")) == []


def test_a_shop_moves_from_sqlite_to_postgresql_with_every_count_and_hash(server, tmp_path):
    shop = a_shop_with(tmp_path)
    walked(shop, "file --on 2026-02-25", "answer accepted", "pay 100")
    claimpack("export", "--everything", "../book.zip", folder=shop)
    settings = (shop / "shop.toml").read_text()
    (shop / "shop.toml").write_text(f'book = "{server.fresh()}"\n{settings}')
    ran = claimpack("import", "../book.zip", "--json", folder=shop)
    assert (ran.code, ran.json["same"], ran.json["book"]["events"]) == (0, True, 4)
    claimpack("export", "--everything", "../again.zip", folder=shop)
    assert (tmp_path / "again.zip").read_bytes() == (tmp_path / "book.zip").read_bytes()
