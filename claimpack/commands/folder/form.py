"""`claimpack form`: a maker's own form looked into, and filled for a claim."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import ClaimArgument, Json, Plans, Today
from claimpack.commands.line.declared import Argument, Context, Family, Option

if TYPE_CHECKING:
    from claimpack.commands.folder.form_filling import FormMade
    from claimpack.forms.fields import FormField

form_app = Family(help="See a maker's own form, and fill it for a claim.")
"""The commands about makers' own forms."""


@form_app.command("fields")
def fields(
    context: Context,
    file: Annotated[Path, Argument(metavar="FILE", help="The maker's PDF; - for standard input.")],
    json: Json = False,
) -> int:
    """List the fields of a fillable PDF: name, kind, page, most characters, options."""
    from claimpack.commands.desk.named_files import read_from
    from claimpack.commands.desk.say import Say
    from claimpack.file_contents import read_bytes
    from claimpack.forms.fields import fields_of

    say = Say(context.obj)
    found = fields_of(read_bytes(read_from(context.obj, file)), str(file))
    if json:
        say.document({"pages": len(found.sizes), "fields": [_as_json(each) for each in found.fields]})
        return 0
    say.table(
        [(each.name, each.kind, f"page {each.page}" if each.page else "", _limits(each)) for each in found.fields]
    )
    if not found.fields:
        say.note("It has no fields. Give each text a place on its page, as templates/forms/orrin-vale-112.toml does.")
    return 0


def _as_json(field: FormField) -> dict[str, object]:
    return {
        "name": field.name,
        "kind": field.kind,
        "page": field.page or None,
        "most": field.most or None,
        "comb": field.comb,
        "lines": field.lines,
        "options": list(field.options),
        "required": field.required,
    }


def _limits(field: FormField) -> str:
    most = f"{field.most} {'boxes' if field.comb else 'characters at most'}" if field.most else ""
    several = "several lines" if field.lines else ""
    return ", ".join(told for told in (most, several, " | ".join(field.options)) if told)


@form_app.command("fill")
def fill(
    context: Context,
    claim: ClaimArgument,
    form: Annotated[
        str,
        Option("--form", metavar="ID", help="An id, or a file; default: the maker's in shop.toml."),
    ] = "",
    out: Annotated[
        Path | None, Option("--out", metavar="FILE", help="The PDF to write; default: NUMBER-ID.pdf.")
    ] = None,
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Fill a maker's own form for a claim; what nobody said stays empty."""
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.desk.named_files import answering_beside, ending_of, write_named
    from claimpack.commands.desk.say import Say
    from claimpack.commands.folder.form_filling import fill_form, form_by_setting
    from claimpack.errors import NotFound

    ending_of(out, (".pdf",), "A form is a PDF, and under another name nobody would take it for one.")
    say = Say(answering_beside(context.obj, out, json))
    case = gather(context.obj, claim, plans, today)
    number, wanted = case.assessment.claim.number, form or form_by_setting(case)
    if not wanted:
        raise NotFound(
            f"claim {number}: no form of {case.assessment.maker_name} is named",
            "Which form a maker takes stands under [maker_forms] in shop.toml.",
            "Name one with --form ID; see them: claimpack plan list",
        )
    made = fill_form(case, wanted)
    path = context.obj.path(out or f"{number}-{made.id}.pdf")
    write_named(context.obj, path, made.pdf)
    if json:
        told = {"sheets": made.sheets, "empty": list(made.empty), "notes": list(made.notes)}
        say.document({"claim": number, "form": made.id, "file": str(path), **told})
    else:
        say.path(path)
    for note in _notes(made):
        say.note(note)
    return case.assessment.exit_code


def _notes(made: FormMade) -> list[str]:
    empty = f"Left empty, for the claim does not say it: {', '.join(made.empty)}." if made.empty else ""
    sheets = f"The lines of the claim take {made.sheets} sheets of it." if made.sheets > 1 else ""
    return [note for note in (*made.notes, sheets, empty) if note]
