"""The people's form: whole sheets word for word, and what must hold of every sheet."""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from barn_rules import HERE, PLAN, barn_proved, barn_review, deep_enough, good_barn

from precover.amending.way import Mark, Way
from precover.reviewing import Finding, Line, Review
from precover.rulebook import Answer, Outcome, Severity
from precover.showing.cautions import CAUTIONS
from precover.showing.items import put_finding
from precover.showing.people import NO_WAYS, put_cautions, put_review
from precover.showing.sentences import sentence
from precover.showing.sheet import Sheet, columns
from support.reviews import EXAMPLES, reviewed


def sheet_of(review: Review, width: int = 80, *, ways: Mapping[Mark, Way] = NO_WAYS, full: bool = False) -> str:
    """A review's sheet as plain text; `full` with the ledger and the whole inspection list."""
    sheet = Sheet(width)
    put_review(sheet, review, ways, ledger=full, inspections=full)
    put_cautions(sheet)
    return sheet.plain()


@pytest.mark.parametrize(
    ("name", "full", "text"),
    [("sheet", False, None), ("sheet-in-full", True, None), ("sheet-clean", False, good_barn())],
)
def test_a_whole_sheet(name: str, full: bool, text: str | None, rewrite_golden: bool) -> None:
    """A sheet as it is kept, at 80 columns."""
    kept = HERE / "expected" / f"{name}.txt"
    made = barn_proved(text)
    found = sheet_of(made.review, ways=made.ways, full=full)
    if rewrite_golden:
        kept.write_text(found, encoding="utf-8")
    assert found == kept.read_text(encoding="utf-8")


@pytest.mark.parametrize("width", [40, 80, 100])
@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.plan.yaml")), ids=lambda path: path.name.split(".")[0])
def test_no_line_is_wider_than_the_sheet(path: object, width: int) -> None:
    """Every line of a bundled example's sheet fits."""
    review = reviewed(path.read_bytes())  # type: ignore[attr-defined]
    for line in sheet_of(review, width, full=True).splitlines():
        assert columns(line) <= width, line


def test_a_workshop_fits_on_one_screen() -> None:
    """The review of a plan with nothing to settle, its inspection list in a few words each, takes one screen."""
    review = reviewed((EXAMPLES / "joinery-workshop.plan.yaml").read_bytes())
    sheet = sheet_of(review)
    assert len(sheet.splitlines()) <= 50
    words = " ".join(sheet.split())
    assert all(entry.item.id.rpartition("/")[2].replace("-", " ") in words for entry in review.inspect)


def test_every_finding_stands_on_the_sheet_once() -> None:
    """Each thing to settle has its own number, and a fact is asked for once however many checks need it."""
    sheet = sheet_of(barn_review())
    numbered = [line for line in sheet.splitlines() if line[:1].isdigit()]
    assert [line.split()[1] for line in numbered] == ["CORRECTION", "QUERY", "ADVICE", "DANGER", "QUERY"]
    assert sheet.count("state it as cover:") == 1
    assert "lies deep enough" in sheet and "out of reach of a spade" in sheet


def test_a_clean_review_does_not_read_as_an_approval() -> None:
    """It says that these checks found nothing, how many could not be told, and that it is no approval."""
    sheet = " ".join(sheet_of(barn_review(good_barn())).split())
    assert "nothing found by these checks" in sheet
    assert "0 could not be told" in sheet
    assert "This review is no approval" in sheet
    for word in ("approved", "passed", "compliant", "all good", "safe", " ok "):
        assert word not in sheet.lower()


def test_rules_that_did_not_run_are_named() -> None:
    """A plugin that could not be loaded is on the sheet, clean or not."""
    sheet = sheet_of(barn_review(good_barn(), failures=(("county", "ImportError: no module"),)))
    assert "county: ImportError: no module" in sheet
    assert "Nothing that they check was checked." in sheet


def test_defaulted_rules_are_said() -> None:
    """A plan that names no pack is told that the default was used."""
    text = (EXAMPLES / "orchard-pump.plan.yaml").read_text(encoding="utf-8")
    assert "the default is used" in sheet_of(reviewed(text.replace("rules: [us-2023]\n", "").encode()))
    assert "the default is used" not in sheet_of(reviewed(text.encode()))


def test_a_limit_from_memory_says_so() -> None:
    """The value that decided carries the doubt with it."""
    text = PLAN.read_text(encoding="utf-8").replace("cover: 14 in", "cover: 6 in")
    sheet = " ".join(sheet_of(barn_review(text)).split())
    assert "limits (depth out of reach of a spade), set by barn-2023; from memory, to be verified" in sheet
    assert "limits (depth in a lawn), set by barn-2023 look up" in sheet


def test_every_caution_is_on_the_sheet() -> None:
    """None may be lost to a change of layout."""
    sheet = " ".join(sheet_of(barn_review()).split())
    assert all(caution in sheet for caution in CAUTIONS)
    assert any("811" in caution for caution in CAUTIONS)


def test_what_the_authority_decides_is_not_said_to_be_wrong() -> None:
    """A query that no fact of the plan could answer names who can."""
    review = barn_review(good_barn())
    line = Line(deep_enough.named("ground/trench", "deep_enough"), "/routes/yard/legs/0", open_answer())
    sheet = Sheet()
    put_finding(sheet, review, 1, Finding(Severity.QUERY, line), {})
    assert "    open        for the authority having jurisdiction to decide\n" in sheet.plain()
    assert (
        sentence(line)
        == "cover: 17 in; needed: deep enough; the soil is odd; for the authority having jurisdiction to decide"
    )


def open_answer() -> Answer:
    """An answer that no rule can give."""
    return Answer(Outcome.CANNOT_TELL, "cover", "17 in", "deep enough", why="the soil is odd")
