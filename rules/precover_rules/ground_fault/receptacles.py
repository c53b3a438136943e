"""Receptacles that need ground-fault protection because of where they are."""

from precover.plan import Receptacle
from precover.rulebook import Answer, Look, Severity, Stage, does_not_apply, rule
from precover_rules.ground_fault.places import REQUIREMENT_OF, TABLE, doubt_about, rows_of, voltage_covered
from precover_rules.ground_fault.verdict import class_a_or_not


@rule(
    looks_at=Receptacle,
    severity=Severity.DANGER,
    stage=Stage.FINAL,
    rows=(
        "gfci-garage",
        "gfci-accessory-building",
        "gfci-outdoor-receptacle",
        "gfci-basement-crawl",
        "gfci-sink-six-feet",
        "gfci-indoor-damp",
        "gfci-listed-class-a",
        "gfci-upstream-position",
        "gfci-no-appliance-exception",
    ),
)
def protection_of_a_receptacle(receptacle: Receptacle, look: Look) -> Answer:
    """A receptacle in one of the listed places has class A ground-fault protection, whatever is plugged in."""
    if look.trace.circuit_of(receptacle).kind == "low-voltage":
        return does_not_apply("a low-voltage circuit")
    if not voltage_covered(receptacle, look):
        return does_not_apply("above the voltages that the list covers")
    left_out: list[str] = []
    box = look.trace.box_of(receptacle)
    for row in rows_of(receptacle, look):
        if look.cell(TABLE, row).value:
            look.because(row, box.place)
            answer = class_a_or_not(receptacle, look, lambda: doubt_about(look.plan.structures[box.at], look))
            return answer.citing(REQUIREMENT_OF.get(row, "gfci-listed-class-a"))
        left_out.append(row)
    return does_not_apply(f"{left_out[0] if left_out else look.stated(box.area)}: not a listed place")
