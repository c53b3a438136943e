"""Raceways: fill, bends, trade size, supports, expansion, pulls and ends."""

from __future__ import annotations

from typing import Any

import pytest

from support.reviews import asked, merged, reviewed, reviewed_example
from support.reviews import example as bundled
from support.trenches import after_each_proposal, answer_at, steps_at

FILL, BENDS, RADIUS = "fill-of-a-raceway", "bends-between-pull-points-of-a-raceway", "radius-of-a-bend"
YARD, GARAGE, PLANER = "/routes/yard", "/routes/garage-run", "/routes/planer-run"
INSIDE = {"on": "inside wall", "length": "9 ft", "location": "dry", "physical-damage": False}


def _yard(raceway: str, cable: str, width: str | None = None) -> dict[str, Any]:
    carried = {"studio": {"cable": cable, "width": width}}
    return example("pottery-studio", {"routes": {"yard": {"raceway": raceway, "carries": carried}}})


def _planer(wires: dict[str, Any] | None = None, **route: Any) -> dict[str, Any]:
    if wires is not None:
        route["carries"] = {"planer": {"wires": {"ground": None, **wires}}}
    return example("joinery-workshop", {"routes": {"planer-run": route}})


def example(name: str, patch: dict[str, Any] | None = None) -> dict[str, Any]:
    """A bundled example with a patch; a fact that is None is left out of legs too."""
    data = bundled(name, patch or {})
    for route in data["routes"].values():
        route["legs"] = [{key: value for key, value in leg.items() if value is not None} for leg in route["legs"]]
    return data


# Fill


@pytest.mark.parametrize(
    ("raceway", "cable", "width", "answer"),
    [
        ("PVC-80 3/4 in", "UF-B 12/2", None, "met"),
        ("PVC-80 1/2 in", "UF-B 12/2", None, "cannot tell"),
        ("PVC-80 1/2 in", "UF-B 12/2", "0.38 in", "met"),
        ("PVC-80 1/2 in", "UF-B 12/2", "0.39 in", "not met"),
        ("PVC-80 1/2 in", "UF-B 6/3", None, "not met"),
        ("PVC-80 2 in", "UF-B 6/3", None, "met"),
        ("PVC-80 1-1/4 in", "UF-B 6/3", None, "cannot tell"),
        ("PVC-80 2 in", "SER 2-2-2-4 Al", None, "cannot tell"),
        ("PVC-80 2 in", "SER 2-2-2-4 Al", "1.1 in", "met"),
        ("RTRC 4 in", "UF-B 12/2", None, "cannot tell"),
        ("none", "UF-B 12/2", None, "does not apply"),
    ],
)
def test_one_cable(raceway: str, cable: str, width: str | None, answer: str) -> None:
    """53 % of the raceway: decided by bounds of the width where these decide, else by the width."""
    assert answer_at(_yard(raceway, cable, width), FILL, YARD) == answer


def test_the_width_is_asked_for_only_where_it_decides() -> None:
    """A roomy raceway does not need it."""
    place = f"{YARD}/carries/studio/width"
    assert place in asked(reviewed(_yard("PVC-80 1/2 in", "UF-B 12/2")))
    assert place not in asked(reviewed(_yard("PVC-80 3/4 in", "UF-B 12/2")))
    assert place not in asked(reviewed(_yard("PVC-80 1/2 in", "UF-B 6/3")))


def test_two_cables_may_take_less_than_one() -> None:
    """31 % of 1 in is less than 53 %: 0.258 in² for two of at most 0.212."""
    second = {"carries": {"more": {"cable": "UF-B 12/2"}}}
    more = {"kind": "branch circuit", "from": "house-panel", "breaker": {"rating": "20 A"}}
    patch = {
        "circuits": {"more": more},
        "routes": {"yard": second, "garage-wall": second},
        "boxes": {"entry-box": {"devices": {"main-switch": {"circuit": "studio"}, "bench-outlet": {"circuit": "studio"}}},
                  "terrace-box": {"devices": {"terrace-outlet": {"circuit": "studio"}}}},
    }  # fmt: skip
    data = merged(_yard("PVC-40 1 in", "UF-B 12/2"), patch)
    assert answer_at(data, FILL, YARD) == "cannot tell"
    assert "two conductors or cables" in " ".join(
        steps_at(merged(data, {"routes": {"yard": {"raceway": "PVC-40 2 in"}}}), FILL, YARD)
    )


@pytest.mark.parametrize(
    ("wires", "raceway", "answer"),
    [
        ({"hot": "9 × 12 AWG Cu THHN"}, "EMT 1/2 in", "met"),
        ({"hot": "10 × 12 AWG Cu THHN"}, "EMT 1/2 in", "not met"),
        ({"hot": "2 × 10 AWG Cu RHW-2", "ground": "10 AWG Cu RHW-2"}, "EMT 1/2 in", "cannot tell"),
        ({"hot": "2 × 10 AWG Cu RHW-2", "ground": "10 AWG Cu RHW-2"}, "EMT 3/4 in", "met"),
        ({"hot": "2 × 2 AWG Al XHHW-2", "ground": "4 AWG Al XHHW-2"}, "EMT 3/4 in", "not met"),
        ({"hot": "2 × 2 AWG Al XHHW-2", "ground": "4 AWG Al XHHW-2"}, "EMT 1 in", "met"),
        ({"hot": "2 × 10 AWG Cu THHN", "ground": "10 AWG Cu bare"}, "EMT 1/2 in", "met"),
        ({"hot": "2 × 600 kcmil Cu THHN"}, "EMT 4 in", "cannot tell"),
        ({"hot": "2 × 14 AWG Cu ZW", "ground": "14 AWG Cu ZW"}, "EMT 1 in", "met"),
        ({"hot": "8 × 14 AWG Cu ZW"}, "EMT 1/2 in", "cannot tell"),
    ],
)
def test_wires(wires: dict[str, str], raceway: str, answer: str) -> None:
    """40 % of the raceway for more than two; what a maker decides lies within bounds."""
    assert answer_at(_planer(wires, raceway=raceway), FILL, PLANER) == answer


def test_equal_conductors_round_up() -> None:
    """Seven 10 AWG THHN take 0.1477 in² of RMC 1/2: 5.92 fit, so six are taken, and seven are not."""
    assert answer_at(_planer({"hot": "6 × 10 AWG Cu THHN"}, raceway="RMC 1/2 in"), FILL, PLANER) == "met"
    assert answer_at(_planer({"hot": "7 × 10 AWG Cu THHN"}, raceway="RMC 1/2 in"), FILL, PLANER) == "not met"
    mixed = {"hot": "5 × 10 AWG Cu THHN", "ground": "10 AWG Cu THW"}
    assert answer_at(_planer(mixed, raceway="RMC 1/2 in"), FILL, PLANER) == "not met"


@pytest.mark.parametrize(
    ("length", "answer"),
    [("24 in", "met"), ("24.1 in", "not met"), ("600 mm", "met"), ("601 mm", "not met"), (None, "not met")],
)
def test_a_nipple_may_be_fuller(length: str | None, answer: str) -> None:
    """60 % up to 24 in: thirteen 12 AWG in EMT 1/2 (0.173 of 0.182 in²)."""
    legs = [{"on": "inside wall", "length": length}]
    assert answer_at(_planer({"hot": "13 × 12 AWG Cu THHN"}, raceway="EMT 1/2 in", legs=legs), FILL, PLANER) == answer


def test_a_sleeve_is_not_held_to_the_table() -> None:
    """Raceway on the rises only."""
    assert answer_at(example("orchard-pump"), FILL, "/routes/to-pump") == "does not apply"


def test_the_tightest_raceway_of_a_route_counts() -> None:
    """A leg of its own size, which the way out replaces."""
    legs = [{**INSIDE}, {**INSIDE, "raceway": "EMT 1/2 in"}]
    data = _planer({"hot": "2 × 6 AWG Cu THHN", "ground": "10 AWG Cu THHN"}, legs=legs)
    assert answer_at(data, FILL, PLANER) == "not met"
    ways = after_each_proposal(data, FILL, PLANER)
    assert ways == {"use EMT 3/4 in": "met"}


# Bends


def _bent(*bends: str, **route: Any) -> dict[str, Any]:
    legs: list[dict[str, Any]] = [{**INSIDE}]
    for bend in bends:
        legs += [{"bend": bend}, {**INSIDE}]
    return example("joinery-workshop", {"routes": {"garage-run": {"legs": legs, **route}}})


@pytest.mark.parametrize(
    ("bends", "answer"),
    [
        (("90°",) * 4, "met"),
        ((*("90°",) * 4, "1°"), "not met"),
        (("45°",) * 8, "met"),
        ((), "does not apply"),
    ],
)
def test_bends_between_pull_points(bends: tuple[str, ...], answer: str) -> None:
    """360° at the most."""
    assert answer_at(_bent(*bends), BENDS, GARAGE) == answer
    if bends:
        assert answer_at(_bent(*bends, raceway="none"), BENDS, GARAGE) == "does not apply"


def test_a_pull_point_settles_it() -> None:
    """A conduit body in the middle, with a route to it and one on from it, for every part of the way."""
    data = _bent(*("90°",) * 5)
    assert set(after_each_proposal(data, BENDS, GARAGE).values()) == {"met"}


def test_a_rise_out_of_a_trench_turns_up() -> None:
    """With no bend drawn, a quarter bend is counted at either end; out of raceway the count begins anew."""
    rise, lawn = {"rise": "2 ft"}, {"buried": "lawn", "length": "20 ft", "cover": "20 in"}
    bends = [{"bend": "90°"}] * 2
    data = example("joinery-workshop", {"routes": {"yard": {"legs": [*bends, rise, lawn, rise, *bends]}}})
    assert answer_at(data, BENDS, YARD) == "not met"
    bare = {"buried": "lawn", "length": "20 ft", "cover": "20 in", "raceway": "none"}
    data = example("joinery-workshop", {"routes": {"yard": {"legs": [*bends, rise, bare, rise, *bends]}}})
    assert answer_at(data, BENDS, YARD) == "met"


@pytest.mark.parametrize(
    ("raceway", "radius", "answer"),
    [
        ("EMT 3/4 in", "4.5 in", "met"),
        ("EMT 3/4 in", "4.4 in", "not met"),
        ("PVC-40 3/4 in", "4.5 in", "cannot tell"),
        ("PVC-40 3/4 in", "4.4 in", "not met"),
        ("PVC-40 3/4 in", "5 in", "met"),
        ("LFMC 3/4 in", "4.9 in", "not met"),
        ("LFMC 3/4 in", "5 in", "met"),
        ("EMT 3/4 in", None, "does not apply"),
        ("none", "1 in", "does not apply"),
    ],
)
def test_radius_of_a_bend(raceway: str, radius: str | None, answer: str) -> None:
    """By trade size, and by how it is bent."""
    data = _planer(raceway=raceway, legs=[{**INSIDE}, {"bend": "90°", "radius": radius}, {**INSIDE}])
    place = f"{PLANER}/legs/1"
    assert answer_at(data, RADIUS, place) == answer
    assert set(after_each_proposal(data, RADIUS, place).values()) <= {"met"}


# Trade size


@pytest.mark.parametrize(
    ("raceway", "length", "device", "answer"),
    [
        ("EMT 1/2 in", "18 ft", {}, "met"),
        ("FMC 3/8 in", "5 ft", {}, "not met"),
        ("FMC 3/8 in", "6 ft", {"motor": "1 hp"}, "met"),
        ("FMC 3/8 in", "6.1 ft", {"motor": "1 hp"}, "not met"),
        ("FMC 3/8 in", None, {"motor": "1 hp"}, "cannot tell"),
        ("EMT 3/8 in", "6 ft", {"motor": "1 hp"}, "not met"),
        ("none", "6 ft", {}, "does not apply"),
    ],
)
def test_smallest_trade_size(raceway: str, length: str | None, device: dict[str, Any], answer: str) -> None:
    """1/2, or 3/8 for a short flexible end at equipment."""
    data = _planer(raceway=raceway, legs=[{"on": "inside wall", "length": length}])
    if device:
        data = merged(data, {"boxes": {"planer-box": {"devices": {"planer-outlet": None, "planer": device}}}})
    assert answer_at(data, "smallest-raceway", PLANER) == answer
    assert set(after_each_proposal(data, "smallest-raceway", PLANER).values()) <= {"met"}


# Supports


@pytest.mark.parametrize(
    ("raceway", "spacing", "answer"),
    [
        ("EMT 3/4 in", "10 ft", "met"),
        ("EMT 3/4 in", "10.1 ft", "not met"),
        ("PVC-80 1 in", "3 ft", "met"),
        ("PVC-80 1 in", "3.1 ft", "not met"),
        ("PVC-80 1-1/4 in", "5 ft", "met"),
        ("LFMC 3/4 in", "4.6 ft", "not met"),
        ("RTRC 1 in", "3 ft", "does not apply"),
        ("EMT 3/4 in", None, "does not apply"),
    ],
)
def test_spacing_of_supports(raceway: str, spacing: str | None, answer: str) -> None:
    """By type and size."""
    data = _planer(raceway=raceway, legs=[{**INSIDE, "support-spacing": spacing}])
    assert answer_at(data, "spacing-of-supports", f"{PLANER}/legs/0") == answer
    assert set(after_each_proposal(data, "spacing-of-supports", f"{PLANER}/legs/0").values()) <= {"met"}


@pytest.mark.parametrize(
    ("raceway", "distance", "answer"),
    [("EMT 3/4 in", "3 ft", "met"), ("EMT 3/4 in", "37 in", "not met"), ("LFMC 3/4 in", "12 in", "met"),
     ("LFMC 3/4 in", "13 in", "not met"), ("EMT 3/4 in", None, "does not apply")],
)  # fmt: skip
def test_support_near_the_end(raceway: str, distance: str | None, answer: str) -> None:
    """36 in, or 12 in for flexible raceway."""
    data = _planer(raceway=raceway, legs=[{**INSIDE, "support-from-end": distance}])
    assert answer_at(data, "support-near-the-end", f"{PLANER}/legs/0") == answer


# Expansion


def _wall(length: str | None, fitting: bool | None = None, sun: bool | None = None) -> dict[str, Any]:
    leg = {"on": "outside wall", "length": length, "location": "wet", "physical-damage": True}
    legs = [{"bend": "90°"}, {**leg, "expansion-fitting": fitting, "sunlight": sun}, {"bend": "90°"}]
    return example("pottery-studio", {"routes": {"yard": {"legs": legs}}})


@pytest.mark.parametrize(
    ("length", "fitting", "sun", "answer"),
    [
        ("7 ft", None, False, "met"),
        ("7.1 ft", False, False, "not met"),
        ("7.1 ft", None, False, "cannot tell"),
        ("7.1 ft", True, False, "met"),
        ("7 ft", False, True, "not met"),
        ("5 ft", None, True, "met"),
        (None, True, True, "met"),
        (None, None, False, "cannot tell"),
    ],
)
def test_expansion_of_a_straight_run(length: str | None, fitting: bool | None, sun: bool | None, answer: str) -> None:
    """From 5 to 92 °F, 7.09 ft of PVC move 1/4 in; with 30 °F of sun, 5.27 ft."""
    assert answer_at(_wall(length, fitting, sun), "expansion-of-a-straight-run", YARD) == answer


def test_expansion_needs_the_temperatures_only_for_pvc_outdoors() -> None:
    """Asked for where a run has no fitting; not for metal, and not indoors."""
    unknown = {"site": {"design-low": None}}
    assert "/site/design-low" in asked(reviewed(merged(_wall("20 ft", False), unknown)))
    assert "/site/design-low" not in asked(reviewed(merged(_wall("20 ft", True), unknown)))
    metal = merged(_wall("20 ft", False), {**unknown, "routes": {"yard": {"raceway": "RMC 3/4 in"}}})
    assert answer_at(metal, "expansion-of-a-straight-run", YARD) == "does not apply"


def test_a_slip_fitting_serves_the_wall_above() -> None:
    """The rise goes straight on."""
    data = _wall("20 ft", False)
    data["routes"]["yard"]["legs"][0] = {"rise": "2 ft", "slip-fitting": True}
    assert answer_at(data, "expansion-of-a-straight-run", YARD) == "met"
    assert set(after_each_proposal(_wall("20 ft", False), "expansion-of-a-straight-run", YARD).values()) == {"met"}


@pytest.mark.parametrize(
    ("longer", "shorter", "answer"),
    [(True, True, "met"), (True, False, "not met"), (False, True, "not met"), (False, False, "not met")],
)
def test_every_straight_run_has_its_fitting(longer: bool, shorter: bool, answer: str) -> None:
    """The fitting of one run does nothing for the run behind the bend."""
    data = _wall("30 ft", longer)
    run = {"on": "outside wall", "length": "20 ft", "location": "wet", "physical-damage": True, "sunlight": False}
    data["routes"]["yard"]["legs"] += [{**run, "expansion-fitting": shorter}]
    assert answer_at(data, "expansion-of-a-straight-run", YARD) == answer
    if answer == "not met":
        assert list(after_each_proposal(data, "expansion-of-a-straight-run", YARD).values()) == ["met"]


# Pulls


@pytest.mark.parametrize(
    ("wires", "raceway", "answer"),
    [
        ({"hot": "3 × 8 AWG Cu THHN"}, "EMT 1/2 in", "not met"),
        ({"hot": "3 × 8 AWG Cu THHN"}, "EMT 3/4 in", "met"),
        ({"hot": "3 × 10 AWG Cu THHN"}, "EMT 1/2 in", "met"),
        ({"hot": "4 × 8 AWG Cu THHN"}, "EMT 1/2 in", "does not apply"),
        ({"hot": "2 × 8 AWG Cu THHN", "ground": "10 AWG Cu THHN"}, "EMT 1/2 in", "does not apply"),
    ],
)
def test_three_wires_that_jam(wires: dict[str, str], raceway: str, answer: str) -> None:
    """A ratio of 2.8 to 3.2, in a bend; advice only."""
    bent = _planer(wires, raceway=raceway, legs=[{**INSIDE}, {"bend": "90°"}])
    assert answer_at(bent, "wires-that-jam", PLANER) == answer
    assert answer_at(_planer(wires, raceway=raceway), "wires-that-jam", PLANER) == "does not apply"
    severe = {one.severity.word for one in reviewed(bent).findings if one.line.rule.id.endswith("wires-that-jam")}
    assert severe <= {"advice"}
    assert set(after_each_proposal(bent, "wires-that-jam", PLANER).values()) <= {"met"}


@pytest.mark.parametrize(("length", "answer"), [("60 ft", "met"), ("600 ft", "not met"), (None, "does not apply")])
def test_a_hard_pull(length: str | None, answer: str) -> None:
    """Six hundred feet between two bends press the wire too hard; wide elbows help."""
    legs = [{**INSIDE}, {"bend": "90°"}, {"buried": "lawn", "length": length}, {"bend": "90°"}, {**INSIDE}]
    data = example("joinery-workshop", {"routes": {"yard": {"legs": legs}}})
    assert answer_at(data, "tension-of-the-pull", YARD) == answer
    assert set(after_each_proposal(data, "tension-of-the-pull", YARD).values()) <= {"met"}


# Ends


@pytest.mark.parametrize(
    ("sealed", "area", "answer"),
    [(True, "indoors", "met"), (False, "indoors", "not met"), (None, "indoors", "does not apply"),
     (False, "outdoors", "does not apply"), (False, "garage", "does not apply")],
)  # fmt: skip
def test_opening_between_garage_and_dwelling(sealed: bool | None, area: str, answer: str) -> None:
    """Of one building, between garage and rooms."""
    legs = [{**INSIDE}, {"through": "wall", "length": "8 in", "sealed": sealed}]
    patch = {"boxes": {"pull-box": {"area": area, "location": "dry"}}, "routes": {"garage-run": {"legs": legs}}}
    data = example("joinery-workshop", patch)
    assert answer_at(data, "opening-between-garage-and-dwelling", f"{GARAGE}/legs/1") == answer


def test_the_inspection_list_has_this_raceways_numbers() -> None:
    """Supports, bends, bushings, drainage, the metal path."""

    def says(name: str, patch: dict[str, Any] | None = None) -> dict[tuple[str, str], str]:
        return {(entry.item.id, entry.subject): entry.says for entry in reviewed_example(name, patch or "").inspect}

    joinery = says("joinery-workshop")
    assert "every 10 ft" in joinery["raceway/supports/supports-as-built", PLANER]
    assert "180° planned" in joinery["raceway/bends/bends-as-built", YARD]
    assert "EMT" in joinery["raceway/ends/metal-raceway-in-one-piece", ""]
    assert "planer-run" in joinery["raceway/ends/conductors-of-a-circuit-together", ""]
    assert ("raceway/ends/bushing-for-large-wires", YARD) not in joinery
    large = {"routes": {"yard": {"carries": {"workshop-feeder": {"wires": {"hot": "2 × 4 AWG Cu THWN-2"}}}}}}
    assert "4 AWG" in says("joinery-workshop", large)["raceway/ends/bushing-for-large-wires", YARD]
    out = {
        "routes": {
            "yard": {"legs": [{"on": "outside wall", "raceway": "LFMC 3/4 in"}, {"on": "deck", "raceway": "none"}]}
        }
    }
    pottery = says("pottery-studio", out)
    assert "drain" in pottery["raceway/ends/raceway-outdoors-drains", YARD]
    assert "3 ft" in pottery["raceway/supports/flexible-ends", YARD]
    assert "bushing" in pottery["raceway/ends/end-where-cable-goes-on", YARD]
