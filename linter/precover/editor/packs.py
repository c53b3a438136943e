"""Rule packs in an editor: the one place that says what is wrong with the text of one."""

from __future__ import annotations

from precover.reading import Located, PlanUnreadable, decode, parse


def problems_of(name: str, raw: bytes) -> tuple[Located, ...]:
    """Everything that keeps a pack file from being read, each with its place."""
    try:
        parse(decode(name, raw))
    except PlanUnreadable as problem:
        return tuple(_of_a_pack(one) for one in problem.problems)
    return ()


def _of_a_pack(problem: Located) -> Located:
    """A sentence of the reading floor, which speaks of plans, said of a pack."""
    return problem._replace(message=_words(problem.message), hint=_words(problem.hint))


def _words(text: str) -> str:
    return (
        text.replace("precover-plan/1", "precover-pack/1").replace("a plan", "a pack").replace("the plan", "the pack")
    )
