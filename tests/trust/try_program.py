"""How many changed inputs break the installed program: `python tests/trust/try_program.py [COUNT [SEED]]`.

Every input is handed to a process of its own, as a user would. Bad is exit code 1 or one the program does not have, a
traceback, or more than 60 seconds.
"""

from __future__ import annotations

import random
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments
from mutations import READERS, SAMPLES, mutated

CLAIMPACK = (sys.executable, "-m", "claimpack")
MOST_SECONDS = 60
WAYS = {
    "claim.toml": ("claim/claim.toml", ("check", "claim")),
    "a plan": ("plan.toml", ("plan", "check", "plan.toml")),
    "a plan in force": ("plan.toml", ("check", "claim", "--plans", "plan.toml")),
    "terms": ("terms.toml", ("plan", "check", "terms.toml")),
    "a layout": ("layout.toml", ("plan", "check", "layout.toml")),
    "a stock": ("stock.toml", ("plan", "check", "stock.toml")),
    "shop.toml": ("shop/shop.toml", ("-shop", "pending")),
    "an archive": ("book.zip", ("-shop", "import", "../book.zip")),
    "a paper": ("claim/papers/receipt.pdf", ("packet", "claim", "--out", "packet.pdf")),
    "a packet": ("sent.pdf", ("verify", "sent.pdf")),
    **{
        f"a picture in {kind}": ("claim/{photo}", ("build", "claim", "--out", "out"))
        for kind in ("JPEG", "PNG", "HEIF")
    },
}
"""The file that a changed input becomes, and the command that reads it; -shop: run inside the shop."""


def main(count: int, seed: int) -> int:
    """Try them all; 1 where one was bad."""
    chance, bad = random.Random(seed), []
    with tempfile.TemporaryDirectory() as temporary:
        sound = Path(temporary) / "sound"
        shutil.copytree(SAMPLES / "26-0041-short-block", sound / "claim")
        subprocess.run([*CLAIMPACK, "shop", "init", "shop", "--name", "Quarry Road"], cwd=sound, check=True)
        photo = next(path for path in sorted((sound / "claim" / "photos").iterdir())).relative_to(sound / "claim")
        for number in range(count):
            name = list(WAYS)[number % len(WAYS)]
            content = mutated(chance.choice(READERS[name].sound()), chance)
            place = Path(temporary) / "tried"
            shutil.copytree(sound, place)
            file, command = WAYS[name]
            (place / file.format(photo=photo)).write_bytes(content)
            what = _tried(command, place)
            if what:
                bad.append(content)
                print(f"  {name}: {what}", flush=True)
            shutil.rmtree(place)
    print(f"{count} tried, {len(bad)} bad; seed {seed}")
    return 1 if bad else 0


def _tried(command: tuple[str, ...], place: Path) -> str:
    folder = place / "shop" if command[0] == "-shop" else place
    run = [*CLAIMPACK, *(word for word in command if word != "-shop")]
    try:
        done = subprocess.run(run, cwd=folder, capture_output=True, timeout=MOST_SECONDS, check=False)
    except subprocess.TimeoutExpired:
        return f"more than {MOST_SECONDS} s"
    if done.returncode in (0, 2, 3, 4) and b"Traceback" not in done.stderr:
        return ""
    return f"exit {done.returncode}: {done.stderr.decode(errors='replace')[-300:]}"


if __name__ == "__main__":
    SAID = arguments(
        __doc__, Given("count", 500, "how many inputs"), Given("seed", 1, "of the chance they are changed by")
    )
    sys.exit(main(SAID.count, SAID.seed))
