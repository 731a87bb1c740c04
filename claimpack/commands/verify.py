"""`claimpack verify`: a packet against its own data and hashes."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claimpack.commands.options import Json


def verify(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The packet.")],
    originals: Annotated[
        Path | None, typer.Option("--originals", metavar="FOLDER", help="Also compare the claim folder's files.")
    ] = None,
    json: Json = False,
) -> int:
    """Prove a packet against its own data.

    Names what was altered since it was made.
    """
    from claimpack.commands.say import Say
    from claimpack.packet.verify import verify as verified

    world, say = context.obj, Say(context.obj)
    result = verified(world.path(file), originals=world.path(originals) if originals else None)
    if json:
        say.document(result.as_json())
        return 0 if result.genuine else 3
    style, word = ("good", "GENUINE") if result.genuine else ("bad", "ALTERED")
    say.answer(f"{say.styled(word, style)}  claim {result.claim}, {result.pages} pages, {result.files} files compared")
    say.answer(f"  SHA-256 of the packet: {result.sha256}")
    for problem in result.problems:
        say.item(say.mark("fail"), str(problem))
    say.note(
        "Hashes inside a packet prove that it is consistent, not who made it: compare its SHA-256 with your record."
    )
    return 0 if result.genuine else 3
