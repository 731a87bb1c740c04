"""Whole commands killed at random moments: whatever was answered is kept, and nothing is half done.

Each round starts one command in a process of its own and kills it within the time it takes, sometimes after. Bad is a
book or a file that is not whole afterwards, a change that was answered and is gone, and a claim half changed. Run by
hand: python tests/trust/try_kills.py [KILLS]
"""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments
from claim_folders import a_folder
from running import claimpack
from shops_with_claims import a_shop_with, numbered

KILLS = 300
BATCH = 20
FACTS = ("--because", "killed")


class Shop:
    """A shop whose commands are killed, and what it answered."""

    def __init__(self, place: Path, seed: int) -> None:
        self.place, self.folder, self.chance = place, a_shop_with(place), random.Random(seed)
        self.numbers = ["26-0001"]
        self.answered: dict[str, str] = {}

    def commands(self, turn: int) -> tuple[tuple[str, ...], ...]:
        """What may be run at a turn, each as a shop would."""
        number = self.chance.choice(self.numbers)
        new = f"27-{turn:04}"
        a_folder(self.place / "more" / new, numbered(new))
        picture = next((self.place / "more" / new / "photos").iterdir())
        return (
            ("set", number, "failure.complaint", f"said at turn {turn}"),
            ("import", str(self.place / "more" / new)),
            ("photo", "add", number, str(picture)),
            ("photo", "remove", number, "1"),
            ("file", number, "--on", "2026-02-25", "--anyway", "asked for", "--out", str(self.place / "p.pdf")),
            ("answer", number, "accepted", "--on", "2026-02-26"),
            ("pay", number, "10.00", "--on", "2026-02-27"),
            ("shop", "backup", str(self.place / "b.zip"), "--replace"),
            ("shop", "forget", number, "--photo", "1", *FACTS),
            ("shop", "forget", number, "--owner", *FACTS),
            ("export", "--everything", str(self.place / "e.zip"), "--replace"),
            ("report", "--out", str(self.place / "r"), "--html"),
        )

    def kill(self, turn: int) -> str:
        """Run a command, kill it at a random moment, and look at what is left; what is bad, or how it ended."""
        commands = self.commands(turn)
        arguments = commands[turn % len(commands)]
        started = subprocess.Popen(
            [sys.executable, "-m", "claimpack", *arguments],
            cwd=self.folder,
            env={**os.environ, "CLAIMPACK_WHO": "ann"},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        time.sleep(self.chance.uniform(0.3, 2.4))
        ended = started.poll()
        if ended is None:
            started.send_signal(signal.SIGKILL)
        started.wait()
        if ended == 1:
            return f"bad: {' '.join(arguments)} ended with a fault"
        return self._left(arguments, done=ended == 0) or ("ended before" if ended is not None else "killed")

    def _left(self, arguments: tuple[str, ...], *, done: bool) -> str:
        proved = claimpack("shop", "verify", "--json", folder=self.folder)
        erasing = arguments[:2] == ("shop", "forget")
        if erasing and proved.code == 3:
            # Killed between vault and book, an erasure is asked for again; then everything must hold.
            again = claimpack(*arguments, folder=self.folder)
            proved = claimpack("shop", "verify", "--json", folder=self.folder)
            if again.code:
                return f"bad: {' '.join(arguments)} could not be taken up again: {again.err}"
        if proved.code:
            return f"bad: after {' '.join(arguments)}: {proved.json['problems'][:2]}"
        if arguments[0] == "set":
            if done:
                self.answered[arguments[1]] = arguments[3]
            told = claimpack("show", arguments[1], "--json", folder=self.folder).out
            known = self.answered.get(arguments[1], "")
            if done and arguments[3] not in told:
                return f"bad: {' '.join(arguments)} was answered, and is gone"
            if arguments[3] in told:
                self.answered[arguments[1]] = arguments[3]
            elif known and known not in told:
                return f"bad: {known!r} was answered, and is gone"
        self.numbers = [row["number"] for row in claimpack("list", "--json", folder=self.folder).json["claims"]]
        return ""


def main() -> int:
    """Kill, and print how many were tried and how many were bad."""
    count = arguments(__doc__, Given("kills", KILLS, "how many commands are killed")).kills
    taken = Counter[str]()
    for first in range(0, count, BATCH):
        with tempfile.TemporaryDirectory() as name:
            shop = Shop(Path(name), first)
            for turn in range(first, min(first + BATCH, count)):
                how = shop.kill(turn)
                taken[how] += 1
                if how.startswith("bad"):
                    print(how)
    bad = sum(number for how, number in taken.items() if how.startswith("bad"))
    print(f"kills of whole commands: {count} tried, {bad} bad; {dict(taken)}")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
