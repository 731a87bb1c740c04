"""What Python scripts use says what the commands say."""

import datetime as dt
import json
from pathlib import Path

import pytest
from running import claimpack

from claimpack import ClaimpackError, build, judge, read_claim

SAMPLES = Path(__file__).resolve().parent.parent / "sample_claims"
SAW = SAMPLES / "26-0041-short-block"
DAY = dt.date(2026, 2, 26)


def test_a_claim_is_judged_as_check_judges_it():
    told = claimpack("check", SAW, "--today", str(DAY), "--json", folder=SAMPLES).json
    assessment = judge(SAW, DAY)
    assert (assessment.verdict, str(assessment.amounts.claimed)) == (told["verdict"], told["amounts"]["claimed"])


def test_what_is_built_is_what_build_writes(tmp_path):
    claimpack("build", SAW, "--out", "out", "--today", str(DAY), folder=tmp_path)
    files = build(SAW, DAY)
    assert files == {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()}
    assert json.loads(files["claim.json"])["claim"]["number"] == read_claim(SAW).number


def test_what_is_wrong_is_raised_with_what_to_do(tmp_path):
    with pytest.raises(ClaimpackError) as raised:
        judge(tmp_path, DAY)
    assert raised.value.do
