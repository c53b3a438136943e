"""All mistakes of a file are told in one go, as far as one does not make another look wrong."""

from __future__ import annotations

import itertools

import pytest

from precover.plan import Problem
from precover.reading.remains import keeps_its_network, without
from support.refusals import STUDIO, refusals

APART = {
    "a word": ("use: accessory, detached: true", "use: accessory, detached: yes", "true or false belongs"),
    "a key": ("cover: 18 in", "cvoer: 18 in", "`cvoer`"),
    "a unit": ("length: 46 ft", "length: 46 feets", "`46 feets`"),
    "a cable": ("cable: UF-B 12/2", "cable: UF 12/2", "`UF`"),
    "a raceway": ("PVC-80 3/4 in", "PVC 3/4 in", "`PVC`"),
    "a leg": ("{through: wall, ", "{trough: wall, ", "this leg does not say"),
}
JOINING = {
    "an end": ("to: ceiling-box", "to: celing-box", "`celing-box`"),
    "a structure": ("at: studio\n    area: indoors", "at: stduio\n    area: indoors", "`stduio`"),
}


@pytest.mark.parametrize("pair", list(itertools.combinations([*APART, *JOINING], 2)), ids="-".join)
def test_two_mistakes_are_told_together(pair: tuple[str, str]) -> None:
    """Of a value, of a key, of a notation, of a reference: any two."""
    text, said = STUDIO, []
    for name in pair:
        old, new, message = {**APART, **JOINING}[name]
        assert old in text
        text = text.replace(old, new, 1)
        said.append(message)
    told = [problem.message for problem in refusals(text)]
    assert len(told) == 2
    assert all(any(message in one for one in told) for message in said)


@pytest.mark.parametrize("name", APART)
def test_a_circuit_that_is_never_fed_is_told_with_a_mistake_elsewhere(name: str) -> None:
    """What the trace finds, too."""
    old, new, _ = APART[name]
    text = STUDIO.replace(old, new, 1).replace("from: terrace-box", "from: ceiling-box")
    assert sorted("never fed" in problem.message for problem in refusals(text))[-1]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("boxes:\n", "boxs:\n"),
        ("    carries:\n", "    caries:\n"),
        ("    devices:\n", "    devcies:\n"),
        ("  studio:\n    kind: branch circuit\n", "  studio:\n    kind: circuit\n"),
        ("  studio:\n    kind: branch circuit\n", "  studio:\n"),
        ("    to: entry-box\n", "    to: [entry-box]\n"),
        ("    to: entry-box\n", ""),
        ("  ceiling-box:\n    at: studio\n", "  ceiling-box:\n    at: 3\n"),
        ("      studio: {cable: UF-B 12/2}\n", "      studio: UF-B 12/2\n"),
        ("    duty: service equipment\n", "    duty: feeder\n"),
    ],
)
def test_what_is_lost_does_not_make_the_rest_look_wrong(old: str, new: str) -> None:
    """A misspelt `boxes:` is one mistake, and not also a route to a box that is not there."""
    assert old in STUDIO
    assert len(refusals(STUDIO.replace(old, new, 1))) == 1


def test_refused_values_are_left_out_without_moving_others() -> None:
    """Places keep their meaning."""
    data = {"a": {"b~/c": [1, {"d": 2}, 3]}, "e": 4}
    problems = [Problem("/a/b~0~1c/1/d", "", ""), Problem("/e", "", ""), Problem("/a/x", "", "", key=True)]
    assert without(data, problems) == {"a": {"b~/c": [1, {"d": None}, 3]}, "e": None}
    assert data == {"a": {"b~/c": [1, {"d": 2}, 3]}, "e": 4}
    assert without(data, [Problem("", "", "")]) is None


def test_which_mistakes_leave_the_network_whole() -> None:
    """Facts do; names, ends and whatever might have been one do not."""
    apart = [
        "/site/frost",
        "/structures/house/use",
        "/panels/p/main",
        "/circuits/c/breaker/rating",
        "/boxes/b/box/volume",
        "/boxes/b/devices/d/receptacle",
        "/routes/r/legs/3/cover",
        "/routes/r/carries/c/cable",
    ]
    joining = [
        "",
        "/boxes",
        "/boxs",
        "/panels/p",
        "/panels/p/at",
        "/circuits/c/from",
        "/boxes/b/devices",
        "/boxes/b/devices/d",
        "/boxes/b/devices/d/circuit",
        "/boxes/b/devices/d/after",
        "/routes/r/carries",
        "/routes/r/carries/c",
        "/routes/r/to",
    ]
    assert all(keeps_its_network([Problem(place, "", "")]) for place in apart)
    assert not any(keeps_its_network([Problem(place, "", "")]) for place in joining)
    assert not any(keeps_its_network([Problem(place, "", "", key=True)]) for place in ("/boxes/b/x", "/routes/r/x"))
    assert not keeps_its_network([Problem("/boxes/b/devices/d/circut", "", "", key=True)])
