"""Findings in words, the same in every form."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from precover.reviewing import Line, Review, place_in_words
from precover.rulebook import Cell, Effort, Outcome, Pack, Rule, Severity

EFFORTS: Final = {
    Effort.PAPER: "on paper",
    Effort.DEEPER: "digging a little deeper",
    Effort.PART: "another part",
    Effort.WIRE: "other wire or raceway",
    Effort.DIGGING: "digging",
}
"""What a change costs when it is built."""

AUTHORITY: Final = "for the authority having jurisdiction to decide"


def command_name(file: str) -> str:
    """A file's name as a shell takes it for one word, never for an option."""
    letters = file.replace("/", "").replace("-", "").replace("_", "").replace(".", "")
    if letters.isalnum() and letters.isascii() and not file.startswith("-"):
        return file
    from shlex import quote  # for other names

    return quote(f"./{file}" if file.startswith("-") else file)


def pack_in_words(pack: Pack) -> str:
    """A pack with its edition, or with who adopted it and from when it is in force."""
    said = [f"edition {pack.edition}"] if pack.edition else []
    said += [f"adopted by {pack.adopted_by}"] if pack.adopted_by else []
    said += [f"in force from {pack.effective}"] if pack.effective else []
    return f"{pack.id} ({', '.join(said)})" if said else pack.id


def stop_of(place: str) -> str:
    """The JSON Pointer of the stop of the walk that a place belongs to: a panel, circuit, route, box, structure."""
    tokens = place.split("/")
    return "/".join(tokens[: 2 if tokens[1:2] == ["site"] else 3])


def where(review: Review, place: str) -> str:
    """A place in words."""
    return place_in_words(review.trace.plan, place)


def within(review: Review, place: str) -> str:
    """A place as said at its stop: in words where it has some, else by its keys; empty for the stop itself."""
    stop = stop_of(place)
    words, here = where(review, place), where(review, stop)
    if words != here:
        return words.removeprefix(f"{here}, ")
    return ", ".join(place[len(stop) + 1 :].replace("~1", "/").replace("~0", "~").split("/"))


def line_number(review: Review, place: str) -> int:
    """The line of the plan's text that a place stands in, or would stand in."""
    return review.document.range(place).line


def planned(line: Line) -> str:
    """What the plan has."""
    answer = line.answer
    if answer.asks is not None:
        return f"{answer.of} is not stated"
    return f"{answer.of}: {answer.has}" if answer.of and str(answer.has) else answer.of or str(answer.has)


def needed(line: Line) -> str:
    """What is needed."""
    answer = line.answer
    return f"{answer.relation} {answer.needs}" if answer.relation else str(answer.needs)


def sentence(line: Line) -> str:
    """The finding in one sentence, without its place."""
    answer = line.answer
    if answer.outcome is Outcome.DOES_NOT_APPLY:
        return answer.why or "does not apply"
    parts = [planned(line)]
    if str(answer.needs):
        parts.append(f"needed: {needed(line)}")
    if answer.why:
        parts.append(answer.why)
    if open_to_authority(line):
        parts.append(AUTHORITY)
    return "; ".join(part for part in parts if part) or line.rule.asks


def open_to_authority(line: Line) -> bool:
    """No fact is missing, yet no rule can tell: somebody with authority has to decide."""
    return line.answer.outcome is Outcome.CANNOT_TELL and line.answer.asks is None


def deciding(line: Line) -> list[Cell]:
    """The cell that the answer was compared with; where a rule says its limit in words, the cells that read like it."""
    if line.answer.limit is not None:
        return [line.answer.limit]
    limit = str(line.answer.needs)
    return list(dict.fromkeys(cell for cell in line.cells if limit and limit in (cell.text, cell.twin_text)))


def provenance(cell: Cell) -> str:
    """Where a value comes from, in a few words."""
    words = f"{cell.table} ({', '.join(cell.key)}), set by {cell.set_by}"
    if cell.was is not None:
        words += f" ({cell.source}), before that {cell.was.text} by {cell.was.set_by}"
    return f"{words}; {doubt(cell)}" if cell.from_memory else words


def required_by(rule: Rule) -> str:
    """The pack that brought a rule, or that changed its severity."""
    if rule.was is None:
        return rule.set_by
    return f"{rule.set_by} as {rule.severity.word}, before that {rule.was.severity.word}"


def doubt(cell: Cell) -> str:
    """How sure a value is that no published page was seen for."""
    return "from memory, to be verified" if "from memory" in cell.source else f"{cell.confidence} confidence"


def counts(severities: Iterable[Severity]) -> dict[str, int]:
    """How many there are of each severity, worst first."""
    found = list(severities)
    return {severity.word: found.count(severity) for severity in sorted(set(found), reverse=True)}


def counted(found: dict[str, int]) -> str:
    """Counts by severity in words."""
    return ", ".join(f"{number} {_NOUNS[word][number != 1]}" for word, number in found.items())


_NOUNS = {
    "danger": ("danger", "dangers"),
    "correction": ("correction", "corrections"),
    "query": ("query", "queries"),
    "advice": ("note of advice", "notes of advice"),
}
