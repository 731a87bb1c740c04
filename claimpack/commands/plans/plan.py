"""`claimpack plan`: coverage plans begun, looked over and tried; terms, layouts and stocks looked over."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context, Family
from claimpack.commands.plans.plan_diff import diff
from claimpack.commands.plans.plan_keys import keys
from claimpack.commands.plans.plan_start import start_plan
from claimpack.commands.plans.plan_try import try_
from claimpack.template_files import Places, templates

plan_app = Family(help="Write coverage plans, look them over, try them.")
"""The commands about templates."""


@plan_app.command("check")
def check_plans(
    context: Context,
    files: Annotated[list[Path], Argument(metavar="FILE…", help="Files to look over.")],
    json: Json = False,
) -> int:
    """Name everything wrong or doubtful in coverage plans, terms, layouts and stocks."""
    from claimpack.commands.desk.named_files import read_from
    from claimpack.commands.desk.say import Say
    from claimpack.commands.plans.looking_over import problems_among

    world = context.obj
    say = Say(world)
    read = {str(file): read_from(world, file) for file in files}
    # the files may name each other, as a layout does that is like another
    places = Places(named=tuple(dict.fromkeys(path.parent for path in read.values())))
    found = {file: problems_among(path, places) for file, path in read.items()}
    if json:
        say.document({"files": [{"file": file, "problems": problems} for file, problems in found.items()]})
    for file, problems in found.items() if not json else ():
        say.item(say.mark("fail" if problems else "pass"), file, indent=0)
        for problem in problems:
            say.item("·", problem)
    return 3 if any(found.values()) else 0


@plan_app.command("list")
def list_templates(context: Context, json: Json = False) -> int:
    """List the plans, terms, layouts and stocks within reach, and where each lies."""
    from claimpack.commands.desk.gather import the_shop
    from claimpack.commands.desk.say import Say
    from claimpack.template_files import KINDS

    places = Places(shop=the_shop(context.obj).folder)
    found = {kind: templates(kind, places) for kind in KINDS}
    say = Say(context.obj)
    if json:
        say.document({kind: {name: str(entry.path) for name, entry in by_id.items()} for kind, by_id in found.items()})
        return 0
    for kind, by_id in found.items():
        say.heading(kind)
        say.table([(name, str(entry.keys.get("name", ""))) for name, entry in sorted(by_id.items())])
    return 0


plan_app.command("keys")(keys)
plan_app.command("try")(try_)
plan_app.command("start")(start_plan)
plan_app.command("diff")(diff)
