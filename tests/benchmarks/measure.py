"""Measures the command and the review, and prints one table. Run: `python tests/benchmarks/measure.py`.

First: a review (bytes to findings, every rule) of a plan in a process that has its tables read, against what PyYAML's C
loader needs to load the same text. Warm: the review of the next version of a plan, one leg's cover changed to a value not
seen before, read and reviewed as the language server does it.
Ways out: ten of them proved, against one review of the same plan.
Cold, against an interpreter that imports pyyaml, jsonschema, pluggy and rich: the command with every rule loaded (it lists the
topics), and with the review of a bundled example as well, its tables read and its sheet shown.
Ratios come from one run on one machine, the two sides taken in turn; the best of each side is compared.
"""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import time
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import yaml
from generated import plan_of

import precover
from precover.amending.prover import ways_out
from precover.reading import decode
from precover.reading.pieces import Pieces
from precover.reviewing import Review, open_data, open_plan, review
from precover.reviewing.again import review_since
from precover.rulebook import gather

COVER = "cover: 18 in"
MISTAKES = {
    COVER: "cover: 5 in",
    "cover: in-use": "cover: plain",
    "weather-resistant: true": "weather-resistant: false",
}
EXAMPLE = Path(precover.__file__).parent / "examples" / "pottery-studio.plan.yaml"


def best_in_turn(
    one: Callable[[], object], other: Callable[[], object], seconds: float, before: Callable[[], None] | None = None
) -> tuple[float, float]:
    """Shortest time of each, in seconds, run in turn for about `seconds`; `before` is run before each turn, untimed."""
    best = [float("inf"), float("inf")]
    end = time.perf_counter() + seconds
    while time.perf_counter() < end or best[1] == float("inf"):
        if before is not None:
            before()
        for index, run in enumerate((one, other)):
            start = time.perf_counter()
            run()
            best[index] = min(best[index], time.perf_counter() - start)
    return best[0], best[1]


def first() -> list[tuple[str, float, float]]:
    """Rows of plan size: review and load, in milliseconds."""
    library = gather()
    rows = []
    for lines in (60, 200, 2_000, 20_000):
        text = plan_of(lines)
        raw = text.encode()

        def reviewing(raw: bytes = raw) -> object:
            return review(open_plan("plan.yaml", raw), library).findings

        def loading(text: str = text) -> object:
            return yaml.load(text, yaml.CSafeLoader)

        took, load = best_in_turn(reviewing, loading, 2 if lines < 20_000 else 12)
        rows.append((f"first review of {text.count(chr(10)):,} lines", took * 1000, load * 1000))
    return rows


def warm() -> list[tuple[str, float, float]]:
    """Rows of plan size: review after an edit and load, in milliseconds."""
    library = gather()
    rows = []
    for lines in (60, 200, 2_000, 20_000):
        text = plan_of(lines)
        versions = (text.replace(COVER, f"cover: {18 + n / 10_000:.4f} in", 1).encode() for n in count(1))
        reviews = [review(open_plan("plan.yaml", text.encode()), library)]
        raw = [b""]
        pieces = Pieces()

        def reviewing(raw: list[bytes] = raw, reviews: list[Review] = reviews, pieces: Pieces = pieces) -> object:
            document = pieces.read(decode("plan.yaml", raw[0]))
            reviews[0] = review_since(reviews[0], open_data(document, document.data), library)
            return reviews[0].findings

        def loading(text: str = text) -> object:
            return yaml.load(text, yaml.CSafeLoader)

        def next_version(raw: list[bytes] = raw, versions: Iterator[bytes] = versions) -> None:
            raw[0] = next(versions)

        took, load = best_in_turn(reviewing, loading, 2 if lines < 20_000 else 12, next_version)
        rows.append((f"review of {text.count(chr(10)):,} lines, one edited", took * 1000, load * 1000))
    return rows


def ways() -> tuple[str, float, float]:
    """The proved ways out of ten findings in a plan of 200 lines, and a review of it, in milliseconds."""
    library = gather()
    text = plan_of(200).replace("listed-for: wet", "listed-for: damp", 1)
    for right, wrong in MISTAKES.items():
        text = text.replace(right, wrong)
    opened = open_plan("plan.yaml", text.encode())
    made = review(opened, library)
    assert len(made.findings) == len(ways_out(made, opened)) == 10, "ten findings, each with a way out"
    took, plain = best_in_turn(
        lambda: ways_out(made, opened), lambda: review(open_plan("plan.yaml", text.encode()), library).findings, 4
    )
    return "ways out of ten findings, 210 lines", took * 1000, plain * 1000


def cold(what: str, *arguments: str) -> tuple[str, float, float]:
    """The command, and the imports it is measured against, in milliseconds."""
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    command = [str(Path(sysconfig.get_path("scripts")) / "precover"), *arguments]
    imports = [sys.executable, "-c", "import yaml, jsonschema, pluggy, rich"]

    def run(arguments: list[str]) -> Callable[[], object]:
        return lambda: subprocess.run(arguments, env=environment, check=False, capture_output=True)

    run(command)()
    took, needed = best_in_turn(run(command), run(imports), 12)
    return f"{what}, cold", took * 1000, needed * 1000


def main() -> None:
    """Print the table."""
    print(f"{'what':<38}{'ms':>9}{'against ms':>12}{'ratio':>8}")
    starts = [cold("start, every rule loaded", "topics"), cold("command on an example", "review", str(EXAMPLE))]
    for what, took, against in [*first(), *warm(), ways(), *starts]:
        print(f"{what:<38}{took:>9.2f}{against:>12.2f}{took / against:>8.2f}")


if __name__ == "__main__":
    main()
