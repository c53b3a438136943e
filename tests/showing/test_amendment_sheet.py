"""The sheet of amendments: how one is taken, and which cannot be written into the file."""

from __future__ import annotations

import json

import pytest

from precover.amending.amendment import Amendment, amendments
from precover.amending.prover import Prover
from precover.reviewing import Review, open_plan
from precover.showing.amendment_json import amendments_json
from precover.showing.amendment_sheet import put_amendments
from precover.showing.sheet import Sheet
from support.reviews import EXAMPLES, library

COMMENT = "bushing: false  # none in the shop"
NEEDS_A_HAND = "by hand     this cannot be written into the file for you: a comment would be lost; edit it by hand"


@pytest.fixture
def offered() -> tuple[Review, list[Amendment]]:
    """The orchard pump with a comment, and two amendments, the first of which would take the comment with it."""
    from precover.reviewing import review

    text = (EXAMPLES / "orchard-pump-uncorrected.plan.yaml").read_text(encoding="utf-8")
    opened = open_plan("pump.yaml", text.replace("bushing: false", COMMENT).encode())
    made = review(opened, library())
    least = amendments(Prover(opened, made))[0]
    lost = least._replace(patch=({"op": "remove", "path": "/routes/to-pump/legs/2"},))
    return made, [lost, least]


def sheet_of(made: Review, amended: list[Amendment]) -> str:
    sheet = Sheet(120)
    put_amendments(sheet, made, amended)
    return sheet.plain()


def test_what_cannot_be_written_is_said_beforehand(offered: tuple[Review, list[Amendment]]) -> None:
    made, both = offered
    sheet = sheet_of(made, both)
    assert " ".join(NEEDS_A_HAND.split()) in " ".join(sheet.split())
    assert sheet.count("by hand ") == 1
    assert "precover amend pump.yaml --write --choose 2" in sheet
    assert "comments and layout stay" in sheet
    record = json.loads(amendments_json(made, both))
    assert [one["by_hand"] for one in record["amendments"]] == ["a comment would be lost; edit it by hand", ""]


def test_where_none_can_be_written_no_command_is_shown(offered: tuple[Review, list[Amendment]]) -> None:
    made, (lost, _) = offered
    sheet = sheet_of(made, [lost])
    assert "--write" not in sheet
    assert "Make its changes in the file yourself." in sheet
