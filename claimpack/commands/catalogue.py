"""Every command by name, kept apart from the commands themselves, so that a run loads the one it needs."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, NamedTuple

from claimpack.commands.desk.wrapping import hanging
from claimpack.version import __version__

if TYPE_CHECKING:
    from claimpack.core.events.event_kinds import EventName


class Subcommand(NamedTuple):
    """One command: its name, where its function or family of commands lies, what it does, and the events it makes."""

    name: str
    place: str
    says: str
    makes: tuple[EventName, ...] = ()


GROUPS: tuple[tuple[str, tuple[Subcommand, ...]], ...] = (
    (
        "A claim folder alone, without a shop",
        (
            Subcommand("build", "folder.build:build", "Write a claim's packet, tags and data."),
            Subcommand("check", "folder.check:check", "Judge a claim, price it, name what is missing."),
            Subcommand("packet", "folder.packet:packet", "Write the PDF packet of a claim."),
            Subcommand("tag", "folder.tag:tag", "Write the tags of a claim's held parts."),
            Subcommand("form", "folder.form:form_app", "See a maker's own form, and fill it for a claim."),
            Subcommand("cover", "folder.cover:cover", "Answer whether a unit is covered."),
            Subcommand("verify", "folder.verify:verify", "Prove a packet against its own data."),
            Subcommand("start", "folder.start:start", "Make a claim folder by asking what it needs."),
        ),
    ),
    (
        "The counter",
        (
            Subcommand("open", "counter.open_claim:open_claim", "Take a unit in: by questions, or from options alone."),
            Subcommand("at-hand", "typed.at_hand:at_hand", "Choose the claim that is meant where CLAIM is left out."),
            Subcommand("show", "counter.show:show", "Show a claim on one screen."),
            Subcommand("list", "counter.list_claims:list_claims", "List claims, the latest first."),
            Subcommand("find", "counter.find:find", "Look claims up by number, serial, owner, phone, words."),
            Subcommand("edit", "counter.edit:edit", "Change a claim as text in your editor."),
            Subcommand("set", "counter.set_key:set_key", "Change single keys: set 26-0041 unit.hours 112.4."),
            Subcommand("note", "counter.note:note", "Write a note about a claim, to look at again on a day."),
            Subcommand("history", "counter.history:history", "Every change, with time, who and why."),
        ),
    ),
    (
        "The bench",
        (
            Subcommand("photo", "pictures.photo:photo_app", "Add pictures, mark them, sort a phone's worth by tag."),
            Subcommand("paper", "bench.paper:paper_app", "Add receipts and other papers, as PDF or picture."),
            Subcommand("finding", "bench.finding:finding_app", "Write down what was measured."),
            Subcommand("part", "bench.part:part_app", "Write down parts used, and failed parts that are kept."),
            Subcommand(
                "finish",
                "bench.finish:finish",
                "Write up a finished repair: by questions, or from options alone.",
            ),
            Subcommand("labour", "bench.labour:labour_app", "Clock labour, or write it down."),
            Subcommand("extra", "bench.extra:extra_app", "Write down freight, outside work, travel."),
        ),
    ),
    (
        "Filing and money",
        (
            Subcommand("campaign", "cases.campaign:campaign_app", "Find units in makers' campaigns."),
            Subcommand(
                "approval", "cases.approval:approval_app", "Ask the maker before the repair; record its answer."
            ),
            Subcommand("file", "money.file:file", "File a claim: freeze its packet, start its dates.", ("filed",)),
            Subcommand(
                "received", "money.received:received", "Note the day the maker received a claim.", ("received",)
            ),
            Subcommand(
                "answer", "money.answer:answer", "Record the maker's answer to a claim.", ("answered", "answer undone")
            ),
            Subcommand(
                "pay",
                "money.pay:pay",
                "Record a payment, or money taken back.",
                ("paid", "charged back", "payment undone"),
            ),
            Subcommand(
                "statement",
                "money.statement:statement",
                "Book a maker's statement, which pays many claims at once.",
            ),
            Subcommand(
                "write-off", "money.write_off:write_off", "Write off what is outstanding or refused.", ("written off",)
            ),
            Subcommand("withdraw", "money.write_off:withdraw", "Take a claim back before it is paid.", ("withdrawn",)),
            Subcommand(
                "reopen", "money.write_off:reopen", "Take a withdrawn or written-off claim up again.", ("reopened",)
            ),
        ),
    ),
    (
        "Monday morning",
        (
            Subcommand("pending", "manager.pending:pending", "List what is filed and unpaid, what to do first on top."),
            Subcommand(
                "chase",
                "manager.chase:chase",
                "Write a letter: answers or payments are late, or one is contested.",
                ("chased",),
            ),
            Subcommand("due", "manager.due:due", "List what must be done by when, and what was missed."),
            Subcommand("hold", "manager.hold:hold_app", "Failed parts kept for the maker: find, send, let go."),
            Subcommand("audit", "auditing.audit:audit_app", "Find what an auditor would ask about; draw a sample."),
            Subcommand("report", "manager.report:report", "Write the manager's report: page, PDF, lists."),
        ),
    ),
    (
        "The shop",
        (
            Subcommand("shop", "shop.shop:shop_app", "Make a shop's folder, look at it, verify its book."),
            Subcommand(
                "import",
                "exchange.import_:import_",
                "Take claim folders, lists of claims, or an archive into the book.",
            ),
            Subcommand("export", "exchange.export:export", "Write claims out: folders, a list, or everything."),
            Subcommand("plan", "plans.plan:plan_app", "Write coverage plans, look them over, try them."),
            Subcommand("schema", "plans.schema:schema", "Print the schema that editors check a file against."),
            Subcommand("guide", "guide:guide", "Read the guide of a role: writer, technician, manager."),
            Subcommand("help", "help:help_of", "Show how a command is used, or write the manual page."),
        ),
    ),
)
"""The commands, grouped as a day goes."""

COMMANDS: tuple[Subcommand, ...] = tuple(listed for _, group in GROUPS for listed in group)
"""The commands, in the order the help shows them."""

ABOUT = (
    "Warranty claims for a repair shop: an explained verdict, a priced claim, a PDF packet and a tag for the held part."
)

EXITS = "Exit codes: 0 yes or done, 2 bad input, 3 the answer is no, 4 cannot say yet, 1 a fault of the program."

_OPTIONS = (
    ("--version", "Show the version."),
    ("--shop DIR", "With any command: work in this shop."),
    ("--all-shops", "With any command: every shop in the book."),
    ("--quiet", "With any command: only answers and errors."),
    ("--no-pager", "With any command: do not page a long answer."),
    ("--install-completion", "Teach this shell to complete commands; or name it: bash, zsh, fish, pwsh."),
    ("--show-completion", "Show what would teach it."),
    ("-h, --help", "Show this, or with a command what it takes."),
)


def events_of(listed: Subcommand) -> tuple[str, ...]:
    """The events that a command makes, each with the states it follows from."""
    if not listed.makes:
        return ()
    from claimpack.core.events.event_kinds import EVENT_KINDS, from_where

    return tuple(from_where(EVENT_KINDS[kind]) for kind in listed.makes)


def quick_answer(arguments: list[str]) -> str | None:
    """The answer to a run that asks for no command: the overview, or the version; None where there is a command."""
    if arguments in ([], ["--help"], ["-h"], ["help"]):
        return overview()
    return f"claimpack {__version__}" if arguments == ["--version"] else None


def overview() -> str:
    """What there is, by the hour of the day."""
    import shutil

    width = max(60, min(shutil.get_terminal_size((100, 24)).columns, 100))
    lines = ["Usage: claimpack COMMAND [OPTIONS]", "", *textwrap.wrap(ABOUT, width)]
    for title, group in GROUPS:
        lines += ["", f"{title}:", *(hanging(f"  {listed.name:<10} ", listed.says, width) for listed in group)]
    lines += ["", "Options:", *(hanging(f"  {option:<21} ", says, width) for option, says in _OPTIONS)]
    return "\n".join([*lines, "", *textwrap.wrap(EXITS, width)])


_LONG = frozenset(
    (
        *("show", "list", "find", "history", "check", "pending", "due", "audit", "schema", "help", "guide"),
        *("plan keys", "plan list", "plan try", "plan diff", "hold list", "hold find", "campaign list"),
    )
)


def may_be_long(arguments: list[str]) -> bool:
    """Whether the answer may be longer than a screen, and asks nothing on the way: lists, a claim told whole.

    A command's own help sees to itself: its words may as well be the value of an option.
    """
    if not arguments or arguments[0] in ("--help", "-h"):
        return True
    words = [argument for argument in arguments if not argument.startswith("-")]
    return "--json" not in arguments and bool({" ".join(words[:1]), " ".join(words[:2])} & _LONG)


def wanted(arguments: list[str]) -> tuple[Subcommand, ...]:
    """The command a run needs loaded; every one for its help, or where a near one is to be suggested."""
    name = next((argument for argument in arguments if not argument.startswith("-")), "")
    found = tuple(listed for listed in COMMANDS if listed.name == name)
    return found if found and name != "help" else COMMANDS
