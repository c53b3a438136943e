"""Topics: what is listed, and that the values shown under a topic are those its rules read."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from barn_rules import barn_library

from precover.reviewing import Review
from precover.rulebook import Topic
from precover.showing.reads import cells_read
from precover.showing.sheet import Sheet
from precover.showing.topic_sheet import put_in_force, put_topic_list
from precover.showing.topics import topic_list, topic_record
from support.documents import plans_of
from support.reviews import EXAMPLES, library, reviewed, reviewed_example

TOPICS = list(library().topics.values())
BOOK = library().book()


@pytest.mark.parametrize("topic", TOPICS, ids=lambda topic: topic.id)
def test_no_rule_reads_a_value_that_its_topic_does_not_show(topic: Topic) -> None:
    """Over the examples and every plan of the topic's document."""
    shown = {(cell.table, cell.key) for cell in cells_read(topic, BOOK)}
    reviews: list[Review] = [reviewed(path.read_bytes()) for path in EXAMPLES.glob("*.plan.yaml")]
    reviews += [reviewed_example(base, patch) for kind in ("Fails", "Passes") for base, patch in plans_of(topic, kind)]
    read = {
        (cell.table, cell.key)
        for review in reviews
        for line in review.ran
        if line.rule.topic == topic.id
        for cell in line.cells
    }
    assert read <= shown or topic.id in BY_OTHER_WAYS


BY_OTHER_WAYS = {
    "raceway/pulling": "reads wire dimensions through the contents of a raceway; they stand under raceway/fill",
    "sizing/motors": "reads the limit of small motors through the size of their circuit; it stands under sizing/load",
}
"""Topics that read values by ways that their source does not show word for word."""


def test_the_values_shown_are_no_more_than_those_read() -> None:
    """A limit that no rule of a topic names is not shown under it."""
    barns = barn_library()
    book = barns.book(("barn-2023",))
    assert [cell.key for cell in cells_read(barns.topics["ground/trench"], book)] == [
        ("depth in a lawn",),
        ("depth out of reach of a spade",),
    ]
    assert cells_read(barns.topics["barn/outlets"], book) == []


PACKAGE = {
    "__init__.py": "",
    "words.py": "FIRST = 'one'\n",
    "helping.py": "def unused(look):\n    return look.limit('four')\n\ndef used(look):\n    return deeper(look)\n\ndef deeper(look):\n    return look.limit('three')\n",
    "topic.py": (
        "from reading_sample.helping import used\nfrom reading_sample.words import FIRST\n\n"
        "KINDS = {'a': 'two'}\n\n"
        "def direct(look):\n    return look.cell('limits', FIRST)\n\n"
        "def worked_out(look, kind):\n    return look.limit(KINDS[kind])\n\n"
        "def through_another(look):\n    return used(look)\n\n"
        "def by_table(look, row):\n    return look.cell('uses', row, 'wet')\n\n"
        "def spread(look, key):\n    return look.cell('sizes', *key)\n"
    ),
}


def test_lookups_are_found_in_the_source(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Direct ones, by a constant of another module, worked out, and through functions that are imported and used."""
    folder = tmp_path / "reading_sample"
    folder.mkdir()
    for name, text in PACKAGE.items():
        (folder / name).write_text(text, encoding="utf-8")
    monkeypatch.syspath_prepend(tmp_path)
    __import__("reading_sample.topic")
    from precover.showing.reads import _lookups

    found = {
        name: _lookups("reading_sample.topic", name)
        for name in ("direct", "worked_out", "through_another", "by_table", "spread")
    }
    assert found["direct"] == (("limits", (frozenset({"one"}),)),)
    assert found["through_another"] == (("limits", (frozenset({"three"}),)),)
    assert found["by_table"] == (("uses", (None, frozenset({"wet"}))),)
    assert found["spread"] == (("sizes", None),)
    ((_, (words,)),) = found["worked_out"]
    assert "two" in words and "four" not in words
    for name in [name for name in sys.modules if name.startswith("reading_sample")]:
        del sys.modules[name]


def test_every_topic_is_listed() -> None:
    """With its title and id."""
    sheet = Sheet()
    put_topic_list(sheet, topic_list(BOOK))
    text = " ".join(sheet.plain().split())
    for topic in TOPICS:
        assert topic.title in text
        assert f"{topic.id}, {len(topic.rules)} rule" in text


def test_what_is_in_force_under_a_topic() -> None:
    """The rules with severity and stage, values with who set them and how sure they are, and the rows covered."""
    barns = barn_library()
    sheet = Sheet()
    put_in_force(sheet, topic_record(barns.topics["ground/trench"], barns.book(("barn-2023",))))
    assert sheet.plain() == EXPECTED


EXPECTED = """\
Rules of this topic ----------------------------------- barn-2023 (edition 2023)

deep-enough
    checks      Wiring in the ground lies deep enough for what is above it.
    severity    correction
    looked at   open trench
    hazard      damage to the wiring
    look up     Table 2

out-of-reach
    checks      Wiring in the ground lies out of reach of a spade.
    severity    advice
    looked at   open trench
    hazard      damage to the wiring
    look up     Table 2

Values in force ----------------------------------------------------------------

limits
  18 in (450 mm)  [a]  depth in a lawn
  12 in (300 mm)  [b]  depth out of reach of a spade; from memory; A spade of
                       the usual length

set by, source, and how sure it is
  [a] barn-2023; Invented handout - https://example.org/handout (high
      confidence)
  [b] barn-2023; from memory: verify it in the adopted code

Requirements covered -----------------------------------------------------------

depth
    says        Wiring in the ground lies deep enough
    look up     2017: Table 1; 2020: Table 1; 2023: Table 2
    source      Invented handout - https://example.org/handout (high confidence)
"""
