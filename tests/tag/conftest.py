from __future__ import annotations

import tomllib
from datetime import date
from decimal import Decimal
from io import BytesIO
from pathlib import Path

import pypdfium2
import pytest

from claimpack.core.holding.cautions import cautions_for
from claimpack.core.holding.tags import TagFacts
from claimpack.tag.stock import stock_from

STOCKS = Path(__file__).parents[2] / "templates" / "tag"
ALL = sorted(path.stem for path in STOCKS.glob("*.toml"))

SHORT = {
    "claim": "26-0041",
    "place": 1,
    "of": 3,
    "maker": "Halden",
    "model": "CS-70",
    "serial": "HC70-118-20417",
    "part": "short block",
    "part_number": "H70-4410",
    "part_serial": "E70-55102",
    "failed_on": date(2026, 2, 2),
    "held_since": date(2026, 2, 24),
    "hold_until": date(2026, 6, 8),
    "hold_terms": "90 days from the day it is filed, or until the maker releases it",
    "shelf": "B3",
    "boxed": True,
    "drained": True,
    "hazard": "fuel",
    "cautions": cautions_for("fuel"),
}
LONG = SHORT | {
    "claim": "QRSE-ASHBY-2026-WA-00413",
    "place": 12,
    "of": 12,
    "maker": "Orrin & Vale Ride-on Mowers and Generators",
    "model": "RX-1250 ΑΒΓ профи",
    "serial": "OV-RX1250-2025-0000-ÉÀÜ",
    "part": "Twin-cylinder short block with crankshaft, pistons, oil pump and governor gear, complete",
    "part_number": "OV-778-44120-000-REV-C",
    "part_serial": "E70-55102-XXXX-000012345",
    "hold_until": None,
    "shelf": "Rack 12, level B, bin 03",
    "drained": None,
}
BARE = SHORT | {
    "model": "",
    "serial": "",
    "part_number": "",
    "part_serial": "",
    "failed_on": None,
    "held_since": None,
    "hold_until": None,
    "hold_terms": "",
    "shelf": "",
    "boxed": False,
    "drained": None,
    "hazard": "none",
    "cautions": cautions_for("none"),
}


@pytest.fixture
def a_tag():
    """Builder of a tag that says little."""
    return lambda **changes: TagFacts(**SHORT | changes)


@pytest.fixture
def a_long_tag():
    """Builder of a tag that says as much as a shop could."""
    return lambda **changes: TagFacts(**LONG | changes)


@pytest.fixture
def a_bare_tag():
    """Builder of a tag of a claim that knows next to nothing."""
    return lambda **changes: TagFacts(**BARE | changes)


@pytest.fixture
def stock_data():
    """The content of a shipped stock file, to be changed."""
    return lambda name: tomllib.loads((STOCKS / f"{name}.toml").read_text(encoding="utf-8"), parse_float=Decimal)


@pytest.fixture
def a_stock(stock_data):
    """A shipped stock by its id."""
    return lambda name: stock_from(stock_data(name), f"{name}.toml")


@pytest.fixture(params=ALL)
def stock(request, a_stock):
    """Each shipped stock in turn."""
    return a_stock(request.param)


@pytest.fixture
def seen():
    """The first page of a PDF as a picture of so many dots per inch."""
    return lambda content, dpi: pypdfium2.PdfDocument(BytesIO(content))[0].render(scale=dpi / 72).to_pil().convert("L")
