"""Which texts are ours: plans by name, by language or by their first key; packs; nothing else."""

from __future__ import annotations

import pytest

from precover.editor.diagnostics import diagnostics
from precover.editor.kinds import Kind, kind_of
from precover.editor.texts import OpenText
from support.open_texts import FAILING, look, text_of


@pytest.mark.parametrize(
    ("uri", "language", "text", "kind"),
    [
        ("file:///a.plan.yaml", "yaml", "", Kind.PLAN),
        ("file:///a.plan.yml", "yaml.plan", "", Kind.PLAN),
        ("untitled:Untitled-1", "precover-plan", "", Kind.PLAN),
        ("file:///a.yaml", "yaml", "# mine\nformat: precover-plan/1\n", Kind.PLAN),
        ("file:///a.pack.yaml", "yaml", "", Kind.PACK),
        ("file:///a.yaml", "yaml", "format: 'precover-pack/1'\n", Kind.PACK),
        ("file:///a.yaml", "yaml", "format: other/1\n", Kind.OTHER),
        ("file:///myplan.yaml", "yaml", "on: push\n", Kind.OTHER),
    ],
)
def test_kinds(uri: str, language: str, text: str, kind: Kind) -> None:
    """The name says it first."""
    assert kind_of(uri, language, text) is kind


def told(uri: str, text: str) -> list[str]:
    """The messages of a text's diagnostics."""
    made = OpenText(uri, text, 1, "utf-16", "yaml")
    look(made)
    return [one.message for one in diagnostics(made)]


def test_nothing_is_said_of_what_is_not_ours() -> None:
    """Whatever stands in it; the same text as a plan is told."""
    assert told("file:///work.yaml", "on: push\n]") == []
    assert told("file:///work.plan.yaml", "on: push\n]")
    assert told("file:///work.yaml", text_of(FAILING))


def test_a_pack_that_is_no_yaml() -> None:
    """Is told so, in words of packs."""
    (problem,) = told("file:///town.pack.yaml", "format: precover-pack/1\nlimits: &a {}\nother: *a\n")
    assert "a pack has no references" in problem
    assert any("`extends` is missing" in one for one in told("file:///town.pack.yaml", "format: precover-pack/1\n"))
