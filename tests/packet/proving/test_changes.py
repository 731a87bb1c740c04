from __future__ import annotations

import pytest

from claimpack.errors import NotFound
from claimpack.file_contents import hash_of
from claimpack.packet.proving.changes import added_later, changed_originals, signature_changes
from claimpack.packet.sealing.manifest import Manifest, Original
from claimpack.packet.sealing.signature import Signature

OURS, OTHERS = "a" * 64, "b" * 64


def a_manifest(**changes) -> Manifest:
    return Manifest(tool="claimpack", claim="26-0001", page_count=0, data={}, pages=(), **changes)


@pytest.mark.parametrize(
    ("signature", "signed_by", "named"),
    [
        (None, "", 0),
        (None, OURS, 1),
        (Signature("valid", certificate=OURS), OURS, 0),
        (Signature("valid", certificate=OTHERS), OURS, 1),
        (Signature("altered", certificate=OURS), OURS, 1),
        (Signature("unchecked"), OURS, 0),
    ],
    ids=["never signed", "taken off", "the shop's", "another's", "does not fit", "cannot be checked"],
)
def test_a_signature_is_held_against_the_one_the_packet_was_made_for(signature, signed_by, named):
    assert len(list(signature_changes(signature, a_manifest(signed_by=signed_by)))) == named


@pytest.mark.parametrize(("content", "named"), [(b"seen", 0), (b"changed", 1), (None, 1)])
def test_originals_on_disk_are_those_the_packet_was_made_from(tmp_path, content, named):
    if content is not None:
        (tmp_path / "a.jpg").write_bytes(content)
    original = Original(file="a.jpg", sha256=hash_of(b"seen"), bytes=4, role="photo")
    assert len(list(changed_originals(a_manifest(originals=(original,)), tmp_path))) == named


def test_the_folder_of_the_originals_must_be_there(tmp_path):
    with pytest.raises(NotFound):
        list(changed_originals(a_manifest(), tmp_path / "gone"))


@pytest.mark.parametrize(
    ("before", "updates", "appended", "named"), [(b"", 1, 0, 0), (b"x", 1, 0, 1), (b"", 2, 0, 1), (b"", 1, 1, 1)]
)
def test_bytes_before_inside_and_behind_the_file_are_named(before, updates, appended, named):
    content = before + b"%PDF-1.7\n" + b"startxref\n9\n%%EOF\n" * updates
    assert len(list(added_later(content, appended))) == named
