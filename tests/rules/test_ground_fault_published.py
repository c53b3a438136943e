"""Published decisions on ground-fault protection of receptacles, through the whole tool."""

from __future__ import annotations

import pytest

from support.receptacles import BENCH, POST, RULE, TERRACE, studio
from support.reviews import outcome, reviewed_example


def test_raised_floor() -> None:
    """Deck blocks, floor a step up: item (2) does not ask, the outdoor receptacle counts all the same.

    Trade forum, 210.8(A)(2): https://forums.mikeholt.com/threads/210-8-a-2.2590308
    """
    raised = {"floor": "above grade"}
    assert outcome(studio(structure=raised), RULE, BENCH) == "does not apply"
    assert outcome(studio(structure=raised, box={"area": "outdoors", "location": "damp"}), RULE, BENCH) == "not met"


@pytest.mark.parametrize("habitable", [False, True])
def test_finished_shed_a_foot_above_grade(habitable: bool) -> None:
    """A finished wood shed with its floor 12 in above grade is not in item (2).

    Trade forum, 210.8(A)(2): https://forums.mikeholt.com/threads/210-8-a-2.2574758
    """
    of = studio(structure={"floor": "above grade", "habitable": habitable})
    assert outcome(of, RULE, BENCH) == "does not apply"


def test_shed_on_skids() -> None:
    """A home inspector counts sheds on skids as on grade; a plan that calls their floor so gets his answer, one
    that does not say gets a question (published sources disagree about raised floors).

    Home inspection blog: https://siteprohomeinspections.blogspot.com/2017/06/does-electric-recepticle-outlet-in.html
    """
    assert outcome(studio(structure={"floor": "at or below grade"}), RULE, BENCH) == "not met"
    assert outcome(studio(structure={"floor": None}), RULE, BENCH) == "cannot tell"


@pytest.mark.parametrize("amps", ["15 A", "20 A"])
def test_storage_shed_at_grade(amps: str) -> None:
    """125 V, 15 and 20 A in a storage shed with its floor at grade: protection required.

    Home inspection blog: https://siteprohomeinspections.blogspot.com/2017/06/does-electric-recepticle-outlet-in.html
    """
    assert outcome(studio(bench={"receptacle": amps, "voltage": "125 V"}), RULE, BENCH) == "not met"


def test_upstream_protection_is_enough_outdoors() -> None:
    """The receptacle need not be the device; it needs the protection.

    Trade forum, GFI: https://forums.mikeholt.com/threads/gfi.27346
    """
    for amps in ("15 A", "20 A"):
        patch = {"boxes": {"post-box": {"devices": {"outlet": {"receptacle": amps, "ground-fault": False}}}}}
        assert outcome(reviewed_example("orchard-pump", patch), RULE, POST) == "met"


def test_outdoors_at_a_dwelling() -> None:
    """Outdoors every receptacle, save on a dedicated de-icing circuit (tested with the rule).

    How to Wire a House, outside codes: https://www.howtowireahouse.com/outside-codes/
    """
    assert outcome(studio(), RULE, TERRACE) == "not met"


@pytest.mark.parametrize("amps", ["15 A", "20 A", "30 A", "50 A"])
@pytest.mark.parametrize("volts", ["125 V", "250 V"])
def test_garage_since_2020(volts: str, amps: str) -> None:
    """125 to 250 V up to 50 A in a dwelling's garage: class A protection.

    JeopardyLabs, NEC 2020 season 1 (a weak source): https://jeopardylabs.com/play/season-1-nec-2020
    """
    of = studio(structure={"use": "garage"}, box={"area": "garage"}, bench={"receptacle": amps, "voltage": volts})
    assert outcome(of, RULE, BENCH) == "not met"


@pytest.mark.parametrize(("volts", "amps"), [("250 V", "20 A"), ("125 V", "30 A"), ("250 V", "50 A")])
def test_large_outdoor_receptacles_left_out_before_2020(volts: str, amps: str) -> None:
    """An older page says that outdoor receptacles over 125 V or 20 A need nothing. That was so to 2017; the edition
    in force here has covered them since 2020, so the answer is the opposite.

    Electrical Contractor, Article 210: http://www.ecmag.com/section/codes-standards/article-210-branch-circuits-5?qt-issues_block=1
    """
    of = studio(box={"area": "outdoors", "location": "wet"}, bench={"receptacle": amps, "voltage": volts})
    assert outcome(of, RULE, BENCH) == "not met"
