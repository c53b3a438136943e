"""How bad a finding is."""

from enum import IntEnum


class Severity(IntEnum):
    """Worst is highest."""

    ADVICE = 1
    """Good practice, not a requirement."""
    QUERY = 2
    """Cannot tell: the plan must state something, or the authority must decide."""
    CORRECTION = 3
    """A reviewer or inspector would write it up."""
    DANGER = 4
    """Could injure or burn as planned."""

    @property
    def word(self) -> str:
        """The severity as people and files name it."""
        return self.name.lower()
