"""The working space in front of a panel."""

from precover.plan import Panel, Unstated
from precover.rulebook import (
    Answer,
    Cell,
    Effort,
    Look,
    Proposal,
    Severity,
    Stage,
    at_least,
    inspection,
    rule,
)
from precover.units import Length

ON_THE_LIST = "not stated: it is on the inspection list"


def _not_new(panel: Panel, _look: Look) -> str:
    return "" if panel.duty == "feeder panel" and panel.existing is not True else "not a new feeder panel"


def _no_width(panel: Panel, _look: Look) -> str:
    return ON_THE_LIST if isinstance(panel.working_space.width, Unstated) else ""


def _no_height(panel: Panel, _look: Look) -> str:
    return ON_THE_LIST if isinstance(panel.working_space.height, Unstated) else ""


@rule(looks_at=Panel, unless=_not_new, severity=Severity.DANGER, stage=Stage.PLAN, rows=("working-depth",))
def depth_of_the_space(panel: Panel, look: Look) -> Answer:
    """In front of a new panel it is clear as far as a person who works on it live needs."""
    space = panel.working_space
    depth = look.stated(space.depth)
    to_ground = look.stated(panel.system).line_to_ground
    band = "150 V to ground"
    opposite = "nothing live or grounded"
    if to_ground > look.limit("voltage to ground of the least working depth").value.in_unit("V"):
        band, opposite = "600 V to ground", look.stated(space.opposite)
    look.because(f"{to_ground} V to ground", f"{panel.place}/system")
    return _enough("depth", depth, look.cell("working-space", band, opposite), panel)


@rule(
    looks_at=Panel,
    unless=(_not_new, _no_width),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("working-width",),
)
def width_of_the_space(panel: Panel, look: Look) -> Answer:
    """The working space in front of a new panel is wide enough."""
    return _enough("width", look.stated(panel.working_space.width), look.limit("width of a working space"), panel)


@rule(
    looks_at=Panel,
    unless=(_not_new, _no_height),
    severity=Severity.CORRECTION,
    stage=Stage.ROUGH,
    rows=("working-height",),
)
def height_of_the_space(panel: Panel, look: Look) -> Answer:
    """The working space in front of a new panel is high enough to stand in."""
    return _enough("height", look.stated(panel.working_space.height), look.limit("height of a working space"), panel)


@inspection(
    looks_at=Panel,
    stage=Stage.FINAL,
    rows=(
        "working-width",
        "working-height",
        "working-flat-floor",
        "working-not-storage",
        "working-light",
        "working-egress",
    ),
)
def space_in_front_of_a_panel(panel: Panel, look: Look) -> str | None:
    """What stands, lies and shines in front of a panel."""
    if _not_new(panel, look):
        return None
    width, height = (look.limit(f"{what} of a working space").text for what in ("width", "height"))
    way = look.limit("way into a working space").text
    light = "" if panel.area == "outdoors" else "; a light that does not depend on automatic control alone"
    return (
        f"In front of {panel.id}: {width} wide and {height} high at the least, its door opening to a right angle; a clear, "
        f"level floor, nothing stored on it; a way in {way} wide that no door blocks{light}."
    )


@inspection(looks_at=Panel, stage=Stage.ROUGH, rows=("dedicated-space", "panel-not-bath-closet"))
def space_above_a_panel(panel: Panel, look: Look) -> str | None:
    """The space that belongs to the panel, and what could strike it."""
    if _not_new(panel, look):
        return None
    above = look.limit("space above a panel").text
    free = "" if panel.area == "outdoors" else f"no pipe or duct above it, up to {above} or the structural ceiling; "
    return f"{panel.id}: {free}not over the steps of a stairway, and not where things strike it."


def _enough(what: str, has: Length, needed: Cell, panel: Panel) -> Answer:
    at = f"{panel.working_space.place}/{what}"
    text = needed.twin_text if has.metric and needed.twin_text else needed.text
    clear = Proposal.state(f"keep {text} clear in front of it", Effort.PAPER, (panel.working_space, what, text))
    return at_least(f"{what} of the working space", has, needed, at=at, amend=(clear,))
