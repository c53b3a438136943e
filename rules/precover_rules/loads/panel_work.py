"""Workmanship in the panels of a plan: what only a person at the open panel sees."""

from precover.plan import MainBreaker, Panel, Plan
from precover.rulebook import Look, Stage, inspection


@inspection(
    looks_at=Plan,
    stage=Stage.ENERGIZE,
    rows=("panel-torque", "panel-one-terminal-wire", "panel-neutral-terminals"),
)
def torque_of_terminals(plan: Plan, look: Look) -> str | None:
    """Terminals of the panels."""
    names = _worked_on(plan, look)
    return (
        None
        if not names
        else (
            f"{names}: terminals tightened to the marked torque with a calibrated tool; one wire under each unless marked for "
            "more, and never two neutrals; metals that the terminal is marked for."
        )
    )


@inspection(looks_at=Plan, stage=Stage.ENERGIZE, rows=("panel-breaker-listed", "breaker-on-up", "panel-backfed-hold"))
def type_of_breakers(plan: Plan, look: Look) -> str | None:
    """Breakers of the panels."""
    names = _worked_on(plan, look)
    mains = [
        panel.id for panel in _new(plan, look) if isinstance(panel.main, MainBreaker) and panel.main.rating is not None
    ]
    held = (
        f" A main of {' and '.join(mains)} that is a back-fed plug-in breaker is held by a fastener." if mains else ""
    )
    return (
        None
        if not names
        else f"{names}: breakers of a type that the panel's label lists; on with the handle up where they stand upright.{held}"
    )


@inspection(looks_at=Plan, stage=Stage.FINAL, rows=("panel-circuit-directory", "panel-source-marking"))
def directory(plan: Plan, look: Look) -> str | None:
    """Directories of the panels."""
    names = _worked_on(plan, look)
    fed = [f"{panel.id} from {look.trace.tree.fed_by[panel.id].from_}" for panel in _new(plan, look)]
    source = f" Marked with its supply: {', '.join(fed)}." if fed else ""
    return (
        None
        if not names
        else f"{names}: every circuit and spare described in the directory, clearly and each differently.{source}"
    )


def _worked_on(plan: Plan, look: Look) -> str:
    """The panels that the plan adds, or adds a circuit to."""
    new = _new(plan, look)
    return " and ".join(
        panel.id
        for panel in plan.panels.values()
        if panel in new or any(circuit.existing is not True for circuit in look.trace.circuits_from(panel))
    )


def _new(plan: Plan, look: Look) -> list[Panel]:
    """The feeder panels that the plan adds."""
    fed_by = look.trace.tree.fed_by
    return [panel for panel in plan.panels.values() if panel.id in fed_by and panel.existing is not True]
