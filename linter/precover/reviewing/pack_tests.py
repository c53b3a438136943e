"""The tests that a pack file carries: plans, and what must come of them under the pack."""

from __future__ import annotations

import json
from collections.abc import Iterator
from difflib import get_close_matches
from pathlib import Path
from typing import Any, Final, NamedTuple

import precover
from precover.plan.thing import escaped
from precover.reading import Located, PlanUnreadable
from precover.reading.source import LARGEST_FILE
from precover.reviewing.opening import open_plan
from precover.reviewing.review import Review
from precover.reviewing.reviewer import review
from precover.rulebook import Outcome, PackUnreadable
from precover.rulebook.book import Library
from precover.rulebook.pack import Pack
from precover.rulebook.packs.file_changes import FileChanges
from precover.rulebook.packs.paths import found

EXAMPLES: Final = Path(precover.__file__).parent / "examples"
ENDING: Final = ".plan.yaml"
_BAD: Final = frozenset({Outcome.NOT_MET, Outcome.CANNOT_TELL})


class Tried(NamedTuple):
    """A test that was tried: its name, and every expectation that did not come true, with its place."""

    name: str
    failed: tuple[Located, ...]


def try_pack(pack: Pack, name: str, library: Library) -> Iterator[Tried]:
    """Every test of a pack file in turn, under that pack; `name` is how the pack was named."""
    changes = pack.read
    if not isinstance(changes, FileChanges):
        return
    for test, said in changes.data.get("tests", {}).items():
        place = f"/tests/{escaped(test)}"
        try:
            made = _reviewed(pack, said, name, library)
        except (PlanUnreadable, PackUnreadable) as problem:
            yield Tried(test, (_told(changes, place, *_why(problem)),))
            continue
        failed = [
            _told(changes, f"{place}/expect/{number}", message, hint)
            for number, expected in enumerate(said["expect"])
            for message, hint in _against(made, expected)
        ]
        failed += [
            _told(changes, place, f"{rule} failed: {why}", "correct the requirement") for rule, why in made.failures
        ]
        yield Tried(test, tuple(failed))


def _reviewed(pack: Pack, said: dict[str, Any], name: str, library: Library) -> Review:
    if ("example" in said) == ("plan" in said):
        raise PackUnreadable("a test starts from an example or from a plan", "write `example`, or `plan`, and not both")
    if "example" in said:
        path, shown = EXAMPLES / f"{said['example']}{ENDING}", f"example {said['example']}"
        names = sorted(one.name.removesuffix(ENDING) for one in EXAMPLES.glob(f"*{ENDING}"))
        if said["example"] not in names:
            near = get_close_matches(said["example"], names, n=1, cutoff=0.4)
            hint = f"did you mean `{near[0]}`?" if near else f"examples: {', '.join(names)}"
            raise PackUnreadable(f"there is no example `{said['example']}`", hint)
    else:
        shown = said["plan"]
        path = found(shown, pack.file.parent if pack.file is not None else None)
    with path.open("rb") as file:
        raw = file.read(LARGEST_FILE + 1)
    if "changes" in said:
        data = merged(open_plan(shown, raw).document.data, said["changes"])
        raw = json.dumps(data, ensure_ascii=False, indent=1).encode()
    return review(open_plan(shown, raw), library, (name,))


def merged(target: Any, patch: Any) -> Any:
    """A merge patch applied (RFC 7396): null takes a key away, a list replaces a list."""
    if not isinstance(patch, dict):
        return patch
    made = dict(target) if isinstance(target, dict) else {}
    for key, value in patch.items():
        if value is None:
            made.pop(key, None)
        else:
            made[key] = merged(made.get(key), value)
    return made


def _against(made: Review, expected: dict[str, Any]) -> Iterator[tuple[str, str]]:
    """What an expectation finds otherwise."""
    rule, answer, at = expected["rule"], expected["answer"], expected.get("at")
    if answer in ("listed", "not listed"):
        here = any(_is(entry.item.id, rule) and at in (None, entry.subject) for entry in made.inspect)
        if not here and answer == "listed":
            yield f"`{rule}` is not on the inspection list", _known(rule, [item.id for item in made.book.inspections])
        if here and answer == "not listed":
            yield f"`{rule}` is on the inspection list", "expect `listed`, or narrow its `when`"
        return
    if answer == "out of force":
        if not any(_is(off.part.id, rule) or off.part.topic == rule for off in made.book.off):
            yield f"`{rule}` is in force", "put it `off`, or expect another answer"
        return
    lines = [line for line in made.ran if _is(line.rule.id, rule)]
    if not lines:
        yield f"no rule `{rule}` ran on this plan", _known(rule, [one.id for one in made.book.rules])
        return
    answers = {line.subject: line.answer.outcome.value for line in lines if at in (None, line.subject)}
    if not answers:
        yield f"`{rule}` did not run on {at}", f"it ran on: {', '.join(sorted(line.subject for line in lines)[:8])}"
    elif answer not in answers.values():
        told = ", ".join(f"{one} on {place or 'the plan'}" for place, one in list(answers.items())[:4])
        yield f"`{rule}` does not answer `{answer}`", f"it answers {told}"
    elif answer in ("met", "does not apply"):
        bad = next((line for line in lines if line.subject in answers and line.answer.outcome in _BAD), None)
        if bad is not None:
            yield f"`{rule}` answers `{bad.answer.outcome.value}` on {bad.subject}", "say which thing with `at`"


def _is(name: str, wanted: str) -> bool:
    return name == wanted or name.endswith(f"/{wanted}")


def _known(rule: str, names: list[str]) -> str:
    ends = {name.rpartition("/")[2]: name for name in names} | {name: name for name in names}
    near = get_close_matches(rule, list(ends), n=1, cutoff=0.5)
    return f"did you mean `{ends[near[0]]}`?" if near else "`precover topics` lists the topics"


def _why(problem: PlanUnreadable | PackUnreadable) -> tuple[str, str]:
    if isinstance(problem, PackUnreadable):
        return problem.message, problem.hint
    first = problem.problems[0]
    return f"the plan cannot be read: {first.message}", first.hint


def _told(changes: FileChanges, pointer: str, message: str, hint: str) -> Located:
    return changes.document.locate(pointer, message, hint)
