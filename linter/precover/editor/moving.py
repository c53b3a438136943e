"""Where the places of an earlier version of a text are in a later one."""

from __future__ import annotations

from lsprotocol import types


class Moved:
    """Lines of one text followed into another: those before the first and after the last that differ stay with their
    text; those between are taken as near as they were."""

    def __init__(self, before: str, after: str) -> None:
        old, new = before.splitlines(), after.splitlines()
        most = min(len(old), len(new))
        head = next((n for n in range(most) if old[n] != new[n]), most)
        tail = next((n for n in range(most - head) if old[-1 - n] != new[-1 - n]), most - head)
        self._head, self._tail = head, len(old) - tail
        self._by = len(new) - len(old)
        self._last = max(len(new) - 1, 0)

    def line(self, number: int) -> int:
        """The line that a line is now."""
        if number < self._head:
            return number
        if number >= self._tail:
            return min(number + self._by, self._last)
        return min(number, max(self._tail + self._by - 1, self._head), self._last)

    def range(self, at: types.Range) -> types.Range:
        """The range that a range is now."""
        return types.Range(
            types.Position(self.line(at.start.line), at.start.character),
            types.Position(self.line(at.end.line), at.end.character),
        )
