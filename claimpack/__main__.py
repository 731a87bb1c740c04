"""The program: the one place from an exception to a message and an exit code."""

from __future__ import annotations

import errno
import gc
import os
import sys
from collections.abc import Sequence
from contextlib import nullcontext
from typing import TYPE_CHECKING

from claimpack.errors import BadInput, CannotWrite, ClaimpackError

if TYPE_CHECKING:
    from types import TracebackType

    from claimpack.commands.desk.world import World

# New objects between two looks for cycles of garbage; importing alone makes some hundred thousand.
_CYCLES_LOOKED_FOR_EVERY = 100_000


def main(arguments: Sequence[str] | None = None) -> None:
    """Run claimpack and leave with its exit code.

    pydantic would look through every package installed beside claimpack for plugins; it has none, so it need not.
    """
    from claimpack.commands.desk.world import World

    sys.excepthook = _told_without_passwords
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    gc.set_threshold(_CYCLES_LOOKED_FOR_EVERY)
    code = run(sys.argv[1:] if arguments is None else arguments, World())
    _drop_what_is_left()
    # Taking apart at the end what the system takes back whole is a tenth of a short run.
    gc.freeze()
    sys.exit(code)


def _told_without_passwords(kind: type[BaseException], fault: BaseException, trace: TracebackType | None) -> None:
    """What --debug shows of a fault: errors of a database may quote its whole address."""
    import traceback

    from claimpack.core.values.passwords import without_password

    sys.stderr.write(without_password("".join(traceback.format_exception(kind, fault, trace))))


def run(arguments: Sequence[str], world: object) -> int:
    """The exit code of one run in a world.

    0 yes or done, 1 a fault of the program, 2 bad input or usage, 3 the answer is no, 4 cannot say yet, 130 stopped.
    """
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.commands.typed.everywhere import in_world, taken_out

    if not isinstance(world, World):
        raise TypeError("a run needs a World to run in")
    typed = taken_out(arguments)
    say = Say(world)
    try:
        with world.closing:
            return _answered(typed.arguments, in_world(world, typed))
    except ClaimpackError as error:
        if typed.debug:
            raise
        say.error(error, json=typed.as_json)
        return error.exit_code
    except KeyboardInterrupt:
        say.note("\nStopped; nothing half done was left.")
        return 130
    # `claimpack list | head` has all it wanted.
    except BrokenPipeError:
        return 0
    except Exception as fault:
        if typed.debug:
            raise
        refused = _refused(fault, arguments)
        if refused:
            say.error(refused, json=typed.as_json)
            return refused.exit_code
        told = f"a fault of the program: {type(fault).__name__}: {fault}"
        say.note(f"claimpack: {told}")
        say.note("  Nothing half done was left. Run it again with --debug to see where.")
        if typed.as_json:
            say.failure("fault", (told, "", "Run it again with --debug to see where."), 1)
        return 1


def _refused(fault: Exception, arguments: Sequence[str]) -> ClaimpackError | None:
    """What to tell where a folder, the book or what was typed is at fault rather than the program, or None."""
    # A folder that may not be read is nothing that is wrong with the program.
    if isinstance(fault, OSError) and isinstance(fault.filename, str):
        do = "Check the name, and who may read and write there."
        return BadInput(f"{fault.filename} cannot be used", str(fault.strerror or fault), do)
    # what is laid down between two steps lies in files without a name
    if isinstance(fault, OSError) and fault.errno in (errno.ENOSPC, errno.EDQUOT):
        do = "Make room, in the folder of temporary files too (TMPDIR), then try again."
        return CannotWrite("there is no room left to write what the work needs", str(fault.strerror), do)
    if isinstance(fault, UnicodeEncodeError) and any("\udc80" <= mark <= "\udcff" for mark in "".join(arguments)):
        return BadInput(
            "what was typed holds bytes that are no text",
            "Claims, words and dates are text in UTF-8.",
            "Type it again, or give the file another name.",
        )
    engines = sys.modules.get("claimpack.book.database.engines")
    return engines.fault(fault) if engines else None


def _drop_what_is_left() -> None:
    """Let go of an answer that cannot be written, which Python would try to write once more at the end."""
    if sys.stdout is None:
        return
    try:
        sys.stdout.flush()
    except OSError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _answered(arguments: list[str], world: World) -> int:
    from claimpack.commands.catalogue import may_be_long, quick_answer
    from claimpack.commands.desk.paged import paged
    from claimpack.commands.desk.say import Say

    answer, code = quick_answer(arguments), 0
    with paged(world) if may_be_long(arguments) else nullcontext(world) as shown:
        if answer is not None and "_CLAIMPACK_COMPLETE" not in world.environ:
            Say(shown).answer(answer)
        else:
            code = _invoke(arguments, shown)
    Say(world).finish()
    return code


def _invoke(arguments: list[str], world: World) -> int:
    from claimpack.commands.app import invoke

    return invoke(arguments, world)


if __name__ == "__main__":
    main()
