from __future__ import annotations

import io

import pypdf
import pytest
from packets import PHOTOS, a_packet, attached, jpeg

from claimpack.file_contents import hash_of
from claimpack.packet.sealing.manifest import Manifest, Original, original_changes

NAMES = ["assessment.json", "claim.json", "manifest.json", "plan.json"]


def carried(name: str) -> bytes:
    return pypdf.PdfReader(io.BytesIO(a_packet())).attachments[name][0]


def test_the_manifest_lists_originals_with_size_and_role():
    entry = {"file": "photos/damage.jpg", "sha256": hash_of(b"photos/damage.jpg"), "bytes": 17, "role": "photo"}
    kept = {"attached": "", "as_it_is": False}
    assert attached(a_packet(), "manifest.json")["originals"][0] == entry | kept


def test_the_manifest_hashes_each_picture_as_it_is_embedded():
    listed = attached(a_packet(), "manifest.json")["pictures"]
    assert {entry["file"]: entry["sha256"] for entry in listed} == {
        file: hash_of(jpeg(colour)) for file, colour in PHOTOS.items()
    }


def test_the_manifest_hashes_the_other_files():
    listed = attached(a_packet(), "manifest.json")["data"]
    assert listed == {name: hash_of(carried(name)) for name in NAMES if name != "manifest.json"}


def test_the_manifest_counts_pages_and_names_the_claim():
    made = Manifest.model_validate_json(carried("manifest.json"))
    assert (made.page_count, len(made.pages), made.claim, made.format) == (4, 4, "26-0001", 1)


def test_the_manifest_is_sealed_in_the_properties():
    assert pypdf.PdfReader(io.BytesIO(a_packet())).metadata["/ManifestSHA256"] == hash_of(carried("manifest.json"))


SAME, OTHER = "a" * 64, "b" * 64
AT = "original-01-plate.jpg"


@pytest.mark.parametrize(
    ("kept", "carried", "described", "said"),
    [
        ({"attached": AT, "as_it_is": True}, {AT: SAME}, "photos/plate.jpg", []),
        ({"attached": AT, "as_it_is": True}, {AT: OTHER}, "photos/plate.jpg", [f"{AT} is not the file"]),
        ({"attached": AT}, {AT: OTHER}, "photos/plate.jpg", []),
        ({"attached": AT}, {}, "photos/plate.jpg", [f"{AT} was taken off"]),
        ({"attached": AT}, {AT: OTHER}, "photos/9.jpg", [f"the description of {AT}"]),
        ({}, {}, "photos/plate.jpg", []),
    ],
    ids=["as it is", "another file", "a copy", "not listed", "told as another", "left with the shop"],
)
def test_an_original_is_attached_as_the_manifest_says(kept, carried, described, said):
    original = Original(file="photos/plate.jpg", sha256=SAME, bytes=1, role="photo", **kept)
    made = Manifest(tool="claimpack", claim="1", page_count=0, data=carried, pages=(), originals=(original,))
    found = list(original_changes(made, {AT: described}))
    assert len(found) == len(said)
    assert all(change.startswith(begins) for change, begins in zip(found, said, strict=True))
