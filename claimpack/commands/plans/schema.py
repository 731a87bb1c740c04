"""`claimpack schema`: what editors need to check a file and complete its keys."""

from __future__ import annotations

from typing import Annotated

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context


def schema(
    context: Context,
    kind: Annotated[
        str, Argument(metavar="KIND", help="plan, statute, campaign, terms, claim, shop, layout, stock, form, answer.")
    ],
    json: Json = False,  # noqa: ARG001 -- it is JSON either way
) -> int:
    """Print the schema that editors check a file against.

    It is the file's JSON Schema. A shop has them all in its folder schema/, and each template names its own on its
    first line. Of "answer" it is that of what commands answer under --json, each by its words.
    """
    from claimpack.commands.desk.say import Say
    from claimpack.folder.file_kinds import schema_of

    Say(context.obj).content(schema_of(kind).encode())
    return 0
