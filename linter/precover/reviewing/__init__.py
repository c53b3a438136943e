"""Runs the rules over a plan: from a file's bytes to a review."""

from precover.reviewing.inspecting import ToInspect
from precover.reviewing.opening import OpenPlan, open_data, open_plan
from precover.reviewing.review import Finding, Line, Review
from precover.reviewing.reviewer import book_for, review
from precover.reviewing.wording import place_in_words

__all__ = [
    "Finding",
    "Line",
    "OpenPlan",
    "Review",
    "ToInspect",
    "book_for",
    "open_data",
    "open_plan",
    "place_in_words",
    "review",
]
