"""The tables of the base pack, cell by cell, against published copies of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Any

import pytest

from electrical.tables import published, table
from precover.units import ConductorArea, ConductorSize

METAL = {"cu": "Cu", "al": "Al"}
Expected = Iterator[tuple[tuple[str, ...], str, Any]]
"""Key, unit, and what the published row says in it."""


def ampacity() -> Expected:
    for row in published("ampacity_310_16"):
        for celsius in (60, 75, 90):
            if row[f"amp_{celsius}c_a"]:
                key = (METAL[row["material"]], row["size_awg_kcmil"], f"{celsius} °C")
                yield key, "A", row[f"amp_{celsius}c_a"]


def ambient_bands() -> Expected:
    for row in published("ambient_correction_310_15_b_1"):
        yield (f"to {row['ambient_max_c']} °C",), "°F", row["ambient_max_f"]


def ambient_correction() -> Expected:
    for row in published("ambient_correction_310_15_b_1"):
        for celsius in (60, 75, 90):
            if row[f"factor_{celsius}c"]:
                yield (f"to {row['ambient_max_c']} °C", f"{celsius} °C"), "", row[f"factor_{celsius}c"]


def bundling_adjustment() -> Expected:
    for row in published("bundling_adjustment_310_15_c_1"):
        yield (row["ccc_max"] or "more",), "%", row["percent"]


def small_conductor_overcurrent() -> Expected:
    metals = {"cu": ("Cu",), "al_or_cca": ("Al", "copper-clad Al"), "cca": ("copper-clad Al",)}
    for row in published("small_conductor_ocpd_240_4_d"):
        for metal in metals[row["material"]]:
            yield (metal, row["size_awg"]), "A", row["max_ocpd_a"]


def standard_overcurrent() -> Expected:
    for row in published("standard_ocpd_240_6"):
        yield (
            ("fuse" if row["device_class"] == "fuse_only" else "fuse or breaker", row["rating_a"]),
            "A",
            row["rating_a"],
        )


def equipment_grounding_conductor() -> Expected:
    for row in published("egc_250_122"):
        for metal in METAL:
            yield (f"{row['ocpd_not_exceeding_a']} A", METAL[metal]), "size", row[f"egc_{metal}_awg_kcmil"]


def grounding_electrode_conductor() -> Expected:
    for supply in METAL:
        for row in published("gec_250_66"):
            end = row[f"largest_ungrounded_{supply}_max"].replace("1100", "1000")
            up_to = ConductorSize.parse(end).text if end else "larger"
            yield (METAL[supply], up_to, "Cu"), "size", row["gec_cu_awg"]
            yield (METAL[supply], up_to, "Al"), "size", row["gec_al_awg_kcmil"]


def conductor_properties() -> Expected:
    columns = {
        "area_cmil": ("conductor area", "cmil"),
        "strands": ("strands", ""),
        "strand_dia_in": ("strand diameter", "in"),
        "overall_dia_in": ("diameter", "in"),
        "overall_area_sqin": ("cross-section", "in²"),
        "dc_ohm_kft_cu_uncoated_75c": ("resistance Cu", "ohm/kft"),
        "dc_ohm_kft_cu_coated_75c": ("resistance coated Cu", "ohm/kft"),
        "dc_ohm_kft_al_75c": ("resistance Al", "ohm/kft"),
    }
    for row in published("conductor_properties_ch9_t8"):
        stranding = "solid" if row["strands"] == "1" else "stranded"
        for column, (name, unit) in columns.items():
            if row[column]:
                yield (row["size_awg_kcmil"], stranding, name), unit, row[column]


def ac_impedance() -> Expected:
    reactance = {"PVC": "xl_pvc_al_ohm_kft", "aluminum": "xl_pvc_al_ohm_kft", "steel": "xl_steel_ohm_kft"}
    raceways = {"PVC": "pvc", "aluminum": "al_conduit", "steel": "steel"}
    for row in published("ac_impedance_ch9_t9"):
        for raceway, column in reactance.items():
            yield (row["size_awg_kcmil"], raceway, "reactance"), "ohm/kft", row[column]
            for short, metal in METAL.items():
                for kind, name in (("r", "resistance"), ("z085", "impedance")):
                    cell = row[f"{kind}_{short}_{raceways[raceway]}_ohm_kft"]
                    if cell:
                        yield (row["size_awg_kcmil"], raceway, f"{name} {metal}"), "ohm/kft", cell


def raceway_dimensions() -> Expected:
    columns = {
        "internal_dia_in": ("internal diameter", "in"),
        "area_100pct_sqin": ("area", "in²"),
        "area_60pct_sqin": ("60 %", "in²"),
        "area_1wire_53pct_sqin": ("53 %", "in²"),
        "area_2wires_31pct_sqin": ("31 %", "in²"),
        "area_over2_40pct_sqin": ("40 %", "in²"),
    }
    for row in published("conduit_ch9_t4"):
        for raceway in ("PVC-40", "HDPE") if row["raceway"] == "PVC-40_HDPE" else (row["raceway"],):
            for column, (name, unit) in columns.items():
                yield (raceway, row["trade_size_in"], name), unit, row[column]
    for row in published("conduit_od_wall"):
        name = row["raceway"].removesuffix("_steel")
        for raceway in ("PVC-40", "HDPE") if name == "PVC-40" else (name,):
            yield (raceway, row["trade_size_in"], "outside diameter"), "in", row["outside_dia_in"]


def conductor_dimensions() -> Expected:
    names = {
        "THHN_THWN_THWN-2": "THHN/THWN-2",
        "XHH_XHHW_XHHW-2": "XHHW-2",
        "TW_THW_THHW_THW-2": "TW/THW-2",
        "RHH_RHW_RHW-2_no_outer_covering": "RHH/RHW-2",
        "RHH_RHW_RHW-2_with_outer_covering": "RHH/RHW-2 with covering",
        "BARE_solid": "bare solid",
        "BARE_stranded": "bare stranded",
    }
    for row in published("conductor_dims_ch9_t5"):
        yield (names[row["insulation"]], row["size_awg_kcmil"], "diameter"), "in", row["approx_dia_in"]
        yield (names[row["insulation"]], row["size_awg_kcmil"], "area"), "in²", row["approx_area_sqin"]
    for row in published("aluminum_compact_rhh_rhw2_use2_od"):
        yield ("RHH/RHW-2/USE-2 compact Al", row["size_awg_kcmil"], "diameter"), "in", row["nominal_od_in"]


def raceway_fill() -> Expected:
    rows = ("one conductor or cable", "two conductors or cables", "more than two", "nipple")
    for name, row in zip(rows, published("fill_percent_ch9_t1"), strict=True):
        yield (name,), "%", row["max_fill_percent"]


def box_volume() -> Expected:
    kinds = {
        "round_octagonal": "round or octagonal",
        "masonry_per_gang": "masonry, each gang",
        "FS_single_cover_per_gang": "FS, single cover, each gang",
        "FD_single_cover_per_gang": "FD, single cover, each gang",
        "FS_multiple_cover_per_gang": "FS, multiple cover, each gang",
        "FD_multiple_cover_per_gang": "FD, multiple cover, each gang",
    }
    for row in published("box_fill_314_16_a"):
        yield (kinds.get(row["box_type"], row["box_type"]), row["trade_dims_in"]), "in³", row["min_volume_cuin"]


def box_allowance() -> Expected:
    for row in published("box_volume_per_conductor_314_16_b"):
        yield (row["size_awg"],), "in³", row["volume_cuin"]


def support_spacing() -> Expected:
    methods = {"PVC": ("PVC-40", "PVC-80"), "NM": ("NM-B",), "UF": ("UF-B",)}
    cases = {
        "straight run with threaded couplings": "straight, threaded couplings",
        "first fastening where no structural member is nearer": "no structural member nearer",
        "unbroken length, first fastening where no structural member is nearer": "no structural member nearer",
        "single-gang nonmetallic box without cable clamp": "single-gang nonmetallic box without clamp",
    }
    for row in published("raceway_support"):
        for method in methods.get(row["method"], (row["method"],)):
            key = (method, row["trade_size_in"], cases.get(row["case"], "general"))
            yield (*key, "between supports"), "ft", row["max_support_spacing_ft"]
            yield (*key, "from a box"), "in", row["max_distance_from_termination_in"]


def pvc_expansion() -> Expected:
    for row in published("pvc_expansion_352_44"):
        yield (f"{row['temp_change_f']} °F",), "in", row["length_change_in_per_100ft"]


def thermal_expansion() -> Expected:
    rows = {(row["quantity"], row["unit"]): row["value"] for row in published("pvc_expansion_constants_352_44")}
    yield ("PVC",), "", rows["pvc_expansion_coefficient", "mm per mm per degC"]
    yield ("steel",), "", rows["steel_conduit_expansion_coefficient", "mm per mm per degC"]


def motor_current() -> Expected:
    for row in published("motor_flc_430_248"):
        for volts in (115, 200, 208, 230):
            yield (f"{row['hp'].replace('-', ' ')} hp", f"{volts} V"), "A", row[f"flc_{volts}v_a"]


def overhead_clearance() -> Expected:
    cells = (
        ("over walks for pedestrians only", "150 V to ground"),
        ("over residential property and driveways", "300 V to ground"),
        ("over residential property and driveways", "over 300 V to ground"),
        ("over streets, truck parking and farm land", "any"),
        ("over railroad tracks", "any"),
        ("over a roof", "any"),
        None,
        ("over a roof of 4 in 12 or steeper", "300 V between conductors"),
        ("over a roof overhang only", "300 V between conductors"),
        None,
        ("past a roof edge", "any"),
        ("from chimneys, signs, antennas and tanks", "any"),
        ("beside a building wall", "any"),
        ("from openable windows, doors, porches and stairs", "any"),
        ("point of attachment", "any"),
    )
    for key, row in zip(cells, published("overhead_clearances_225_18_19"), strict=True):
        if key is not None:  # the value of older editions, and an exception that holds for services
            yield key, "ft", row["min_clearance_ft"]


def overhead_span() -> Expected:
    names = ("open conductors", "open conductors, longer", None, None, "festoon lighting")
    for name, row in zip(names, published("overhead_span_min_size_225_6"), strict=True):
        if name is None:  # over 1000 V
            continue
        for column, label, unit in (
            ("span_max_ft", "longest", "ft"),
            ("min_cu_awg", "Cu", "size"),
            ("min_al_awg", "Al", "size"),
        ):
            if row[column]:
                yield (name, label), unit, row[column]


def cable_dimensions() -> Expected:
    for row in published("cable_dimensions"):
        if row["source"] == "manufacturer A":
            for name in ("width", "thickness"):
                yield (row["cable_type"], row["size_with_ground"], name), "in", row[f"{name}_in"]


TABLES: tuple[Callable[[], Expected], ...] = (
    ampacity,
    ambient_bands,
    ambient_correction,
    bundling_adjustment,
    small_conductor_overcurrent,
    standard_overcurrent,
    equipment_grounding_conductor,
    grounding_electrode_conductor,
    conductor_properties,
    ac_impedance,
    raceway_dimensions,
    conductor_dimensions,
    raceway_fill,
    box_volume,
    box_allowance,
    support_spacing,
    pvc_expansion,
    thermal_expansion,
    motor_current,
    overhead_clearance,
    overhead_span,
    cable_dimensions,
)


@pytest.mark.parametrize("expected", TABLES, ids=[expected.__name__ for expected in TABLES])
def test_table(expected: Callable[[], Expected]) -> None:
    """Every published value stands in the pack's table, and nothing else does."""
    of = table(expected.__name__.replace("_", "-"))
    rows = list(expected())
    assert {key for key, _, _ in rows} == set(of.cells)
    wrong = {key: (of[key].value, value) for key, unit, value in rows if not same(of[key].value, unit, value)}
    assert not wrong


def same(held: Any, unit: str, value: str) -> bool:
    """Whether a cell's typed value is the published number in the published unit."""
    if unit == "size":
        return bool(held == ConductorSize.parse(value))
    if unit == "%":
        return bool(100 * held == Fraction(value))
    if unit == "°F":
        return bool(held.amount * Fraction(9, 5) + 32 == Fraction(value))
    return bool((held.in_unit(unit) if unit else held) == Fraction(value))


def test_bands_end_in_both_scales() -> None:
    """The correction bands hold the published end in either scale."""
    for row in published("ambient_correction_310_15_b_1"):
        assert table("ambient-bands")[f"to {row['ambient_max_c']} °C",].twin_text == f"{row['ambient_max_c']} °C"


def test_electrode_rows_in_circular_mils() -> None:
    """The row that is held under 1000 kcmil is printed as 1100 kcmil: no size is made between them."""
    assert ConductorArea.parse("1100 kcmil") < ConductorArea.parse("1250 kcmil")
    assert [
        size for size in ("1000", "1250") if ConductorArea.parse(f"{size} kcmil") <= ConductorArea.parse("1100 kcmil")
    ] == ["1000"]


@pytest.mark.parametrize("expected", TABLES, ids=[expected.__name__ for expected in TABLES])
def test_every_cell_names_its_source(expected: Callable[[], Expected]) -> None:
    """A source stands in every cell, and what was not seen on a page says so and is not called certain."""
    for cell in table(expected.__name__.replace("_", "-")).cells.values():
        assert "://" in cell.source or cell.source.startswith(("from memory", "by definition")), cell
        assert cell.confidence in ("high", "medium", "low")
        assert not (cell.source.startswith("from memory") and cell.confidence == "high"), cell
