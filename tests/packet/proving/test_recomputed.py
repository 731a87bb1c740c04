from __future__ import annotations

import datetime as dt
import io
import json
from functools import cache
from typing import Any

import pikepdf
import pytest
from builders import TODAY, a_claim, a_plan, a_window
from packets import Parts, enclosed, replace_attachment, tampered

from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.plans.plan import WindowSet
from claimpack.file_contents import hash_of
from claimpack.packet.proving.recomputed import recomputed
from claimpack.packet.proving.verify import verify
from claimpack.packet.sealing.embedded import Enclosed, data_files
from claimpack.packet.sealing.manifest import SEAL


def carried(**changes: bytes) -> dict[str, bytes]:
    files = {file.name: file.content for file in data_files(enclosed())}
    return {**files, **{name.replace("_", "."): content for name, content in changes.items()}}


def problems(packet: bytes) -> tuple[str, ...]:
    return verify(packet).problems


def a_forgery(name: str, change: Any) -> bytes:
    """A packet in which a data file, its hash in the manifest and the seal were all changed."""

    def act(pdf: pikepdf.Pdf) -> None:
        content = replace_attachment(pdf, name, change)
        manifest = replace_attachment(
            pdf, "manifest.json", lambda made: made["data"].__setitem__(name, hash_of(content))
        )
        pdf.docinfo["/ManifestSHA256"] = hash_of(manifest)

    return tampered(act)


@cache
def without_a_plan() -> bytes:
    return Parts(enclosed=Enclosed(assess(a_claim(), [], TODAY), "letter")).assembled()


def test_a_verdict_that_does_not_follow_is_noticed_though_every_hash_was_forged():
    (problem,) = problems(a_forgery("assessment.json", lambda told: told.__setitem__("verdict", "not covered")))
    assert problem == "the assessment does not follow from the claim: verdict not covered, recomputed covered"


def test_a_claim_with_other_parts_does_not_lead_to_its_amounts():
    part = {"name": "short block", "unit_cost": "149.70"}
    (problem,) = problems(a_forgery("claim.json", lambda claim: claim.__setitem__("parts", [part])))
    assert "claimed 0.00, recomputed 149.70" in problem


def test_another_version_of_the_program_is_named_instead_of_a_forgery():
    def change(told):
        told.update(verdict="not covered", tool="claimpack 0.0.1")

    found = verify(a_forgery("assessment.json", change))
    assert found.genuine
    (note,) = found.not_checked
    assert "The packet was made by claimpack 0.0.1" in note


@pytest.mark.parametrize(
    ("name", "said"), [("claim.json", "a claim"), ("plan.json", "a plan"), ("assessment.json", "an assessment")]
)
def test_data_that_cannot_be_read_is_named(name, said):
    assert problems(a_forgery(name, lambda content: content.clear())) == (f"{name} cannot be read as {said}",)


def test_a_packet_without_a_plan_says_what_was_not_computed():
    found = verify(without_a_plan())
    assert found.genuine
    assert found.not_checked[0].startswith("no plan is carried")


def test_a_packet_without_a_plan_is_known_as_one_though_its_seal_was_taken_away():
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(without_a_plan())) as pdf:
        del pdf.docinfo[SEAL]
        pdf.save(written)
    assert problems(written.getvalue()) == ("manifest.json was changed",)


def test_an_assessment_that_follows_leaves_nothing_to_say():
    found = recomputed(carried())
    assert (found.claim, found.problems, found.notes) == ("26-0001", (), ())


def test_when_pictures_were_taken_and_the_claim_filed_is_taken_over():
    taken = {"photos/plate.jpg": dt.datetime.fromisoformat("2019-01-01T12:00"), "photos/damage.jpg": None}
    told = Circumstances(taken=taken, filed=TODAY)
    files = data_files(Enclosed(assess(a_claim(), [a_plan()], TODAY, told), "letter", circumstances=told))
    assert recomputed({file.name: file.content for file in files}).problems == ()


def test_the_windows_that_law_adds_are_part_of_the_plan_carried():
    law = {"id": "law", "name": "Law", "cites": "1 X 2", "read_on": "2026-01-01", "window": [a_window(id="legal")]}
    plan = a_plan(statutes=["law"]).with_windows_of(WindowSet.model_validate(law))
    files = data_files(Enclosed(assess(a_claim(), [plan], TODAY), "letter"))
    assert recomputed({file.name: file.content for file in files}).problems == ()


def test_amounts_that_the_plan_cannot_price_do_not_follow():
    claim = a_claim(currency="EUR").model_dump_json().encode()
    (problem,) = recomputed(carried(claim_json=claim)).problems
    assert problem.startswith("the assessment does not follow from the claim: claim 26-0001, key currency")


@pytest.mark.parametrize("key", ["amounts", "reasons"])
def test_a_part_of_the_answer_that_is_gone_is_named_by_its_key(key):
    told = json.loads(carried()["assessment.json"])
    del told[key]
    (problem,) = recomputed(carried(assessment_json=json.dumps(told).encode())).problems
    assert problem.endswith(f": {key} differ")


def test_files_that_are_absent_are_left_to_the_manifest():
    assert recomputed({}).problems == ()
