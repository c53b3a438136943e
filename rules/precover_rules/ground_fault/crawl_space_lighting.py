"""Ground-fault protection of lights in crawl spaces."""

from precover.plan import Luminaire
from precover.rulebook import Answer, Look, Severity, Stage, does_not_apply, rule
from precover_rules.ground_fault.places import STANDS_OUTDOORS
from precover_rules.ground_fault.verdict import class_a_or_not


@rule(looks_at=Luminaire, severity=Severity.DANGER, stage=Stage.FINAL, rows=("gfci-crawl-lighting",))
def protection_of_a_crawl_space_light(luminaire: Luminaire, look: Look) -> Answer:
    """A light in a crawl space has class A ground-fault protection."""
    circuit = look.trace.circuit_of(luminaire)
    if circuit.kind == "low-voltage":
        return does_not_apply("a low-voltage circuit")
    if look.trace.structure_of(luminaire).use in STANDS_OUTDOORS:
        return does_not_apply("not in a crawl space")
    box = look.trace.box_of(luminaire)
    if look.stated(box.area) != "crawl space":
        return does_not_apply("not in a crawl space")
    if look.stated(circuit.voltage).line_to_line > look.limit("crawl space lighting voltage").value.amount:
        return does_not_apply("above the voltage that the requirement covers")
    look.because("in a crawl space", box.place)
    return class_a_or_not(luminaire, look)
