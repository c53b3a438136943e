"""What every review says before it is put to use."""

from typing import Final

CAUTIONS: Final = (
    "This review is no approval. It knows only what the plan states, and checks only what its rules cover.",
    "The authority having jurisdiction decides; local rules may ask for more.",
    "Before any work: switch off, lock or tag the breaker, and verify with a tester that the wiring is dead.",
    "Before any digging: have buried utilities located (in the United States, call 811).",
    "Where a permit or a licensed electrician is required, this review replaces neither.",
)
"""One sentence each, most important first."""
