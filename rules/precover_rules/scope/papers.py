"""The papers that go with a plan, and what holds for all of the work."""

from precover.plan import Plan
from precover.rulebook import Look, Stage, inspection


@inspection(looks_at=Plan, stage=Stage.PLAN, rows=("permit", "one-line-diagram", "edition-stated"))
def permit_and_drawing(_plan: Plan, _look: Look) -> str | None:
    """What the office wants before work begins."""
    return (
        "Ask the office for the permit first: which edition and local amendments are in force, and whether it wants a "
        "one-line drawing with source, breakers, sizes, wiring methods, lengths and electrodes."
    )


@inspection(looks_at=Plan, stage=Stage.FINAL, rows=("listed-equipment", "workmanship"))
def listed_and_neat(_plan: Plan, _look: Look) -> str | None:
    """What holds for every part."""
    return "Every part is listed and used as its instructions say; the work is neat, and boxes and panels are clean inside."
