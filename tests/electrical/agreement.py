"""Prints how published worked examples agree with this package. Run: `python tests/electrical/agreement.py`.

`page` counts answers printed on the page, `inferred` those worked out from a question whose answer the page did not
show; the latter are no independent evidence. Every difference is listed with its reason.
"""

from __future__ import annotations

import sys
from collections import Counter
from fractions import Fraction
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from electrical import computing_circuits, computing_drops, computing_raceways
from electrical.computing import compare, records

MODULES = (computing_circuits, computing_drops, computing_raceways)


def main() -> int:
    """Print the table; 1 where a difference has no reason."""
    counts: dict[str, Counter[str]] = {}
    differing = []
    unexplained = 0
    for record in records():
        count = counts.setdefault(record["subject"], Counter())
        count["page" if record["answer"] == "as published" else "inferred"] += 1
        if not record["computation"]:
            count["none"] += 1
            differing.append((record["id"], "not computed", record["because"]))
            continue
        computed, off = compare(record)
        count["differ" if off else "agree"] += 1
        unexplained += bool(off) and "ours" not in record
        for name in off:
            was = f"{name}: published {record['published'][name]}, computed {_shown(computed.get(name))}"
            differing.append((record["id"], was, record.get("because", "NO REASON")))
    columns = ("agree", "differ", "none", "page", "inferred")
    print(f"{'subject':22}" + "".join(f"{column:>10}" for column in columns))
    for subject, count in sorted(counts.items()):
        print(f"{subject:22}" + "".join(f"{count[column]:10}" for column in columns))
    total = sum(counts.values(), Counter[str]())
    print(f"{'all':22}" + "".join(f"{total[column]:10}" for column in columns))
    print("\nDifferences")
    for name, was, why in differing:
        print(f"  {name}: {was}\n    {why}")
    return 1 if unexplained else 0


def _shown(value: object) -> object:
    if isinstance(value, list):
        return [_shown(each) for each in value]
    return (
        round(float(value), 4) if isinstance(value, int | float | Fraction) and not isinstance(value, bool) else value
    )


if __name__ == "__main__":
    sys.exit(main())
