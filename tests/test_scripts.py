"""What Python scripts use: each example of the guide runs, and says what the commands say."""

import datetime as dt
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from running import claimpack

from claimpack import ClaimpackError, build, judge, read_claim
from claimpack.commands.guide import GUIDES

SAMPLES = Path(__file__).resolve().parent.parent / "sample_claims"
SAW = SAMPLES / "26-0041-short-block"
DAY = dt.date(2026, 2, 26)


def test_the_examples_of_the_guide_run(tmp_path):
    (tmp_path / "sample_claims").symlink_to(SAMPLES)
    assert claimpack("shop", "demo", "try", "--today", "2026-11-29", folder=tmp_path).code == 0
    example = "".join(re.findall(r"```python\n(.*?)```", (GUIDES / "scripts.md").read_text(), re.DOTALL))
    done = subprocess.run([sys.executable, "-c", example], cwd=tmp_path, check=False, capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    assert "Q-001" in done.stdout


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
