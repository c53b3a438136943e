"""`precover schema`: the JSON Schemas, for editors and for programs that read reviews."""

from __future__ import annotations

import argparse

import precover_schemas
from precover.app.output import put


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    parser.add_argument("of", choices=("plan", "pack", "review", "impact"), help="which schema")


def run(chosen: argparse.Namespace) -> int:
    """Print the schema."""
    put(precover_schemas.text(chosen.of))
    return 0
