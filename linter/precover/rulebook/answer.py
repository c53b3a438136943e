"""What a rule says of one subject."""

from enum import Enum
from functools import lru_cache
from typing import Literal, NamedTuple

from precover.plan import Unstated
from precover.rulebook.proposal import Proposal
from precover.rulebook.table import Cell
from precover.units import ConductorSize, Quantity, TradeSize

Shown = str | int | Quantity | ConductorSize | TradeSize
"""What can stand as the measured or the required side of an answer."""


class Outcome(Enum):
    """The four answers of a rule."""

    MET = "met"
    NOT_MET = "not met"
    DOES_NOT_APPLY = "does not apply"
    CANNOT_TELL = "cannot tell"


_MET, _NOT_MET = Outcome.MET, Outcome.NOT_MET
"""To read a member of an enumeration takes a third of the time that it takes to make an answer."""


class Answer(NamedTuple):
    """Bare facts; who asked, how bad it is and where to look are added by the reviewer.

    `of` names what was looked at ("cover"); `has` is what the plan has, `needs` what is needed, `relation` how the two
    compare; `why` one sentence. `at` is the JSON Pointer to mark, where it is not the subject itself. `asks` is the
    fact that keeps the rule from telling. `proposals` are ways out, best first. `limit` is the cell that
    `needs` was compared from, where it was one. `rows` are the requirement rows that decided, where not all of the
    rule's did.
    """

    outcome: Outcome
    of: str = ""
    has: Shown = ""
    needs: Shown = ""
    relation: Literal["", "at least", "at most"] = ""
    why: str = ""
    at: str | None = None
    asks: Unstated | None = None
    proposals: tuple[Proposal, ...] = ()
    limit: Cell | None = None
    rows: tuple[str, ...] = ()

    def citing(self, *rows: str) -> "Answer":
        """The answer, with only these of its rule's requirement rows to look up."""
        return _made(Answer, (*self[:-1], rows))


_made = tuple.__new__
"""Makes an answer of all its fields in their order, without the call of the class, which takes as long again."""


def met(of: str, has: Shown, needs: Shown = "", *, why: str = "", at: str | None = None) -> Answer:
    """The requirement is met."""
    return _made(Answer, (_MET, of, has, needs, "", why, at, None, (), None, ()))


def not_met(
    of: str, has: Shown, needs: Shown, *, why: str = "", at: str | None = None, amend: tuple[Proposal, ...] = ()
) -> Answer:
    """The requirement is not met."""
    return Answer(_NOT_MET, of, has, needs, "", why, at, None, amend)


@lru_cache(maxsize=512)
def does_not_apply(why: str) -> Answer:
    """The requirement is not about this subject; `why` is the condition that decided it."""
    return Answer(Outcome.DOES_NOT_APPLY, why=why)


def authority_decides(
    of: str, has: Shown, needs: Shown = "", *, why: str, at: str | None = None, amend: tuple[Proposal, ...] = ()
) -> Answer:
    """No rule can tell, whatever the plan states: `why` is what the authority having jurisdiction has to decide."""
    return Answer(Outcome.CANNOT_TELL, of, has, needs, "", why, at, None, amend)


def at_least(
    of: str, has: Quantity, limit: Cell, *, why: str = "", at: str | None = None, amend: tuple[Proposal, ...] = ()
) -> Answer:
    """`has` must not be below the limit."""
    needed = limit.like(has)
    ok = has >= needed
    return Answer(_MET if ok else _NOT_MET, of, has, needed, "at least", why, at, None, () if ok else amend, limit)


def at_most(
    of: str, has: Quantity, limit: Cell, *, why: str = "", at: str | None = None, amend: tuple[Proposal, ...] = ()
) -> Answer:
    """`has` must not be above the limit."""
    allowed = limit.like(has)
    ok = has <= allowed
    return Answer(_MET if ok else _NOT_MET, of, has, allowed, "at most", why, at, None, () if ok else amend, limit)
