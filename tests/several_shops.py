"""Two shops that share one book: Ashby in Texas, and Hollis in Minnesota, whose folder Ashby's settings name."""

from __future__ import annotations

from pathlib import Path

from made_once import made_once
from manager_shop import filed_in, open_in
from running import claimpack

SHOPS = (("ashby", "A", "us-tx"), ("hollis", "H", "us-mn"))


@made_once
def two_shops(place: Path) -> Path:
    """The folder of both: each has a draft and a claim filed on 2 January, A-1 and A-2, H-1 and H-2."""
    for shop, letter, terms in SHOPS:
        how = ("--id", shop, "--numbers", letter, "--book", "claims.sqlite", "--terms", terms, "--currency", "USD")
        claimpack("shop", "init", shop, "--name", shop.title(), *how, folder=place)
        open_in(place / shop, f"{letter}-1")
        filed_in(place / shop, f"{letter}-2", received="2026-01-02")
    with (place / "ashby" / "shop.toml").open("r+") as settings:
        told = settings.read()
        settings.seek(0)
        settings.write(f'shops = {{hollis = "../hollis"}}\n{told}')
    return place
