from __future__ import annotations

import datetime as dt
import io
import json

import pikepdf
import pypdf
import pytest
from builders import TODAY, a_claim, a_plan
from packets import PHOTOS, Parts, a_packet, attached, enclosed, jpeg

from claimpack import __version__
from claimpack.core.claims.claim import Claim
from claimpack.core.judging.assessment import Circumstances, as_json, assess
from claimpack.core.plans.plan import Plan
from claimpack.files import hash_of
from claimpack.packet.sealing.embedded import Attachment, Enclosed, Manifest, attach, data_files

NAMES = ["assessment.json", "claim.json", "manifest.json", "plan.json"]


def read_back(name: str) -> bytes:
    return pypdf.PdfReader(io.BytesIO(a_packet())).attachments[name][0]


def test_the_packet_carries_four_files():
    assert sorted(pypdf.PdfReader(io.BytesIO(a_packet())).attachments) == NAMES


def test_the_claim_comes_back_exactly():
    assert Claim.model_validate_json(read_back("claim.json")) == a_claim()


def test_the_plan_comes_back_exactly():
    plan = a_plan(hold={"for": "P90D"}, start_without_proof={"from": "built", "after": "P6M"})
    files = data_files(Enclosed(assess(a_claim(), [plan], TODAY), "letter"))
    assert Plan.model_validate_json(files[1].content) == plan


def test_the_assessment_says_what_check_says():
    told = json.loads(read_back("assessment.json"))
    assert told.items() >= as_json(assess(a_claim(), [a_plan()], TODAY)).items()


def test_the_assessment_tells_version_layout_and_day():
    told = json.loads(read_back("assessment.json"))
    assert told["tool"] == f"claimpack {__version__}"
    assert (told["layout"], told["plan"], told["today"]) == ("letter", "halden-test", "2026-03-01")


def test_the_assessment_tells_when_pictures_were_taken():
    taken = {"b.jpg": None, "a.jpg": dt.datetime.fromisoformat("2026-02-05T09:30")}
    files = data_files(
        Enclosed(assess(a_claim(), [a_plan()], TODAY), "letter", circumstances=Circumstances(taken=taken, filed=TODAY))
    )
    told = json.loads(files[-1].content)
    assert told["circumstances"]["taken"] == {"a.jpg": "2026-02-05T09:30:00", "b.jpg": None}
    assert told["circumstances"]["filed"] == "2026-03-01"


def test_a_claim_without_a_plan_carries_none():
    files = data_files(Enclosed(assess(a_claim(), [], TODAY), "letter"))
    assert [file.name for file in files] == ["claim.json", "assessment.json"]


def test_accents_are_carried_as_they_are_written():
    files = data_files(enclosed(owner__name="Zoë Ångström-Ñáñez"))
    assert "Zoë Ångström-Ñáñez".encode() in files[0].content


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
    assert listed == {name: hash_of(read_back(name)) for name in NAMES if name != "manifest.json"}


def test_the_manifest_counts_pages_and_names_the_claim():
    made = Manifest.model_validate_json(read_back("manifest.json"))
    assert (made.page_count, len(made.pages), made.claim, made.format) == (4, 4, "26-0001", 1)


def test_the_manifest_is_sealed_in_the_properties():
    assert pypdf.PdfReader(io.BytesIO(a_packet())).metadata["/ManifestSHA256"] == hash_of(read_back("manifest.json"))


def test_originals_are_not_embedded():
    packet = Parts().assembled()
    assert len(pypdf.PdfReader(io.BytesIO(packet)).attachments) == 4


@pytest.mark.parametrize("name", NAMES)
def test_each_file_tells_its_size_and_checksum(name):
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        stored = pdf.attachments[name].get_file()
        assert stored.size == len(stored.read_bytes())
        assert stored.mod_date.date() == TODAY


def test_a_file_of_another_kind_keeps_its_kind():
    with pikepdf.new() as pdf:
        attach(pdf, [Attachment("terms.txt", b"x", "Alternative", "Terms", "text/plain")], TODAY)
        spec = pdf.attachments["terms.txt"]
        assert (spec.get_file().mime_type, str(spec.relationship)) == ("text/plain", "/Alternative")
