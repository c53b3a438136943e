"""What carries the current, and what encloses it: the compact notations of the plan language."""

import re
from functools import lru_cache
from typing import Final, Literal

from precover.plan.thing import Thing, Unstated
from precover.record import Record
from precover.units import ConductorSize, QuantityError, TradeSize

Material = Literal["Cu", "Al"]

CABLE_TYPES = (
    "NM-B",
    "UF-B",
    "MC",
    "AC",
    "SE",
    "SER",
    "SEU",
    "USE",
    "USE-2",
    "MHF",
    "TC-ER",
    "cord",
    "MI",
    "low-voltage",
)
"""Cable types that a plan can name. `MHF` is the four-conductor direct-burial assembly sold as mobile-home feeder;
`low-voltage` a landscape or control cable of 30 V or less; `cord` any flexible cord."""

COPPER_UNLESS_SAID = frozenset({"NM-B", "UF-B", "MC", "AC", "TC-ER", "cord", "MI", "low-voltage"})
"""Types sold in copper unless marked otherwise (common practice); the others must say Cu or Al."""

NO_GROUND = frozenset({"low-voltage", "SE", "SEU"})
"""Types without an equipment grounding conductor: control cable, and service cable whose bare wire is the neutral."""

GROUND_COUNTED = frozenset({"cord"})
"""Types whose count includes the equipment grounding conductor: a `12/3` cord has two others (common practice)."""

RACEWAY_TYPES = (
    "PVC-40",
    "PVC-80",
    "RTRC",
    "RTRC-XW",
    "HDPE",
    "RMC",
    "IMC",
    "EMT",
    "FMC",
    "LFMC",
    "LFNC",
    "ENT",
    "plumbing pipe",
)
"""Raceway types that a plan can name; `plumbing pipe` is there because people do it."""

INSULATIONS = (
    "THHN",
    "THWN",
    "THWN-2",
    "THHN/THWN-2",
    "THW",
    "THW-2",
    "THHW",
    "TW",
    "XHHW",
    "XHHW-2",
    "XHH",
    "RHW",
    "RHW-2",
    "RHH",
    "RHH/RHW-2",
    "MTW",
    "USE",
    "USE-2",
    "RHH/RHW-2/USE-2",
    "UF",
    "TBS",
    "SA",
    "ZW",
    "bare",
)
"""Insulation letters that a plan can name; a wire marked with several is written with a stroke between them."""

_CABLE: Final = (
    r"(?P<type>[A-Za-z][A-Za-z0-9-]{0,11})\s+(?P<sizes>[0-9/]+(?:-[0-9/]+)+|[0-9]+/[2-4])"
    r"(?:\s+(?P<material>Cu|Al))?(?P<bare>\s+no ground)?"
)
_CONDUCTOR: Final = (
    r"(?:(?P<count>\d{1,2})\s*[x×]\s*)?(?P<size>\S+\s+(?:AWG|kcmil|MCM))\s+(?P<material>Cu|Al)\s+(?P<insulation>\S+)"
)
_RACEWAY: Final = r"(?P<type>[A-Za-z][A-Za-z-]*(?: pipe)?(?:-\d+)?)\s+(?P<size>.+)"
"""The three notations, each compiled for a plan that has it."""


class Cable(Record):
    """A cable assembly, written `UF-B 12/2`, `NM-B 10/3`, `SER 2-2-2-4 Al` or `UF-B 12/2 no ground`.

    `12/2` counts the insulated conductors; the equipment grounding conductor is extra and of the same size, as the
    trade writes it (in a cord it is counted). With hyphens every conductor is named, the equipment grounding conductor
    last. SE, SEU and low-voltage cable have none.
    """

    type: str
    insulated: tuple[ConductorSize, ...]
    size: ConductorSize
    """The largest insulated conductor."""
    ground: ConductorSize | None
    material: Material
    text: str

    @classmethod
    def parse(cls, text: str) -> "Cable":
        """The cable written in `text`; QuantityError if it is none."""
        return _cable(text)

    @classmethod
    def probes(cls) -> tuple["Cable", ...]:
        """A dry cable, burial cables with and without ground, feeder cables, one for outdoors only, and a cord."""
        written = (
            "NM-B 14/2",
            "UF-B 12/2",
            "UF-B 6/3",
            "SER 2-2-2-4 Al",
            "MHF 2-2-4-6 Al",
            "USE-2 2-2-2-4 Al",
            "cord 12/3",
            "UF-B 12/2 no ground",
        )
        return tuple(cls.parse(text) for text in written)

    def __str__(self) -> str:
        return self.text


class Conductor:
    """One or several equal wires, written `2 × 6 AWG Cu THWN-2` or `10 AWG Cu bare`; alike where the text is."""

    __slots__ = ("count", "insulation", "material", "size", "text")

    def __init__(self, count: int, size: ConductorSize, material: Material, insulation: str, text: str) -> None:
        self.count = count
        self.size = size
        self.material = material
        self.insulation = insulation
        self.text = text

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Conductor) and self.text == other.text

    def __hash__(self) -> int:
        return hash(self.text)

    def __repr__(self) -> str:
        return f"Conductor({self.text!r})"

    @classmethod
    def parse(cls, text: str) -> "Conductor":
        """The wires written in `text`; QuantityError if it is none."""
        return _conductor(text)

    @classmethod
    def probes(cls) -> tuple["Conductor", ...]:
        """A dry wire and wet ones, small and large, of both metals, and a bare one."""
        written = (
            "14 AWG Cu THHN",
            "12 AWG Cu THWN-2",
            "4/0 AWG Al XHHW-2",
            "4/0 AWG Cu THHN",
            "2 × 500 kcmil Cu THWN-2",
            "14 AWG Cu bare",
            "2 AWG Al USE-2",
        )
        return tuple(cls.parse(text) for text in written)

    def __str__(self) -> str:
        return self.text


class Raceway(Record):
    """A raceway, written `PVC-40 3/4 in`; `none` says that there is none."""

    type: str
    size: TradeSize | None
    text: str

    @classmethod
    def parse(cls, text: str) -> "Raceway":
        """The raceway written in `text`; QuantityError if it is none."""
        return _raceway(text)

    @classmethod
    def probes(cls) -> tuple["Raceway", ...]:
        """No raceway, and one of each type at a small and a large size."""
        sizes = [f"{kind} {size} in" for kind in RACEWAY_TYPES for size in ("1/2", "4")]
        return tuple(cls.parse(text) for text in ("none", *sizes))

    @property
    def absent(self) -> bool:
        """The plan says that there is no raceway."""
        return self.type == "none"

    def __str__(self) -> str:
        return "no raceway" if self.absent else self.text


class Wires(Thing):
    """Individual conductors of one circuit."""

    hot: Conductor | Unstated
    neutral: Conductor | None
    """Not there unless listed."""
    ground: Conductor | None
    """The equipment grounding conductor; not there unless listed."""


@lru_cache(maxsize=1024)
def _cable(text: str) -> Cable:
    form = re.fullmatch(_CABLE, " ".join(text.split())) if len(text) <= 60 else None
    if form is None:
        raise QuantityError(
            f"`{text[:60]}` is not a cable", "write type and sizes, like `UF-B 12/2`, `NM-B 10/3` or `SER 2-2-2-4 Al`"
        )
    kind = _known(form["type"], CABLE_TYPES, "cable type")
    if form["material"] is None and kind not in COPPER_UNLESS_SAID:
        raise QuantityError(f"`{text}` does not say its metal", f"add Cu or Al: `{text} Al`")
    grounded = form["bare"] is None and kind not in NO_GROUND
    sizes, ground = _cable_sizes(kind, form["sizes"], with_ground=grounded)
    material: Material = "Al" if form["material"] == "Al" else "Cu"
    return Cable(kind, sizes, max(sizes), ground, material, " ".join(text.split()))


def _cable_sizes(
    kind: str, written: str, *, with_ground: bool
) -> tuple[tuple[ConductorSize, ...], ConductorSize | None]:
    if "-" in written:
        each = tuple(ConductorSize.parse(size) for size in written.split("-"))
        if len(each) < 3:
            raise QuantityError(
                f"`{written}` can be read in two ways",
                f"write {written.replace('-', '/')} for equal conductors, or name at least three: 2-2-4",
            )
        return (each[:-1], each[-1]) if with_ground else (each, None)
    size, _, count = written.rpartition("/")
    one = ConductorSize.parse(size)
    insulated = int(count) - 1 if with_ground and kind in GROUND_COUNTED else int(count)
    return (one,) * insulated, one if with_ground else None


@lru_cache(maxsize=1024)
def _conductor(text: str) -> Conductor:
    form = re.fullmatch(_CONDUCTOR, " ".join(text.split())) if len(text) <= 60 else None
    if form is None:
        raise QuantityError(
            f"`{text[:60]}` is not a conductor",
            "write count, size, metal and insulation, like `2 × 6 AWG Cu THWN-2` or `10 AWG Cu bare`",
        )
    insulation = _known(form["insulation"], INSULATIONS, "insulation")
    count = int(form["count"] or 1)
    if count == 0:
        raise QuantityError(f"`{text}` counts no conductor", "leave the line out, or count at least 1")
    material: Material = "Al" if form["material"] == "Al" else "Cu"
    return Conductor(count, ConductorSize.parse(form["size"]), material, insulation, " ".join(text.split()))


@lru_cache(maxsize=1024)
def _raceway(text: str) -> Raceway:
    if text.strip() == "none":
        return Raceway("none", None, "none")
    form = re.fullmatch(_RACEWAY, " ".join(text.split())) if len(text) <= 60 else None
    if form is None and text.strip().upper() in RACEWAY_TYPES:
        raise QuantityError(f"`{text}` does not say its trade size", f"add it, like `{text.strip()} 3/4 in`")
    if form is None:
        raise QuantityError(
            f"`{text[:60]}` is not a raceway",
            "write type and trade size, like `PVC-40 3/4 in`, or `none` for no raceway",
        )
    return Raceway(
        _known(form["type"], RACEWAY_TYPES, "raceway type"), TradeSize.parse(form["size"]), " ".join(text.split())
    )


def _known(written: str, names: tuple[str, ...], what: str) -> str:
    if written in names:
        return written
    folded = {name.lower(): name for name in names}
    if written.lower() in folded:
        return folded[written.lower()]
    raise QuantityError(f"`{written}` is not a {what} known here", f"one of: {', '.join(names)}")
