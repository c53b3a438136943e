"""The ampacity of hot conductors where they lie, and whether it suffices.

What an ampacity hangs on is asked for only where it matters: a test is tried at the worst (as hot as the site gets, in
a wet place, with all company, on 60 °C terminals), then at the best; only between the two the facts are looked at.
"""

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

from precover.electrical.bands import smallest
from precover.rulebook import Look, Missing
from precover.units import ConductorSize, Current
from precover.units.conductor_size import SCALE
from precover_rules.location import location_of_leg
from precover_rules.sizing.around import AT_60, AT_75, TEMPERATURES, Around, amps_in
from precover_rules.sizing.company import has_company, heat_each_other
from precover_rules.sizing.heat import is_short, warm_legs
from precover_rules.sizing.laid import LARGEST_IN_TABLE, Laid, smallest_made

Test = Callable[[Current], bool]
"""Whether an ampacity suffices; true of every larger one as well."""


class Verdict(NamedTuple):
    """Whether a test holds for conductors where they lie, their ampacity, and the requirement rows that made it so."""

    holds: bool
    amps: Current
    rows: tuple[str, ...]


Fact = tuple[str, Callable[[Laid, Around, Look], tuple[Around, str]]]
"""A field of `Around`, and what looks at it: the surroundings with it as it is, and in words what it does for them."""

BEST = Around(False, False, False, AT_75)


def verdicts(parts: Sequence[Laid], test: Test, look: Look, *, corrected: bool = True) -> list[Verdict]:
    """Whether the hots of a circuit suffice, route by route; the derivation of each ampacity is noted. With `corrected`
    false the ampacities are those before correction for heat and adjustment for company."""
    if not parts:
        return []
    rating = look.stated(parts[0].circuit.breaker.rating)
    # Terminals of larger circuits are made for 75 °C.
    small = rating <= look.limit("circuit on 60 °C terminals").value
    worst = Around(corrected, corrected, True, AT_60 if small else AT_75)
    found: dict[str, Verdict] = {}
    weak: set[str] = set()
    for part in parts:
        noted = len(look.cells), len(look.steps)
        one = found[part.route.id] = _unless_hopeless(part, partial(_try, part, worst, test, look), test, look)
        if not one.holds:
            _forget(look, noted)
            weak.add(part.route.id)
    for part in parts:
        if part.route.id in weak:
            found[part.route.id] = _unless_hopeless(part, partial(_as_it_is, part, worst, weak, test, look), test, look)
    return [found[part.route.id] for part in parts]


def verdict(laid: Laid, test: Test, look: Look) -> Verdict:
    """The same for the hots on one route alone."""
    return verdicts([laid], test, look)[0]


def least_size(
    laid: Laid, test: Callable[[Laid, Current], bool], look: Look, *, larger: bool = False
) -> ConductorSize | None:
    """The smallest size of the same kind of conductors that would do there, by what the plan states; None where none
    does. With `larger` it is larger than theirs, which may do where they are looked at alone, and not along the whole way.
    Nothing of the search goes into the derivation."""
    if len(look.supposed) > 1:
        return None  # a try among many: nobody will see the way out
    noted = len(look.cells), len(look.steps)
    least, most = smallest_made(laid.metal, look).rank, LARGEST_IN_TABLE.rank
    least = max(least, laid.size.rank + 1) if larger else least
    made = (ConductorSize.parse(designation) for designation in SCALE[least : most + 1])
    found = smallest(made, lambda size: _would_do(laid._replace(size=size), test, look))
    _forget(look, noted)
    return found


def least_for(laid: Laid, wanted: Current, look: Look, *, larger: bool = False) -> ConductorSize | None:
    """The smallest size whose ampacity there is not below a current, with `larger` above theirs; None where none is."""
    return least_size(laid, lambda _, amps: amps >= wanted, look, larger=larger)


def smaller_that_does(laid: Laid, test: Callable[[Laid, Current], bool], look: Look) -> ConductorSize:
    """The smallest size, from that of the conductors down, that still does there; their own where no smaller one does,
    or they do not themselves."""
    noted = len(look.cells), len(look.steps)
    size, least = laid.size, smallest_made(laid.metal, look).rank
    for designation in reversed(SCALE[least : laid.size.rank]):
        other = laid._replace(size=ConductorSize.parse(designation))
        does = partial(test, other)
        if not _try(other, BEST, does, look).holds or not verdicts([other], does, look)[0].holds:
            break
        size = other.size
    _forget(look, noted)
    return size


def only_steps_of(laid: Laid, look: Look) -> None:
    """Leaves in the derivation what is about these conductors, each step once: those on other routes are not the matter."""
    within = ("/site/", f"{laid.route.place}/")
    about = (None, laid.route.place, laid.circuit.place, f"{laid.circuit.place}/load")
    look.steps[:] = dict.fromkeys(step for step in look.steps if step[1] in about or step[1].startswith(within))


def _would_do(laid: Laid, test: Callable[[Laid, Current], bool], look: Look) -> bool:
    try:
        return verdicts([laid], partial(test, laid), look)[0].holds
    except Missing:
        return False


def _unless_hopeless(laid: Laid, attempt: Callable[[], Verdict], test: Test, look: Look) -> Verdict:
    """An attempt. Where it lacks a fact, and not even the best surroundings would do, it is not asked for."""
    noted = len(look.cells), len(look.steps)
    try:
        return attempt()
    except Missing:
        _forget(look, noted)
        at_best = _try(laid, BEST, test, look)
        if at_best.holds:
            raise
        return at_best


def _as_it_is(laid: Laid, worst: Around, weak: set[str], test: Test, look: Look) -> Verdict:
    """Between the worst and the best: one fact after the other is looked at, until the test holds with all else at its
    worst, or does not hold with all else at its best."""
    noted = len(look.cells), len(look.steps)
    around, hopeful = worst, BEST
    helped: list[str] = []
    facts: tuple[Fact, ...] = (
        ("warm", partial(_cooler, weak)),
        ("crowded", _apart),
        ("wet", _drier),
        ("terminals", _terminals),
    )
    for number, (fact, look_at) in enumerate(facts, 1):
        around, how = look_at(laid, around, look)
        if how:
            helped.append(how)
            _forget(look, noted)
            found = _try(laid, around, test, look)
            if found.holds:
                break
        still = hopeful._replace(**{fact: getattr(around, fact)})
        if still != hopeful:
            hopeful = still
            _forget(look, noted)
            found = _try(laid, hopeful, test, look)
            if not found.holds:
                hopeful = _by_what_is_known(laid, around, hopeful, facts[number:], look)
                _forget(look, noted)
                return _try(laid, hopeful, test, look)
    for how in helped:
        look.because(how, laid.place)
    return found


def _by_what_is_known(laid: Laid, around: Around, best: Around, facts: tuple[Fact, ...], look: Look) -> Around:
    """The best there can be for conductors that are too weak in any case, by all that is known of them: what is said of
    their ampacity, and of a breaker for it, is not too much then."""
    for fact, look_at in facts:
        try:
            around, _ = look_at(laid, around, look)
        except Missing:
            continue
        best = best._replace(**{fact: getattr(around, fact)})
    return best


def _cooler(weak: set[str], laid: Laid, around: Around, look: Look) -> tuple[Around, str]:
    """The warm legs on the routes that are too weak may be a short part of the circuit."""
    if not around.warm or not warm_legs(laid.route, look) or not is_short(laid.circuit, weak, look):
        return around, ""
    return around._replace(warm=False), "what lies warmer is short: the ampacity of the rest of the circuit holds"


def _apart(laid: Laid, around: Around, look: Look) -> tuple[Around, str]:
    if not around.crowded or not has_company(laid.route, look) or heat_each_other(laid.route, look):
        return around, ""
    return around._replace(crowded=False), "the circuits lie apart, or together only as far as a nipple is long"


def _drier(laid: Laid, around: Around, look: Look) -> tuple[Around, str]:
    if look.cell(TEMPERATURES, laid.kind, "dry").text == look.cell(TEMPERATURES, laid.kind, "wet").text:
        return around, ""
    if any(location_of_leg(leg, look) == "wet" for leg in laid.route.legs):
        return around, ""
    return around._replace(wet=False), "no leg is in a wet place"


def _terminals(laid: Laid, around: Around, look: Look) -> tuple[Around, str]:
    if around.terminals == AT_75 or look.stated(laid.circuit.terminals) == AT_60:
        return around, ""
    return around._replace(terminals=AT_75), "its terminals are marked 75 °C"


def _try(laid: Laid, around: Around, test: Test, look: Look) -> Verdict:
    amps, rows = amps_in(laid, around, look)
    return Verdict(test(amps), amps, rows)


def _forget(look: Look, noted: tuple[int, int]) -> None:
    """Takes attempts that came to nothing out of the derivation."""
    del look.cells[noted[0] :], look.steps[noted[1] :]
