"""`claimpack schema`: what editors need to check a file and complete its keys."""

from __future__ import annotations

from typing import Annotated

import typer


def schema(
    context: typer.Context,
    kind: Annotated[str, typer.Argument(metavar="KIND", help="plan, statute, terms, claim, shop, layout or stock.")],
) -> int:
    """Print the JSON Schema of a kind of file, by which editors check it and complete its keys.

    A shop's folder has them all in schema/, and the first line of each template names its own.
    """
    from claimpack.commands.desk.say import Say
    from claimpack.file_kinds import schema_of

    Say(context.obj).content(schema_of(kind).encode())
    return 0
