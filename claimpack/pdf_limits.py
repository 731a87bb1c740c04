"""PDFs that anybody may have made, opened with a ceiling on what their streams may swell to."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import pikepdf

LARGEST_STREAM = 256 << 20
"""Bytes of one stream without its compression."""

# Bytes of one row of pixels before its filter is undone.
_LARGEST_ROW = 64 << 20
# Each filter may swell what the one before it gave; printed papers use one or two.
_MOST_FILTERS = 4
# As for photos: every pass is decoded over the whole picture.
_MOST_SCANS = 64


def open_within_limits(content: bytes, **options: Any) -> pikepdf.Pdf:
    """A PDF to be read, opened with pikepdf's own options.

    Raises:
        pikepdf.PasswordError: it needs a password.
        pikepdf.PdfError: it is damaged, or swells beyond the limits.
    """
    _set_limits()
    return pikepdf.open(io.BytesIO(content), suppress_warnings=True, **options)


@cache
def _set_limits() -> None:
    # The limits belong to the whole process. Content is never cut short at some number of errors: it is all or none.
    pikepdf.settings.set_qpdf_limits(
        parser_max_errors=0,
        max_stream_filters=_MOST_FILTERS,
        flate_max_memory=LARGEST_STREAM,
        run_length_max_memory=LARGEST_STREAM,
        dct_max_memory=LARGEST_STREAM,
        dct_max_progressive_scans=_MOST_SCANS,
        png_max_memory=_LARGEST_ROW,
        tiff_max_memory=_LARGEST_ROW,
    )
