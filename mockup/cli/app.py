"""The command `mockup`: the one place where a run ends, well or not.

Little is imported here, so that an interrupt is answered also while the rest is loading.
"""

from __future__ import annotations

import os
import signal
import sys
import traceback
from pathlib import Path

from mockup.cli import allocation, console, signals
from mockup.errors import ExitCode, InputError, LimitError, Mistake, MockupError, OutputError

TRACEBACK = "MOCKUP_TRACEBACK"
"""The environment variable that asks for the traceback of a fault of the program's own."""

_LOST = "the folder this is run in is gone, or may not be looked into; go to another, and try again"
_PACKAGE = Path(__file__).resolve().parent.parent


def main() -> None:
    """Runs the command line and ends the process with its exit code; nothing is raised past it.

    A mistake of the user's is a line a mistake on standard error, or with `--json` one document on
    standard output.
    """
    allocation.settle()
    console.prepare()
    code = _ended(sys.argv[1:])
    try:
        console.flush()
    except OutputError as error:
        code = _told(error.mistakes, error.exit_code, as_json=False)
    except console.ReaderGone:
        pass
    allocation.leave()
    sys.exit(int(code))


def _ended(arguments: list[str]) -> int:
    """Returns the exit code of a run, after telling why it did not go well."""
    try:
        signals.listen()
        _refuse_lost_folder()
        return _run(arguments)
    except console.ReaderGone:
        return ExitCode.DONE
    except (Exception, signals.Signalled, KeyboardInterrupt) as error:
        mistakes, code = _explained(error)
        return _told(mistakes, code, "--json" in arguments)


def _explained(error: BaseException) -> tuple[tuple[Mistake, ...], ExitCode]:
    """Returns what is told of an error that ended a run, and the exit code it ends with."""
    # What goes wrong after a signal comes of it: a worker that heard it too is gone, and Python
    # itself wraps what is raised while a class is being made.
    if signals.heard() is not None or isinstance(error, KeyboardInterrupt):
        terminated = signals.heard() not in (None, signal.SIGINT)
        word = "told to end" if terminated else "interrupted"
        code = ExitCode.TERMINATED if terminated else ExitCode.INTERRUPTED
        return (Mistake(f"{word}; no half-written file is left"),), code
    if isinstance(error, MockupError):
        return error.mistakes, error.exit_code
    if isinstance(error, MemoryError):
        told = "this machine has not the memory for it; ask for a smaller picture"
        return (Mistake(told),), LimitError.exit_code
    # The parser's own exceptions hide what ended the run.
    error = error.__cause__ if isinstance(error.__cause__, EOFError) else error
    if _is_of_loading(error):
        told = f"a part of this program cannot be loaded ({error}); install it again"
        return (Mistake(told),), ExitCode.SYSTEM
    if os.environ.get(TRACEBACK):
        traceback.print_exception(error)
    return (Mistake(_fault(error)),), ExitCode.FAULT


def _is_of_loading(error: BaseException) -> bool:
    """Returns whether a library is missing, or a program file ends too soon."""
    if isinstance(error, ImportError):
        return not (error.name or "").startswith(_PACKAGE.name)
    frames = traceback.extract_tb(error.__traceback__)
    cut = isinstance(error, EOFError) and bool(frames)
    return cut and frames[-1].filename.startswith("<frozen importlib")


def _refuse_lost_folder() -> None:
    """Raises InputError where the folder the command is called in was taken away: names are meant
    from there, and libraries look for it while they load."""
    try:
        Path.cwd()
    except OSError as error:
        raise InputError(_LOST) from error


def _run(arguments: list[str]) -> int:
    from mockup.cli.commands import run

    return run(arguments)


def _told(mistakes: tuple[Mistake, ...], code: ExitCode, as_json: bool) -> int:
    if as_json and console.can_answer():
        try:
            console.say_mistakes(mistakes, code)
            return code
        except (OutputError, console.ReaderGone):
            pass  # nobody reads it there; then as lines
    console.tell_mistakes(mistakes)
    return code


def _fault(error: BaseException) -> str:
    """Returns the one line of a fault: the exception, our own file and line, what to do."""
    frames = traceback.extract_tb(error.__traceback__)
    ours = [frame for frame in frames if Path(frame.filename).is_relative_to(_PACKAGE)]
    place = ours[-1] if ours else None
    where = (
        f" ({Path(place.filename).relative_to(_PACKAGE.parent)}, line {place.lineno})"
        if place
        else ""
    )
    said = " ".join(str(error).strip().partition("\n")[0].split())[:200]  # the rest is a trace
    what = f"{type(error).__name__}: {said}" if said else type(error).__name__
    return (
        f"a fault of the program's own: {what}{where}; please report it with the command and, if "
        f"you may, the files ({TRACEBACK}=1 shows more)"
    )
