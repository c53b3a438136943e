"""Records: made like named tuples, equal when their parts are."""

from __future__ import annotations

import pytest

from precover.record import Record


class Hole(Record):
    """A record with two parts that must be given."""

    wide: int
    deep: int
    why: str = "a post"


class Pit(Record):
    """Another with the same parts."""

    wide: int
    deep: int
    why: str = "a post"


def test_it_is_made_by_place_or_by_name() -> None:
    """What is not given has its default."""
    assert Hole(1, 2) == Hole(1, deep=2) == Hole(deep=2, wide=1, why="a post")
    assert (Hole(1, 2).wide, Hole(1, 2).deep, Hole(1, 2).why) == (1, 2, "a post")
    assert Hole(1, 2, "a tree").why == "a tree"


@pytest.mark.parametrize(
    ("values", "named"),
    [((1,), {}), ((), {"deep": 2}), ((1, 2, "a tree", 4), {}), ((1, 2), {"wide": 3}), ((1, 2), {"long": 3})],
)
def test_what_is_not_its_parts_is_refused(values: tuple[object, ...], named: dict[str, object]) -> None:
    """A part that is missing, one too many, one given twice, one that it does not have."""
    with pytest.raises(TypeError, match="Hole is made of wide, deep, why"):
        Hole(*values, **named)  # type: ignore[arg-type, call-arg]


def test_it_is_known_by_its_parts() -> None:
    """Records are keys; one of another class is another."""
    assert len({Hole(1, 2), Hole(1, 2, "a post"), Hole(1, 3)}) == 2
    assert Hole(1, 2) != Hole(1, 2, "a tree")
    assert Hole(1, 2) != Pit(1, 2)
    assert repr(Hole(1, 2)) == "Hole(wide=1, deep=2, why='a post')"


def test_a_part_is_replaced_in_another() -> None:
    """The first stays as it was."""
    hole = Hole(1, 2)
    assert hole._replace(deep=3) == Hole(1, 3)
    assert hole == Hole(1, 2)
    with pytest.raises(TypeError, match="Hole is made of"):
        hole._replace(long=1)


def test_nothing_of_it_is_changed() -> None:
    """It may be a key."""
    hole = Hole(1, 2)
    with pytest.raises(AttributeError, match="a Hole is not changed once made"):
        hole.deep = 3  # type: ignore[misc]
    assert hole.deep == 2
