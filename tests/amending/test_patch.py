"""Patches on plan data, against the library `jsonpatch` (an independent implementation of RFC 6902)."""

from __future__ import annotations

import copy
from typing import Any

import jsonpatch
import pytest
from hypothesis import given
from hypothesis import strategies as st

from precover.amending.patch import PatchError, applied, complete
from precover.amending.prover import Prover
from precover.plan.thing import tokens_of
from precover.reviewing import open_plan, review
from precover.rulebook import Effort, Proposal
from support.reviews import EXAMPLES, library

KEYS = st.sampled_from(["a", "b", "c", "d/e", "f~g"])
VALUES = st.recursive(
    st.booleans() | st.integers(0, 9) | st.text("xyz", max_size=3),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3),
    max_leaves=12,
)


@st.composite
def data_and_step(draw: st.DrawFn) -> tuple[Any, dict[str, Any]]:
    """A mapping and one operation whose place may or may not be there."""
    data = draw(st.dictionaries(KEYS, VALUES, min_size=1, max_size=4))
    path = draw(st.lists(st.sampled_from(["a", "b", "c", "d~1e", "f~0g", "0", "1", "2", "-"]), min_size=1, max_size=3))
    # `-` names the place behind the last item: something can be added there, and the library removes what is before it.
    op = "add" if "-" in path else draw(st.sampled_from(["add", "remove"]))
    step: dict[str, Any] = {"op": op, "path": "/" + "/".join(path)}
    if step["op"] == "add":
        step["value"] = draw(VALUES)
    return data, step


@given(data_and_step())
def test_an_operation_does_what_the_library_does(case: tuple[Any, dict[str, Any]]) -> None:
    """Same result, or both refuse; and the data it was applied to stays as it was."""
    data, step = case
    before = copy.deepcopy(data)
    try:
        expected = jsonpatch.apply_patch(data, [step])
    except (jsonpatch.JsonPatchException, jsonpatch.JsonPointerException):
        with pytest.raises(PatchError):
            applied(data, (step,))
    else:
        assert applied(data, (step,)) == expected
    assert data == before


def test_missing_parents_are_added_first() -> None:
    """A fact of an object that the plan leaves out needs the object."""
    step = {"op": "add", "path": "/circuits/x/breaker/ground-fault", "value": "class A"}
    patch = complete({"circuits": {"x": {}}}, (step,))

    assert patch == ({"op": "add", "path": "/circuits/x/breaker", "value": {}}, step)
    assert jsonpatch.apply_patch({"circuits": {"x": {}}}, list(patch)) == {
        "circuits": {"x": {"breaker": {"ground-fault": "class A"}}}
    }


def test_tokens_are_unescaped() -> None:
    """RFC 6901, section 4: `~1` before `~0`."""
    assert tokens_of("/a~1b/~01") == ["a/b", "~1"]


def test_proposals_of_which_one_takes_away_what_another_needs_are_not_one_edit() -> None:
    """Each of the two is; the search then leaves their set alone."""
    text = (EXAMPLES / "orchard-pump-uncorrected.plan.yaml").read_bytes()
    opened = open_plan("plan.yaml", text)
    prover = Prover(opened, review(opened, library()))
    gone = Proposal("take it out", Effort.PART, ({"op": "remove", "path": "/boxes/post-box/devices/outlet"},))
    other = Proposal("leave it bare", Effort.PART, ({"op": "remove", "path": "/boxes/post-box/devices/outlet/cover"},))
    assert prover.as_one((other, gone)) == (*other.patch, *gone.patch)
    assert prover.as_one((gone, other)) is None
