"""Drives the real language server over its pipe, and prints one table. Run: `python tests/benchmarks/editor.py [EDITS]`.

Change to diagnostics: the time from writing the next version of a plan, one leg's cover changed to a value not seen before,
until its diagnostics have been read; beside it the processor time that the server took for one change (from /proc), which says
what the time would be on a machine that has nothing else to do. Memory: the server's resident memory (from /proc) on the way through EDITS edits
(10,000 unless said) of a plan of 500 lines, readable and not, of which every tenth is waited for.
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from generated import plan_of

from support.editor import Client

COVER = "cover: 18 in"
GOALS = {500: 30.0, 5_000: 150.0}
"""Lines of a plan -> milliseconds within which 95 of 100 changes are to have their diagnostics."""


def change_to_diagnostics(lines: int, changes: int) -> tuple[list[float], float]:
    """Sorted times in milliseconds, and the server's processor time for one change."""
    text, times = plan_of(lines), []
    with Client() as client:
        client.begin()
        client.open("file:///plan.plan.yaml", text)
        before = busy(client.process.pid)
        for version in range(2, changes + 2):
            edited = text.replace(COVER, f"cover: {18 + version / 10_000:.4f} in", 1)
            start = time.perf_counter()
            client.change("file:///plan.plan.yaml", edited, version)
            client.diagnostics("file:///plan.plan.yaml", version)
            times.append((time.perf_counter() - start) * 1000)
            time.sleep(0.01)  # nobody types without a pause
        took = (busy(client.process.pid) - before) / changes
        client.end()
    return sorted(times), took


def memory(edits: int) -> list[tuple[int, float]]:
    """Edits made, and the server's memory in MiB."""
    text, told = plan_of(500), []
    with Client() as client:
        client.begin()
        client.open("file:///plan.plan.yaml", text)
        for version in range(2, edits + 2):
            edited = text.replace(COVER, f"cover: {18 + version / 10_000:.4f} in", 1)
            if version % 7 == 0:
                edited = edited[: len(edited) * (version % 97) // 97]
            client.change("file:///plan.plan.yaml", edited, version)
            if version % 10 == 0:
                client.diagnostics("file:///plan.plan.yaml", version)
                client.shown.clear()
            if (version - 2) % (edits // 5) == 0 or version == edits + 1:
                told.append((version - 2, resident(client.process.pid)))
        client.end()
    return told


def busy(process: int) -> float:
    """Processor time that a process has taken, in milliseconds."""
    fields = Path(f"/proc/{process}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) * 1000 / os.sysconf("SC_CLK_TCK")


def resident(process: int) -> float:
    """Resident memory of a process, in MiB."""
    status = Path(f"/proc/{process}/status").read_text(encoding="ascii")
    kilobytes = next(line for line in status.splitlines() if line.startswith("VmRSS")).split()[1]
    return int(kilobytes) / 1024


def main() -> None:
    """Print the table."""
    print(f"{'change to diagnostics':<28}{'median ms':>10}{'p95 ms':>10}{'goal ms':>10}{'busy ms':>10}")
    for lines, goal in GOALS.items():
        times, took = change_to_diagnostics(lines, 200 if lines <= 500 else 100)
        p95 = times[int(len(times) * 0.95)]
        print(f"{f'{lines:,} lines':<28}{times[len(times) // 2]:>10.1f}{p95:>10.1f}{goal:>10.0f}{took:>10.1f}")
    edits = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    print(f"\n{'memory, 500 lines':<28}{'MiB':>10}")
    for made, held in memory(edits):
        print(f"{f'after {made:,} edits':<28}{held:>10.1f}")


if __name__ == "__main__":
    main()
