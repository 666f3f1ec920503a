"""The command `mockup`: the one place where a run ends, well or not.

Little is imported here, so that an interrupt is answered also while the rest is loading.
"""

from __future__ import annotations

import os
import sys
import traceback
from pathlib import Path

from mockup.cli import console, signals
from mockup.errors import ExitCode, LimitError, Mistake, MockupError, OutputError

TRACEBACK = "MOCKUP_TRACEBACK"
"""The environment variable that asks for the traceback of a fault of the program's own."""

_PACKAGE = Path(__file__).resolve().parent.parent


def main() -> None:
    """Runs the command line and ends the process with its exit code; nothing is raised past it.

    A mistake of the user's is a line a mistake on standard error, or with `--json` one document on
    standard output.
    """
    console.prepare()
    code = _ended(sys.argv[1:])
    try:
        console.flush()
    except OutputError as error:
        code = _told(error.mistakes, error.exit_code, as_json=False)
    except console.ReaderGone:
        pass
    sys.exit(int(code))


def _ended(arguments: list[str]) -> int:
    """Returns the exit code of a run, after telling why it did not go well."""
    as_json = "--json" in arguments
    try:
        signals.listen()
        return _run(arguments)
    except MockupError as error:
        return _told(error.mistakes, error.exit_code, as_json)
    except console.ReaderGone:
        return ExitCode.DONE
    except (signals.Signalled, KeyboardInterrupt) as signal:
        interrupted = not (isinstance(signal, signals.Signalled) and signal.terminates)
        code = ExitCode.INTERRUPTED if interrupted else ExitCode.TERMINATED
        word = "interrupted" if interrupted else "told to end"
        return _told((Mistake(f"{word}; no half-written file is left"),), code, as_json)
    except MemoryError:
        told = "this machine has not the memory for it; ask for a smaller picture"
        return _told((Mistake(told),), LimitError.exit_code, as_json)
    except Exception as error:
        if os.environ.get(TRACEBACK):
            traceback.print_exc()
        return _told((Mistake(_fault(error)),), ExitCode.FAULT, as_json)


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


def _fault(error: Exception) -> str:
    """Returns the one line of a fault: the exception, our own file and line, what to do."""
    frames = traceback.extract_tb(error.__traceback__)
    ours = [frame for frame in frames if Path(frame.filename).is_relative_to(_PACKAGE)]
    place = ours[-1] if ours else None
    where = (
        f" ({Path(place.filename).relative_to(_PACKAGE.parent)}, line {place.lineno})"
        if place
        else ""
    )
    said = " ".join(str(error).split())[:200]
    what = f"{type(error).__name__}: {said}" if said else type(error).__name__
    return (
        f"a fault of the program's own: {what}{where}; please report it with the command and, if "
        f"you may, the files ({TRACEBACK}=1 shows more)"
    )
