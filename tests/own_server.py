"""What it takes to start a PostgreSQL server of one's own."""

from __future__ import annotations

import os
import pwd
import shutil
import socket
from contextlib import closing, suppress
from pathlib import Path

import pytest


def binaries() -> Path | None:
    """The folder of PostgreSQL's programs, the newest where there are several."""
    found = shutil.which("initdb")
    if found:
        return Path(found).resolve().parent
    return max(Path("/usr/lib/postgresql").glob("*/bin"), default=None, key=lambda path: float(path.parent.name))


def as_nobody_special() -> dict[str, object]:
    """How to start the server: it refuses to run as root."""
    if os.geteuid() != 0:
        return {}
    for name in ("postgres", "nobody"):
        with suppress(KeyError):
            user = pwd.getpwnam(name)
            return {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}
    pytest.skip("PostgreSQL: tests run as root, and there is no user postgres or nobody to start a server as")


def free_port() -> int:
    with closing(socket.socket()) as waiting:
        waiting.bind(("127.0.0.1", 0))
        return waiting.getsockname()[1]


def quiet() -> dict[str, str]:
    """The environment without settings meant for another server."""
    return {name: value for name, value in os.environ.items() if not name.startswith("PG")} | {"LC_ALL": "C.UTF-8"}
