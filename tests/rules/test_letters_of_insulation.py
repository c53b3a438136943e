"""The tables of insulations against what the letters of their names mean (common practice, as wire makers' catalogs spell
it out): H for 75 °C in the dry, HH for 90 °C, -2 for 90 °C in the wet as well, W for wet places, U for the earth.
"""

from __future__ import annotations

import pytest

from electrical.tables import keys, value
from precover.plan.conductors import INSULATIONS

USES, TEMPERATURES = "insulation-uses", "conductor-temperatures"
OWN = {
    "MTW": ("90 °C", "60 °C"),
    "SA": ("90 °C", ""),
    "TBS": ("90 °C", ""),
    "ZW": ("90 °C", "75 °C"),
    "USE": ("75 °C", "75 °C"),
}
"""In the dry, in the wet: names from before the letters, or that leave some of them out (from memory)."""
NOT_A_WIRE = ("bare",)


def insulations() -> list[str]:
    """Those of wires; a wire that is listed as several is named with strokes."""
    return [name for name in INSULATIONS if name not in NOT_A_WIRE]


def in_the_dry(name: str) -> str:
    """What the letters say; a wire listed as several may be used as the best of them."""
    if "/" in name:
        return max(in_the_dry(part) for part in name.split("/"))
    if name in OWN:
        return OWN[name][0]
    if name.endswith("-2") or "HH" in name:
        return "90 °C"
    return "75 °C" if "H" in name else "60 °C"


def in_the_wet(name: str) -> str:
    """The same; empty where it is not for wet places."""
    if "/" in name:
        return max(in_the_wet(part) for part in name.split("/"))
    if name in OWN:
        return OWN[name][1]
    if name.endswith("-2"):
        return "90 °C"
    if "U" not in name and "W" not in name:
        return ""
    return "75 °C" if "H" in name else "60 °C"


@pytest.mark.parametrize("name", insulations())
def test_temperatures(name: str) -> None:
    """Of the columns that an ampacity is looked up in."""
    assert value(TEMPERATURES, name, "dry") == in_the_dry(name)
    if in_the_wet(name):
        assert value(TEMPERATURES, name, "wet") == in_the_wet(name)
    assert value(USES, name, "90 °C in a dry place") is (in_the_dry(name) == "90 °C")


@pytest.mark.parametrize("name", insulations())
def test_places(name: str) -> None:
    """Wet places for W and U; the earth for U; buildings for all but what is for the earth alone, which nothing keeps
    from carrying a flame; damp places for all but switchboard wire (from memory)."""
    parts = name.split("/")
    assert value(USES, name, "wet") is bool(in_the_wet(name))
    assert value(USES, name, "direct burial") is any(part[0] == "U" for part in parts)
    assert value(USES, name, "indoors") is any(part not in ("USE", "USE-2") for part in parts)
    assert value(USES, name, "damp") is (name != "TBS")


def test_every_row_is_looked_at() -> None:
    """No use and no insulation beside those above."""
    looked_at = {
        (name, use)
        for name in insulations()
        for use in ("wet", "damp", "direct burial", "indoors", "90 °C in a dry place")
    }
    assert set(keys(USES)) == looked_at


CABLES = {
    "NM-B": ("90 °C", None, "60 °C"),
    "UF-B": ("90 °C", "60 °C", "60 °C"),
    "SE": ("90 °C", "75 °C", "60 °C"),
    "SER": ("90 °C", "75 °C", "60 °C"),
    "SEU": ("90 °C", "75 °C", "60 °C"),
    "MHF": ("90 °C", "90 °C", None),
    "MI": ("90 °C", "90 °C", None),
    "AC": ("90 °C", None, None),
    "MC": ("90 °C", "75 °C", None),
    "TC-ER": ("90 °C", "75 °C", None),
}
"""Dry, wet, and what the kind is held to: the insulation of the wires in today's cables, THHN inside NM-B, XHHW in SE, XHHW-2 and
the like in MHF; for MC and tray cable, which come with either, the lesser (from memory)."""


@pytest.mark.parametrize("name", CABLES)
def test_cables(name: str) -> None:
    """What is in a cable, and what its kind is held to."""
    dry, wet, held = CABLES[name]
    assert value(TEMPERATURES, name, "dry") == dry
    if wet is not None:
        assert value(TEMPERATURES, name, "wet") == wet
    assert ((name, "held to") in set(keys(TEMPERATURES))) is (held is not None)
    if held is not None:
        assert value(TEMPERATURES, name, "held to") == held
