from __future__ import annotations

import datetime as dt
import io
import json

import pypdf
from builders import TODAY, a_claim, a_plan
from packets import Parts, a_packet

from claimpack import __version__
from claimpack.core.claims.claim import Claim
from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.judging.assessment_json import as_json
from claimpack.core.plans.plan import Plan
from claimpack.packet.sealing.embedded import Enclosed, data_files

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
    claim, plan = a_claim(unit__model="CS-70 Größe"), a_plan(models=["CS-70 Größe"])
    files = data_files(Enclosed(assess(claim, [plan], TODAY), "letter"))
    assert ["Größe".encode() in file.content for file in files] == [True, True, True]


def test_originals_are_not_embedded():
    packet = Parts().assembled()
    assert len(pypdf.PdfReader(io.BytesIO(packet)).attachments) == 4
