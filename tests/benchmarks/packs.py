"""Measures rule packs, and prints one table. Run: `python tests/benchmarks/packs.py`.

What 200 requirements of a pack file add to a review, warm, and to the command, cold; and `precover impact` over 2,000
generated plans, on all cores and on one. Best of several runs on one machine, but for the impact, which is run once.
"""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import tempfile
import time
from pathlib import Path

from generated import plan_of
from measure import EXAMPLE, best_in_turn

from precover.reviewing import open_plan, review
from precover.rulebook import gather

REQUIREMENTS = 200
PLANS = 2_000

EACH = (
    ("receptacle", 'receptacle.circuit.kind == "branch circuit"', 'receptacle.cover in ["in-use", "closed", "plain"]'),
    ("buried-leg", "site.frost", 'buried_leg.cover >= "{n} in" || buried_leg.protectors.exists(p, p.class_a)'),
    ("circuit", 'circuit.kind == "branch circuit"', 'circuit.devices.all(d, d.kind != "motor") && circuit.length <= "{n}00 ft"'),
    ("conductors", 'conductors.leg.kind == "buried-leg"', 'conductors.carried.cable.size >= "12 AWG"'),
    ("structure", "structure.supplies.size() > 0", 'structure.circuits.size() <= {n} && structure.use != "commercial"'),
)  # fmt: skip


def pack() -> str:
    """A pack of requirements of five kinds in turn."""
    lines = ["format: precover-pack/1", "id: county", "title: County", "extends: us-2023", "requirements:"]
    for number in range(REQUIREMENTS):
        about, when, require = (part.replace("{n}", str(number % 9 + 1)) for part in EACH[number % len(EACH)])
        lines.append(
            f"  r{number}:\n    about: {about}\n    when: '{when}'\n    require: '{require}'\n    says: It is so."
        )
    return "\n".join(lines) + "\n"


def row(what: str, took: float, against: float, unit: str = "ms") -> None:
    """One line of the table."""
    print(f"{what:<46}{took:>9.1f} {unit:<3}{against:>9.1f} {unit:<3}{took / against:>7.2f}")


def main() -> None:
    """Print the table."""
    command = str(Path(sysconfig.get_path("scripts")) / "precover")
    library = gather()
    print(f"{'what':<46}{'with':>9}    {'without':>9}    {'ratio':>6}")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        county = folder / "county.pack.yaml"
        county.write_text(pack(), encoding="utf-8")
        for lines in (200, 2_000):
            raw = plan_of(lines).encode()
            made = review(open_plan("plan.yaml", raw), library, (str(county),))
            assert not made.failures, made.failures

            def under(packs: tuple[str, ...], raw: bytes = raw) -> object:
                return review(open_plan("plan.yaml", raw), library, packs).findings

            took, bare = best_in_turn(lambda: under((str(county),)), lambda: under(()), 4)
            row(f"review of {len(raw.splitlines()):,} lines, {REQUIREMENTS} requirements", took * 1000, bare * 1000)

        def cold(*more: str) -> object:
            return subprocess.run([command, "review", str(EXAMPLE), *more], check=False, capture_output=True)

        took, bare = best_in_turn(lambda: cold("--pack", str(county)), lambda: cold(), 8)
        row("command on an example, cold", took * 1000, bare * 1000)
        plans = folder / "plans"
        plans.mkdir()
        for number in range(PLANS):
            (plans / f"{number:04}.plan.yaml").write_text(plan_of(60 if number % 2 else 120), encoding="utf-8")
        arguments = [command, "impact", "--from", "us-2020", "--to", "us-2023", str(plans)]
        times = []
        for cores in (sorted(os.sched_getaffinity(0)), sorted(os.sched_getaffinity(0))[:1]):
            start = time.perf_counter()
            subprocess.run(["taskset", "-c", ",".join(map(str, cores)), *arguments], check=False, capture_output=True)
            times.append(time.perf_counter() - start)
        row(f"impact of an edition on {PLANS:,} plans, one core", times[1], times[0], "s")


if __name__ == "__main__":
    sys.exit(main())
