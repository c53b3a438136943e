"""Where conductors get warm, and what heat makes of them."""

from __future__ import annotations

from typing import Any

import pytest

from precover.reviewing import Line, Review
from support.reviews import lines, merged, reviewed, reviewed_example
from support.workshop import planer

AMPACITY = "/breaker-for-the-ampacity"
PLANER, STUDIO = "/circuits/planer", "/circuits/studio"


def line(of: Review, place: str, rule: str = AMPACITY) -> Line:
    """The one line of a rule on a circuit."""
    (found,) = [one for one in lines(of, rule, place) if one.subject == place]
    return found


# Heat


def warm(
    leg: dict[str, Any], high: str = "104 °F", use: str = "dwelling", ends: tuple[str | None, ...] = ("indoors",) * 2
) -> Review:
    """The studio's cable to the ceiling as one leg of UF, in a building of some use, between two areas."""
    return reviewed_example(
        "pottery-studio",
        {
            "site": {"design-high": high},
            "structures": {"studio": {"use": use}},
            "boxes": {"entry-box": {"area": ends[0]}, "ceiling-box": {"area": ends[1]}},
            "routes": {
                "garage-wall": {"legs": [{"buried": "lawn", "length": "20 ft"}]},
                "yard": {"legs": [{"buried": "lawn", "length": "20 ft"}]},
                "ceiling": {"carries": {"studio": {"cable": "UF-B 12/2"}}, "legs": [leg]},
            },
        },
    )


def is_warm(of: Review) -> bool:
    """Whether the ampacity of that leg was corrected for heat."""
    noted = [words for words, at in line(of, STUDIO).steps if at == "/site/design-high"]
    return bool(noted)


LONG = {"length": "30 ft", "location": "dry"}


@pytest.mark.parametrize(
    ("leg", "use", "ends", "expected"),
    [
        ({"in": "wall framing", **LONG}, "dwelling", ("indoors", "indoors"), False),
        ({"in": "wall framing", **LONG}, "accessory", ("indoors", "indoors"), True),
        ({"in": "wall framing", **LONG}, "dwelling", ("indoors", "garage"), False),
        ({"in": "wall framing", **LONG}, "dwelling", ("attic", "garage"), True),
        ({"in": "wall framing", **LONG}, "dwelling", ("crawl space", "outdoors"), True),
        ({"in": "attic", **LONG}, "dwelling", ("indoors", "indoors"), True),
        ({"in": "crawl space", **LONG}, "dwelling", ("indoors", "indoors"), True),
        ({"in": "garage", **LONG}, "dwelling", ("indoors", "indoors"), True),
        ({"on": "inside wall", **LONG}, "dwelling", ("indoors", "indoors"), False),
        ({"on": "inside wall", **LONG}, "accessory", ("indoors", "indoors"), True),
        ({"on": "outside wall", **LONG}, "dwelling", ("indoors", "indoors"), True),
        ({"on": "post", **LONG}, "dwelling", ("indoors", "indoors"), True),
        ({"rise": "2 ft", "length": "30 ft"}, "dwelling", ("indoors", "indoors"), True),
        ({"overhead": "yard", "length": "30 ft"}, "dwelling", ("indoors", "indoors"), True),
        ({"through": "wall", "length": "30 ft"}, "accessory", ("indoors", "indoors"), False),
        ({"buried": "lawn", "length": "30 ft"}, "accessory", ("indoors", "indoors"), False),
    ],
)
def test_where_it_is_as_hot_as_outdoors(leg: dict[str, Any], use: str, ends: tuple[str, str], expected: bool) -> None:
    """Outdoors, in the air, in whatever is not the living part of a dwelling; not in the earth, nor in rooms."""
    assert is_warm(warm(leg, use=use, ends=ends)) is expected


def test_an_area_is_asked_for_only_if_the_other_end_is_unheated() -> None:
    """Between a room and an area that is not stated it is no hotter than the table is for."""
    leg = {"in": "wall framing", **LONG}
    assert not is_warm(warm(leg, ends=("indoors", None)))
    assert not is_warm(warm(leg, ends=(None, "indoors")))


@pytest.mark.parametrize(
    ("wire", "high", "too_hot"),
    [
        ("6 AWG Cu TW", "131 °F", False),
        ("6 AWG Cu TW", "132 °F", True),
        ("6 AWG Cu THHN", "185 °F", False),
        ("6 AWG Cu THHN", "186 °F", True),
    ],
)
def test_insulation_that_is_not_made_for_the_heat(wire: str, high: str, too_hot: bool) -> None:
    """TW ends at 55 °C, THHN at 85 °C: beyond, its ampacity is none at all."""
    of = reviewed(planer(wire, "40 A", high))
    answer = line(of, PLANER).answer
    assert answer.outcome.value == "not met"
    column = "60 °C" if "TW" in wire else "90 °C"
    said = f"too hot for insulation of {column}" in [words for words, _ in line(of, PLANER).steps]
    assert (said, str(answer.needs).startswith("at most 0 A for the 0 A of")) == (too_hot, too_hot)
    assert "ambient-correction" in answer.rows


def test_the_sun_on_a_roof_is_in_the_derivation() -> None:
    """60 °F more than the site's 95 °F."""
    run = {"legs": [{"on": "roof", "length": "30 ft", "location": "wet", "sunlight": True}]}
    data = merged(planer("10 AWG Cu THWN-2", high="95 °F"), {"routes": {"planer-run": run}})
    noted = [words for words, at in line(reviewed(data), PLANER).steps if at == "/routes/planer-run/legs/0"]
    assert len(noted) == 1 and noted[0].startswith("on a roof in the sun: ") and "155 °F" in noted[0]


def test_no_breaker_is_small_enough_for_wire_that_is_too_hot() -> None:
    """Not the smallest that is made either, by rounding up from nothing."""
    data = planer("6 AWG Cu TW", "10 A", "132 °F")
    answer = line(reviewed(data), PLANER).answer
    assert (answer.outcome.value, answer.needs) == ("not met", "at most 0 A for the 0 A of 6 AWG Cu on planer-run")
    assert answer.proposals == ()


@pytest.mark.parametrize("on", ["outside wall", "inside wall"])
def test_sun_on_a_wall_adds_nothing(on: str) -> None:
    """Only a roof is counted hotter than the air."""
    run = {"legs": [{"on": on, "length": "30 ft", "location": "wet", "sunlight": True}]}
    data = merged(planer("10 AWG Cu THWN-2", high="95 °F"), {"routes": {"planer-run": run}})
    assert "surroundings of up to 95 °F: × 0.96" in [words for words, _ in line(reviewed(data), PLANER).steps]


def test_larger_wire_is_larger_where_only_the_whole_way_is_too_warm() -> None:
    """UF has 18.2 A in 92 °F. In the yard alone what is warm is short; with the ceiling it is not, and 12 AWG is no way out
    of 12 AWG."""
    patch = {"routes": {"ceiling": {"carries": {"studio": {"cable": "UF-B 12/2"}}}}}
    found = line(reviewed_example("pottery-studio", patch), STUDIO)
    assert found.answer.outcome.value == "not met"
    words = [way.words for way in found.answer.proposals]
    assert words == ["use a 15 A breaker for studio", "use 10 AWG Cu on yard, and PVC-80 1 in on yard"]
