"""Reviews an edited plan again: only what the edit can touch, with the other lines of the review before."""

from __future__ import annotations

from collections.abc import Iterable

from precover.reading.collecting import nothing_is_garbage
from precover.reviewing.changes import changed_places
from precover.reviewing.opening import OpenPlan
from precover.reviewing.review import Review
from precover.reviewing.reviewer import review, run_rules
from precover.rulebook.book import Library
from precover.tracing.around import around, stop_of


def review_since(before: Review, edited: OpenPlan, library: Library, packs: tuple[str, ...] = ()) -> Review:
    """The review of the next version of a plan, as an editor has it after every change: what the change cannot touch is
    taken over from the review before, which was made with the same library and packs. PackUnreadable as for `review`.

    It is whole where the site, the packs or the plan itself changed, or where something failed before.
    """
    places = list(changed_places(before.document.data, edited.document.data))
    if before.faults or any(place.count("/") < 2 for place in places):
        return review(edited, library, packs)
    return review_again(before, edited, places)


def review_again(before: Review, edited: OpenPlan, places: Iterable[str]) -> Review:
    """The review of an edited plan, from the review before the edit and the places that it changed.

    A change of the site, or of the plan as a whole, is reviewed whole.
    """
    touched = around(edited.trace, places)
    if touched is not None:
        was = around(before.trace, places)
        touched = touched | was if was is not None else None
    with nothing_is_garbage():
        ran = run_rules(edited.trace, before.book, touched)
    if touched is not None:
        stays = _Staying(touched)
        ran.lines[:0] = [line for line in before.told if stays(line.subject)]
        ran.passed_over[:0] = [over for over in before.passed_over if stays(over[1])]
    return Review(edited.document, edited.trace, before.book, before.rules_defaulted, ran)


class _Staying:
    """Whether what a review says of a subject still holds: it is at none of the touched stops. What the plan and the site
    say hangs on everything."""

    def __init__(self, touched: frozenset[str]) -> None:
        self.touched = touched
        self.known: dict[str, bool] = {}

    def __call__(self, subject: str) -> bool:
        stays = self.known.get(subject)
        if stays is None:
            stays = self.known[subject] = subject.count("/") > 1 and stop_of(subject) not in self.touched
        return stays
