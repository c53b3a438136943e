"""A line that YAML cannot place: the message says how far it is indented, the hint which lines it may belong to."""

from __future__ import annotations

import pytest

from support.refusals import refusal, studio

FROM = "    from: terrace-box\n"
BEND = "      - {bend: 90°}\n"
NOT_PLACED = "like nothing that it could belong to"

SLIPS: dict[str, tuple[str, str, str, str]] = {
    # What slipped -> what stands in the plan, what is written instead, the message, the hint (lines as {0}, {-1} from it)
    "a key too far in": (
        FROM,
        "     from: terrace-box\n",
        f"line {{1}} is indented by 4 spaces, {NOT_PLACED}",
        "indent it by 5 spaces like line {0}, or by 2 spaces like line {-1}",
    ),
    "a key too far out": (
        FROM,
        "   from: terrace-box\n",
        "line {1} is indented by 4 spaces, and line {0}, which it cannot belong to, by 3 spaces",
        "indent what belongs together equally far",
    ),
    "an entry too far out": (
        BEND,
        "     - {bend: 90°}\n",
        f"line {{0}} is indented by 5 spaces, {NOT_PLACED}",
        "indent it by 6 spaces like line {-1}, or by 4 spaces like line {-2}",
    ),
    "an entry too far in": (
        BEND,
        "       - {bend: 90°}\n",
        f"line {{0}} is indented by 7 spaces, {NOT_PLACED}",
        "indent it by 6 spaces like line {-1}",
    ),
    "a heading with a space": (
        "circuits:\n",
        " circuits:\n",
        f"line {{0}} is indented by 1 space, {NOT_PLACED}",
        "or not at all like line 15",
    ),
    "a tab": (FROM, "\tfrom: terrace-box\n", "line {0} is indented with a tab", "indent with spaces"),
    "a tab after spaces": (FROM, "  \tfrom: terrace-box\n", "line {0} is indented with a tab", "indent with spaces"),
    "no space after a colon": (
        FROM,
        "    from:terrace-box\n",
        "line {0} has no space after its `:`",
        "write `key: value`",
    ),
    "no colon": (FROM, "    from terrace-box\n", "line {0} has no `:`", "write `key: value`"),
    "no dash": (BEND, "      {bend: 90°}\n", "line {0} has no `- ` ahead", "write `- ` ahead of it"),
    "no space after a dash": (BEND, "      -{bend: 90°}\n", "and this line has no `- `", "write `- ` ahead of it"),
    "a title with a colon": ("title: One", "title: Plan: One", "a `:` cannot stand here", "needs quotes"),
}


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_says_which_line_and_how_far(slip: str) -> None:
    """In numbers of the file."""
    old, new, message, hint = SLIPS[slip]
    text = studio(old, new)
    line = text[: text.index(new)].count("\n") + 1
    at = {str(away): line + away for away in (-2, -1, 0, 1)}

    def filled(words: str) -> str:
        for away, number in at.items():
            words = words.replace(f"{{{away}}}", str(number))
        return words

    told = refusal(text)
    assert filled(message) in told.message
    assert filled(hint) in told.hint
    assert told.line in (line, line + 1)
