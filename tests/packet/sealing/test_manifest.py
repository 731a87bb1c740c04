from __future__ import annotations

import io

import pypdf
from packets import PHOTOS, a_packet, attached, jpeg

from claimpack.file_contents import hash_of
from claimpack.packet.sealing.manifest import Manifest

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
