"""What can go wrong around a description, as opposed to in it: each kind with its exit status."""

ALL_WELL, MISTAKES, USAGE, FAULT, INTERRUPTED = 0, 1, 2, 3, 130


class CommandError(Exception):
    """A wrong command or option, or a file that cannot be read or written: printed as one line, status `USAGE`.

    `message` is the line, not made safe for a terminal yet; `hint` is what to do, where one can be known.
    """

    def __init__(self, message: str, hint: str | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


def reason(error: OSError | ValueError) -> str:
    """Why the system refused, in its own words ("No such file or directory")."""
    if isinstance(error, OSError):
        return error.strerror or type(error).__name__
    return "the name cannot be a file's"
