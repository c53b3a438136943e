"""Prints, for every topic, how many of its findings have a proved way out. Run: `python tests/amending/share.py`.

Counted are the findings of a topic in the failing plans of its own document and in the bundled plans before corrections.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from precover.amending.prover import ways_out
from precover.amending.way import mark
from precover.reviewing import open_plan, review
from precover.rulebook import Outcome
from support.documents import plans_of
from support.reviews import EXAMPLES, example, library, written


def counted() -> tuple[Counter[str], Counter[str], list[str]]:
    """Findings and proved ones by topic, and the ids of rules with a finding that has no way out."""
    plans = [
        written(example(base, patch)) for topic in library().topics.values() for base, patch in plans_of(topic, "Fails")
    ]
    plans += [path.read_bytes() for path in sorted(EXAMPLES.glob("*-uncorrected.plan.yaml"))]
    found: Counter[str] = Counter()
    proved: Counter[str] = Counter()
    without: set[str] = set()
    for raw in plans:
        opened = open_plan("plan.yaml", raw)
        made = review(opened, library())
        ways = ways_out(made, opened)
        for finding in made.findings:
            if finding.line.answer.outcome is Outcome.NOT_MET:
                rule = finding.line.rule
                found[rule.topic] += 1
                proved[rule.topic] += mark(finding) in ways
                if mark(finding) not in ways:
                    without.add(rule.id)
    return found, proved, sorted(without)


def main() -> None:
    """Print the table."""
    found, proved, without = counted()
    print(f"{'topic':<44}{'findings':>9}{'proved':>8}{'share':>7}")
    for topic in sorted(found):
        print(f"{topic:<44}{found[topic]:>9}{proved[topic]:>8}{proved[topic] / found[topic]:>7.0%}")
    total, all_proved = sum(found.values()), sum(proved.values())
    print(f"{'all':<44}{total:>9}{all_proved:>8}{all_proved / total:>7.0%}")
    for rule in without:
        print(f"without a way out somewhere: {rule}")


if __name__ == "__main__":
    main()
