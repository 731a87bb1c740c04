import hashlib

import pytest

from claimpack.errors import BadInput
from claimpack.phone.uploads import MOST_BYTES, Uploads


def sha256(content):
    return hashlib.sha256(content).hexdigest()


def sent(uploads, content, *cuts):
    """A file sent in pieces that end at the cuts."""
    ends = (*cuts, len(content))
    for start, end in zip((0, *cuts), ends, strict=True):
        uploads.add(sha256(content), start, len(content), content[start:end])
    return sha256(content)


def test_pieces_make_the_file(tmp_path):
    uploads = Uploads(tmp_path)
    assert uploads.file(sent(uploads, b"a picture", 2, 5)).read_bytes() == b"a picture"


def test_nobody_else_may_read_what_waits(tmp_path):
    uploads = Uploads(tmp_path)
    assert uploads.file(sent(uploads, b"a picture")).stat().st_mode & 0o077 == 0


@pytest.mark.parametrize(
    ("at", "size", "piece"), [(3, 9, b"xxxx"), (0, 9, b"xxxx"), (2, 8, b"xxxx"), (5, 9, b"xxxx"), (2, 9, b"xxxxxxxx")]
)
def test_a_piece_out_of_step_changes_nothing(tmp_path, at, size, piece):
    uploads, name = Uploads(tmp_path), sha256(b"a picture")
    uploads.add(name, 0, 9, b"a ")
    assert uploads.add(name, at, size, piece) == 2


def test_a_file_that_is_not_whole_cannot_be_had(tmp_path):
    uploads = Uploads(tmp_path)
    uploads.add(sha256(b"a picture"), 0, 9, b"a ")
    with pytest.raises(BadInput):
        uploads.file(sha256(b"a picture"))


def test_what_was_filed_need_not_be_sent_again_and_is_gone(tmp_path):
    uploads = Uploads(tmp_path)
    name = sent(uploads, b"a picture")
    uploads.filed(name)
    assert (uploads.received(name), uploads.add(name, 0, 9, b"a "), list(tmp_path.iterdir())) == (9, 9, [])


def test_what_was_filed_can_be_sent_again_where_it_is_wanted_again(tmp_path):
    uploads = Uploads(tmp_path)
    uploads.filed(sent(uploads, b"a picture"))
    with pytest.raises(BadInput):
        uploads.file(sha256(b"a picture"))
    assert uploads.file(sent(uploads, b"a picture")).is_file()


def test_only_so_many_files_wait(tmp_path):
    uploads = Uploads(tmp_path)
    for number in range(40):
        uploads.add(sha256(b"%d" % number), 0, 9, b"x")
    with pytest.raises(BadInput, match="too many"):
        uploads.add(sha256(b"one more"), 0, 9, b"x")


def test_a_gigabyte_is_waited_for_and_no_byte_more(tmp_path):
    uploads = Uploads(tmp_path)
    announced = [*[MOST_BYTES] * 12, 10**9 - 12 * MOST_BYTES]
    assert [uploads.add(sha256(b"%d" % each), 0, size, b"x") for each, size in enumerate(announced)] == [1] * 13
    with pytest.raises(BadInput, match="too many"):
        uploads.add(sha256(b"one more"), 0, 2, b"x")
