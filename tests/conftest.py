"""Options of the test run."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--rewrite-golden` writes the expected reviews anew instead of comparing."""
    parser.addoption("--rewrite-golden", action="store_true", help="write the golden reviews anew")


@pytest.fixture
def rewrite_golden(request: pytest.FixtureRequest) -> bool:
    """Whether golden files are to be written."""
    return bool(request.config.getoption("--rewrite-golden"))
