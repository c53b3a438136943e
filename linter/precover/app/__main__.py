"""`precover`: finds the command, runs it, and ends with its exit status."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from typing import Final, NoReturn

from precover.app.output import leave_stdout, put, reason, tell
from precover.app.refused import Refused

vars(argparse)["_"] = str
"""Python brings no translations of the words of argparse, and to look for some takes longer than to read a plan."""

COMMANDS: Final = {
    "review": ("precover.app.review", "review plans: what would be written up, and what the plan leaves open"),
    "amend": ("precover.app.amend", "find the least changes that settle a plan's findings, and write them if asked"),
    "topics": ("precover.app.topics", "what is checked, with the limits in force and where they come from"),
    "packs": ("precover.app.packs_command", "list rule packs, show what they change, check a pack file, or start one"),
    "impact": ("precover.app.impact", "what other rule packs would change for many plans"),
    "language-server": ("precover.app.language_server", "review plans in an editor, as they are written"),
    "example": ("precover.app.example", "list the bundled example plans, or print one to start from"),
    "schema": ("precover.app.schema", "print the JSON Schema of plans, rule packs, reviews or impacts"),
}
"""Each command: its module, which has `arguments(parser)` and `run(arguments)`, and what it does."""

DONE, FOUND, REFUSED, STOPPED, PIPE_CLOSED = 0, 1, 2, 130, 141
"""Exit statuses. FOUND is for findings at or above the threshold."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit status."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    try:
        return _run(given)
    except Refused as refused:
        tell(f"precover: {refused}")
        return REFUSED
    except BrokenPipeError:
        leave_stdout()
        return PIPE_CLOSED
    except SystemExit as ended:  # how the argument parser ends, after its help or its complaint
        return ended.code if isinstance(ended.code, int) else REFUSED
    except Exception as fault:  # whatever it is, a person gets one line and no traceback
        if "PRECOVER_TRACEBACK" in os.environ:
            raise
        said = f"{type(fault).__name__}: {fault}"
        tell(f"precover: {said}; this is a fault of precover, please report it (PRECOVER_TRACEBACK=1 shows where)")
        return REFUSED
    except KeyboardInterrupt:
        tell("precover: stopped")
        return STOPPED


def _run(given: list[str]) -> int:
    _never_fail_on_a_character()
    parser = argparse.ArgumentParser(
        prog="precover",
        description="Reviews small electrical plans before anything is bought, dug or covered.",
        epilog="Exit status: 0 nothing at or above the threshold, 1 something is, 2 a plan, a pack, a rule or the command failed.",
        allow_abbrev=False,
        formatter_class=_narrow,
    )
    parser.add_argument("--version", action="store_true", help="print the version")
    # Without its `prog` argparse would format the usage for it.
    commands = parser.add_subparsers(prog="precover", metavar="COMMAND", dest="command")
    named = [name for name in COMMANDS if given[:1] == [name]]
    for name in named or COMMANDS:
        module, does = COMMANDS[name]
        command = commands.add_parser(
            name, help=does, description=does.capitalize() + ".", allow_abbrev=False, formatter_class=_narrow
        )
        if named:
            import_module(module).arguments(command)
        command.formatter_class = argparse.HelpFormatter
    parser.formatter_class = argparse.HelpFormatter
    chosen = parser.parse_args(given)
    if chosen.version:
        from precover.showing.tool import version

        put(f"precover {version()}\n")
        return DONE
    if chosen.command is None:
        parser.print_help(sys.stderr)
        return REFUSED
    status: int = import_module(COMMANDS[chosen.command][0]).run(chosen)
    return status


def _narrow(prog: str) -> argparse.HelpFormatter:
    """The formatter that argparse makes for each argument that is added, only to see whether it fits. This one does not look
    how wide the terminal is, for which a good part of the library would be loaded."""
    return argparse.HelpFormatter(prog, width=80)


def _never_fail_on_a_character() -> None:
    """What a terminal's encoding cannot show is written out, not a reason to stop."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")


def process(at_end: Callable[[], None] = lambda: None) -> NoReturn:
    """The command as a process of its own. It ends at once when all is written: taking the interpreter apart in order, or
    looking for garbage on the way, would take a good part of the time of a review. `at_end` is called when all is said."""
    gc.disable()
    status = main()
    if sys.stdout is not None:
        try:
            sys.stdout.flush()
        except (OSError, ValueError) as problem:
            tell(f"precover: standard output cannot be written: {reason(problem)}")
            status = status or REFUSED
    at_end()
    os._exit(status)


if __name__ == "__main__":
    process()
