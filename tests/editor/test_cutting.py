"""The part of a text around the cursor, where the text is none that a plan may be."""

from __future__ import annotations

import pytest

from precover.editor.cutting import cursor_at

MANY = "".join(f"    b{number}: &b{number} [*b{number - 1},*b{number - 1},*b{number - 1}]\n" for number in range(1, 40))


@pytest.mark.parametrize(
    "above",
    [
        f"    b0: &b0 [x, x, x]\n{MANY}",  # followed, more values than any memory holds
        "    a: &a [*a]\n",
        "    a: &a {b: *a}\n",
        "    a: &a x\n    b: *a\n",
    ],
    ids=["many", "itself in a list", "itself in a mapping", "a word"],
)
def test_references_are_not_followed(above: str) -> None:
    text = f"structures:\n  house:\n{above}    use: dwelling\n"
    assert cursor_at(text, text.index("dwelling") + 2) is None


def test_an_anchor_alone_is_no_reference() -> None:
    text = "structures:\n  house:\n    a: &a [x]\n    use: dwelling\n"
    cursor = cursor_at(text, text.index("dwelling") + 2)
    assert cursor is not None
    assert (cursor.place, cursor.text) == ("/structures/house/use", "dwelling")
