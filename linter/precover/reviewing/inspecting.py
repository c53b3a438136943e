"""The inspection list: what only a person on site can see."""

from __future__ import annotations

from precover.record import Record
from precover.rulebook import Inspection, Look, Missing, PackUnreadable, Rulebook
from precover.tracing import Trace


class ToInspect(Record):
    """An entry of the inspection list: what a person on site looks at, with the numbers of this plan."""

    item: Inspection
    subject: str
    says: str


def inspection_list(trace: Trace, book: Rulebook) -> tuple[tuple[ToInspect, ...], dict[str, str]]:
    """Every entry that comes up in a plan, and the entries that failed (id and reason)."""
    look = Look(trace, book.tables)
    found: list[ToInspect] = []
    faults: dict[str, str] = {}
    for subject in trace.subjects():
        for item in book.about(type(subject))[1]:
            try:
                says = _says(item, subject, look)
            except PackUnreadable:
                raise
            except Exception as problem:  # an entry, perhaps a third party's, may fail in any way
                faults.setdefault(item.id, fault(subject.place, problem))
            else:
                if says is not None:
                    found.append(ToInspect(item, subject.place, says))
    return tuple(found), faults


def fault(place: str, problem: Exception) -> str:
    """What is noted of a rule or entry that failed."""
    return f"failed on {place or 'the plan'}: {type(problem).__name__}: {problem}"


def _says(item: Inspection, subject: object, look: Look) -> str | None:
    """What is to be looked at; where that hangs on a fact the plan leaves out, the inspector looks at it."""
    look.begin()
    try:
        return item.says(subject, look)
    except Missing as missing:
        for value in missing.fact.fact.probes():
            look.supposed[missing.fact.place] = value
            try:
                says = _says(item, subject, look)
            finally:
                del look.supposed[missing.fact.place]
            if says is not None:
                return says
        return None
