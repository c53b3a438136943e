"""Relations that the tables keep with each other and with formulas: a slip of the pen in one of them shows here."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from electrical.computing_raceways import PERCENTS
from electrical.lookups import wire_area
from electrical.tables import keys, limit, published, value
from precover.electrical import wire
from precover.electrical.box_fill import room_for
from precover.electrical.raceway_fill import circle, most_conductors
from precover.electrical.raceway_run import length_change
from precover.units import ConductorSize, Length, TemperatureDifference

WALLS = {"PVC-40_HDPE": "PVC-40", "PVC-80": "PVC-80", "RMC": "RMC_steel", "EMT": "EMT_steel", "IMC": "IMC_steel"}


def unit_of(printed: str) -> float:
    """One unit of the last decimal that is printed."""
    return float(10 ** -len(printed.partition(".")[2]))


def test_raceway_areas_follow_from_internal_diameters() -> None:
    shares = {"area": 1.0, "60 %": 0.6, "53 %": 0.53, "31 %": 0.31, "40 %": 0.4}
    for raceway, size, name in keys("raceway-dimensions"):
        if name in shares:
            whole = circle(value("raceway-dimensions", raceway, size, "internal diameter")).in_unit("in²")
            printed = value("raceway-dimensions", raceway, size, name).in_unit("in²")
            assert abs(float(printed) - shares[name] * float(whole)) <= 0.00055, (raceway, size, name)


def test_internal_diameters_follow_from_product_standards() -> None:
    walls = {(row["raceway"], row["trade_size_in"]): row for row in published("conduit_od_wall")}
    checked = 0
    for row in published("conduit_ch9_t4"):
        of = walls.get((WALLS.get(row["raceway"], ""), row["trade_size_in"]))
        if of is not None:
            wall = float(of["wall_in"]) + float(of["wall_tolerance_plus_in"] or 0) / 2
            inside = float(of["outside_dia_in"]) - 2 * wall
            assert float(row["internal_dia_in"]) == pytest.approx(inside, abs=0.0011), row
            checked += 1
    assert checked == 56


def test_conductor_areas_follow_from_diameters() -> None:
    for insulation, size, name in keys("conductor-dimensions"):
        if name == "area" and (insulation, size) != ("bare stranded", "12"):
            by_circle = circle(value("conductor-dimensions", insulation, size, "diameter")).in_unit("in²")
            slack = 0.00055 if insulation.startswith("bare") else 0.000055
            assert abs(wire_area(insulation, size).in_unit("in²") - by_circle) <= slack, (insulation, size)


def test_circular_mils_by_formula() -> None:
    for row in published("conductor_properties_ch9_t8"):
        by_formula = wire.circular_mils(ConductorSize.parse(row["size_awg_kcmil"]))
        assert float(row["area_cmil"]) == pytest.approx(by_formula, rel=0.0035), row


def test_diameters_and_strands() -> None:
    across = {7: 3, 19: 5, 37: 7}
    for row in published("conductor_properties_ch9_t8"):
        mils, strands, overall = float(row["area_cmil"]), int(row["strands"]), float(row["overall_dia_in"])
        if strands == 1:
            assert overall == pytest.approx(math.sqrt(mils) / 1000, abs=0.00055)
            continue
        strand = math.sqrt(mils / strands) / 1000
        slack = 0.0006 if row["size_awg_kcmil"] == "1/0" else 0.00055
        assert float(row["strand_dia_in"]) == pytest.approx(strand, abs=slack), row
        assert overall == pytest.approx(strand * across[strands], abs=0.0021), row


@pytest.mark.parametrize(("metal", "column"), [("Cu", "dc_ohm_kft_cu_uncoated_75c"), ("Al", "dc_ohm_kft_al_75c")])
def test_resistances_by_formula(metal: wire.Metal, column: str) -> None:
    for row in published("conductor_properties_ch9_t8"):
        size = ConductorSize.parse(row["size_awg_kcmil"])
        by_formula = wire.resistance(size, metal, 75, stranded=row["strands"] != "1") * 0.3048
        assert float(row[column]) == pytest.approx(by_formula, rel=0.0125), row


def test_coated_copper_resists_a_little_more() -> None:
    for row in published("conductor_properties_ch9_t8"):
        ratio = float(row["dc_ohm_kft_cu_coated_75c"]) / float(row["dc_ohm_kft_cu_uncoated_75c"])
        assert 1.02 <= ratio <= 1.085, row


def test_impedance_follows_from_resistance_and_reactance() -> None:
    sine = math.sin(math.acos(0.85))
    for row in published("ac_impedance_ch9_t9"):
        for metal in ("cu", "al"):
            for raceway, column in (("pvc", "xl_pvc_al"), ("al_conduit", "xl_pvc_al"), ("steel", "xl_steel")):
                resistance, whole = row[f"r_{metal}_{raceway}_ohm_kft"], row[f"z085_{metal}_{raceway}_ohm_kft"]
                if resistance:
                    expected = 0.85 * float(resistance) + sine * float(row[f"{column}_ohm_kft"])
                    slack = 0.51 * unit_of(whole) + 0.85 * 0.51 * unit_of(resistance) + 0.0005 * sine
                    assert float(whole) == pytest.approx(expected, abs=slack), (row, metal, raceway)


def test_alternating_current_resistance_is_not_below_direct() -> None:
    direct = {row["size_awg_kcmil"]: row for row in published("conductor_properties_ch9_t8") if row["strands"] != "1"}
    for row in published("ac_impedance_ch9_t9"):
        for metal, column in (("cu", "dc_ohm_kft_cu_uncoated_75c"), ("al", "dc_ohm_kft_al_75c")):
            for raceway in ("pvc", "al_conduit", "steel"):
                printed = row[f"r_{metal}_{raceway}_ohm_kft"]
                if printed:
                    least = float(direct[row["size_awg_kcmil"]][column])
                    rounding = 0.51 * unit_of(printed)
                    assert 0.985 * least - rounding <= float(printed) <= 1.33 * least + rounding, (row, metal)


def test_correction_follows_the_square_root_rule() -> None:
    for row in published("ambient_correction_310_15_b_1"):
        for rated in (60, 75, 90):
            if row[f"factor_{rated}c"]:
                rule = math.sqrt((rated - float(row["ambient_max_c"])) / (rated - 30))
                assert float(row[f"factor_{rated}c"]) == pytest.approx(rule, abs=0.0051), row


@pytest.mark.parametrize(
    ("name", "raceway"),
    [
        ("annex_c_01_emt", "EMT"),
        ("annex_c_04_imc", "IMC"),
        ("annex_c_09_rmc", "RMC"),
        ("annex_c_10_pvc80", "PVC-80"),
        ("annex_c_11_pvc40", "PVC-40"),
    ],
)
def test_maximum_conductor_counts(name: str, raceway: str) -> None:
    """All 650 published counts, recomputed from dimensions; one is published a conductor lower (68.82 of 10 AWG)."""
    one, two, more = PERCENTS
    off = []
    for row in published(name):
        for column, count in row.items():
            if column.startswith("ts_"):
                size = trade_size(column)
                inside = value("raceway-dimensions", raceway, size, "internal diameter")
                each = wire_area("THHN/THWN-2", row["size_awg"])
                computed = most_conductors(
                    inside, each, (one, two, more), limit("fraction of a conductor that rounds up")
                )
                if computed != int(count):
                    off.append((row["size_awg"], size, int(count), computed))
    assert off == ([("10", "2", 68, 69)] if raceway == "IMC" else [])


def trade_size(column: str) -> str:
    """`ts_1_1_4` is 1-1/4, `ts_1_2` is 1/2, `ts_2` is 2."""
    parts = column.removeprefix("ts_").split("_")
    return {1: "{0}", 2: "{0}/{1}", 3: "{0}-{1}/{2}"}[len(parts)].format(*parts)


def test_box_counts() -> None:
    for row in published("box_fill_314_16_a"):
        for (size,) in keys("box-allowance"):
            volume = Fraction(row["min_volume_cuin"]) * 16387064 / 1000
            held = value("box-allowance", size)
            assert room_for(type(held)(volume, "published"), held) == int(row[f"max_{size}awg"]), (row, size)


def test_expansion_table_follows_from_the_coefficient() -> None:
    for row in published("pvc_expansion_352_44"):
        change = TemperatureDifference.of(int(row["temp_change_f"]), "°F")
        moved = length_change(Length.of(100, "ft"), change, value("thermal-expansion", "PVC")).value
        assert float(row["length_change_in_per_100ft"]) == pytest.approx(float(moved.in_unit("in")), abs=0.0051), row


def test_ampacity_grows_with_size_and_with_temperature() -> None:
    for metal in ("Cu", "Al"):
        for celsius in (60, 75, 90):
            column = [value("ampacity", *key).amount for key in keys("ampacity", metal) if key[2] == f"{celsius} °C"]
            assert column == sorted(set(column))
        for size in {key[1] for key in keys("ampacity", metal)}:
            across = [value("ampacity", *key).amount for key in keys("ampacity", metal, size)]
            assert across == sorted(across)


def test_motor_currents_at_other_voltages() -> None:
    for row in published("motor_flc_430_248"):
        at_230 = float(row["flc_230v_a"])
        for column, ratio, slack in (
            ("flc_115v_a", 2.0, 0.061),
            ("flc_208v_a", 1.10, 0.161),
            ("flc_200v_a", 1.15, 0.161),
        ):
            assert float(row[column]) == pytest.approx(at_230 * ratio, abs=slack), row


def test_constants_hang_together() -> None:
    """What the package takes as constants against the published list."""
    listed = {(row["quantity"], row["unit"]): float(row["value"]) for row in published("wire_formula_constants")}
    assert pytest.approx(listed["iacs_100_volume_resistivity_20c", "ohm mm2 per m"], abs=5e-7) == wire.RESISTIVITY["Cu"]
    assert pytest.approx(listed["aluminum_61iacs_resistivity_20c", "ohm mm2 per m"], abs=2e-6) == wire.RESISTIVITY["Al"]
    assert listed["copper_temp_coeff_20c", "per degC"] == wire.COEFFICIENT_AT_20["Cu"]
    assert listed["aluminum_61iacs_temp_coeff_20c", "per degC"] == wire.COEFFICIENT_AT_20["Al"]
    assert listed["stranding_resistance_factor_class_b", "dimensionless"] == wire.STRANDING
    assert listed["copper_temp_coeff_75c", "per degC"] == pytest.approx(
        wire.temperature_coefficient("Cu", 75), abs=5e-6
    )
    assert listed["aluminum_temp_coeff_75c", "per degC"] == pytest.approx(
        wire.temperature_coefficient("Al", 75), abs=5e-6
    )
    assert listed["awg_4/0_diameter", "in"] == pytest.approx(wire.diameter(ConductorSize.parse("4/0")), abs=1e-9)
    step = wire.diameter(ConductorSize.parse("1")) / wire.diameter(ConductorSize.parse("2"))
    assert listed["awg_step_ratio", "dimensionless"] == pytest.approx(step, abs=1e-7)
