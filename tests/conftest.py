"""Options of the test run."""

from __future__ import annotations

import signal

import pytest

if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    # A run that a shell starts in the background ignores it, and so would every command that the tests start and interrupt.
    signal.signal(signal.SIGINT, signal.default_int_handler)


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--rewrite-golden` writes the expected reviews anew instead of comparing."""
    parser.addoption("--rewrite-golden", action="store_true", help="write the golden reviews anew")


@pytest.fixture
def rewrite_golden(request: pytest.FixtureRequest) -> bool:
    """Whether golden files are to be written."""
    return bool(request.config.getoption("--rewrite-golden"))
