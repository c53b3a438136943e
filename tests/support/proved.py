"""Reviews as the forms take them."""

from __future__ import annotations

from precover.amending.prover import ways_out
from precover.amending.way import Proved
from precover.reviewing import Review, open_plan, review
from support.reviews import library


def unproved(*reviews: Review) -> list[Proved]:
    """Reviews without any proved way out."""
    return [Proved(one, {}) for one in reviews]


def proved(raw: bytes) -> Proved:
    """The review of a plan file with its proved ways out."""
    opened = open_plan("test.plan.yaml", raw)
    made = review(opened, library())
    return Proved(made, ways_out(made, opened))
