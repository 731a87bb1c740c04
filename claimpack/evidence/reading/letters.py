"""The letters and digits in a picture, read line by line; its models come with the library, and nothing is fetched."""

from __future__ import annotations

import logging
import os
from functools import cache
from importlib.util import find_spec
from typing import Any

from PIL import Image

from claimpack.core.reading.read_text import TextRead
from claimpack.errors import NotInstalled
from claimpack.evidence.reading.codes import spot_around
from claimpack.installed import install_command

LIBRARIES = "rapidocr onnxruntime pypdfium2"
"""What the extra `read` brings, as the registry names it."""

_FOR_PAPERS = "pypdfium2"
# Lines are looked for in a picture of this edge, and read in the larger one.
_EDGE_TO_FIND = 960
_LEAST_SURE = 0.5


def can_read_letters() -> bool:
    """Whether this copy has what it takes to read letters."""
    return all(find_spec(module) is not None for module in LIBRARIES.split())


def must_read_letters() -> None:
    """Refuse to go on where letters in pictures cannot be read.

    Raises:
        NotInstalled: they cannot.
    """
    if not can_read_letters():
        raise _not_installed("letters in pictures")


def must_read_papers() -> None:
    """Refuse to go on where the text of a PDF cannot be read.

    Raises:
        NotInstalled: it cannot.
    """
    if find_spec(_FOR_PAPERS) is None:
        raise _not_installed("the text of a PDF")


def _not_installed(what: str) -> NotInstalled:
    return NotInstalled(
        f"{what} cannot be read: this copy lacks the reader for it",
        "Bar codes and QR codes are read without it: claimpack photo read CLAIM",
        f"Add it: {install_command(LIBRARIES)}",
    )


def no_letters() -> str:
    """What to say where letters cannot be read: codes alone are, and what would add the rest to this copy."""
    return f"Letters in pictures are not read here, codes alone; to have them read: {install_command(LIBRARIES)}"


def letters_in(picture: Image.Image) -> list[TextRead]:
    """The lines of a picture held upright, from the top, as far as they were read with some certainty."""
    # A thread of the libraries for each processor would fill the address space this process may have.
    os.environ.update(dict.fromkeys(("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"), "1"))
    import cv2
    import numpy as np

    cv2.setNumThreads(1)

    # the library wants blue first
    found = _engine()(np.ascontiguousarray(np.asarray(picture.convert("RGB"))[:, :, ::-1]))
    lines = zip(found.boxes, found.txts, found.scores, strict=True) if found.txts else ()
    return [
        TextRead(
            text, "letters", spot_around([(float(x), float(y)) for x, y in box], picture.size), round(score * 1000)
        )
        for box, text, score in lines
        if text.strip()
    ]


@cache
def _engine() -> Any:
    """The reader, on one thread: the process it runs in is bounded, and others work beside it."""
    logging.getLogger("RapidOCR").setLevel(logging.CRITICAL)
    from rapidocr import RapidOCR

    threads = {f"EngineConfig.onnxruntime.{kind}_op_num_threads": 1 for kind in ("intra", "inter")}
    found = {"Det.limit_type": "max", "Det.limit_side_len": _EDGE_TO_FIND, "Global.max_side_len": 4000}
    return RapidOCR(params={**threads, **found, "Global.text_score": _LEAST_SURE, "Global.log_level": "critical"})
