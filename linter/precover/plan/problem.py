"""What keeps a plan from being read, said by place."""

from precover.record import Record


class Problem(Record):
    """One thing wrong with a plan as a text or as a network: not a finding of a rule.

    `place` is the JSON Pointer of the value it is about; with `key` it is the key that is wrong, not its value.
    """

    place: str
    message: str
    hint: str
    key: bool = False
