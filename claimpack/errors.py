"""Every failure a user can meet, in one tree.

ClaimpackError            exit 2
├── BadInput              a file, key or value that has no meaning
├── NotFound              a file, claim or template that is not there
├── CannotWrite           the answer could not be put where it was wanted
├── AlreadyChanged        somebody else changed it first
├── WrongState            the step does not follow from where the claim or part stands
└── NotInstalled          a part of the program that this machine lacks
"""

from __future__ import annotations


class ClaimpackError(Exception):
    """Something the user can put right.

    Args:
        what: what is wrong: file, key, value.
        why: why that is a problem.
        do: what to do about it.
        problems: further problems of the same input, one line each.
    """

    exit_code = 2

    def __init__(self, what: str, why: str = "", do: str = "", problems: tuple[str, ...] = ()) -> None:
        super().__init__(what)
        self.what = what
        self.why = why
        self.do = do
        self.problems = problems

    def lines(self) -> list[str]:
        """The message, a part a line: what, every further problem, why, what to do."""
        return [line for line in (self.what, *self.problems, self.why, self.do) if line]


class BadInput(ClaimpackError):
    """A file, key or value that has no meaning."""


class NotFound(ClaimpackError):
    """A file, claim or template that is not there."""


class CannotWrite(ClaimpackError):
    """The answer could not be put where it was wanted."""


class AlreadyChanged(ClaimpackError):
    """Somebody else changed it first."""


class WrongState(ClaimpackError):
    """The step does not follow from where the claim or part stands."""


class NotInstalled(ClaimpackError):
    """A part of the program that this machine lacks."""
