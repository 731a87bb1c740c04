"""How many ways to tamper with a real packet are called genuine: `python tests/trust/try_tamperings.py [PACKET...]`.

Each packet is first proved genuine as it was made. Without an argument the packets of two samples are made and used.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments
from running import claimpack
from tamperings import TAMPERINGS

from claimpack.errors import BadInput
from claimpack.packet.proving.verify import verify

SAMPLES = Path(__file__).parents[2] / "sample_claims"
CHOSEN = ("26-0041-short-block", "26-0083-accents-yen")


def main(named: list[str]) -> int:
    """Try every tampering on every packet; 1 where one got through."""
    with tempfile.TemporaryDirectory() as folder:
        for sample in () if named else CHOSEN:
            named.append(f"{folder}/{sample}.pdf")
            claimpack("packet", SAMPLES / sample, "--out", named[-1], folder=folder)
        packets = {path: Path(path).read_bytes() for path in named}
    bad = [f"{path}: {name}" for path, packet in packets.items() for name in TAMPERINGS if _passes(packet, name)]
    honest = [path for path, packet in packets.items() if not verify(packet).genuine]
    for line in (*bad, *(f"{path}: called altered as it was made" for path in honest)):
        print(line)
    print(f"{len(TAMPERINGS) * len(packets)} tamperings tried on {len(packets)} packets, {len(bad)} bad")
    return 1 if bad or honest else 0


def _passes(packet: bytes, name: str) -> bool:
    """Whether a tampering is called genuine; one that changes nothing is no tampering and counts as passed."""
    altered = TAMPERINGS[name](packet)
    try:
        return altered == packet or verify(altered).genuine
    except BadInput:
        return False


if __name__ == "__main__":
    sys.exit(main(arguments(__doc__, Given("packet", [], "PDF packets; without any, two of the samples")).packet))
