"""The faults that are tried: which there are, and that each is what it says."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from mutation.mutants import Mutant, mutants_of, mutated, mutated_tree
from mutation.trial import exchange_code

SAMPLE = '''
"""Words for readers."""

from typing import Literal

Kind = Literal["cable", "raceway"]
SIZES = {"14": 15}


def enough(has, needs, *, strict=False) -> bool:
    """Words for readers."""
    if strict and not has:
        return False
    print("words for people", f"{has} of {needs or 'none'}")
    return has >= needs + 1


def first(things) -> str | None:
    return next((thing for thing in things if thing.ready and thing.kind == "cable"), None)
'''
EXPECTED = {
    "module: '14' -> '14 otherwise'",
    "module: 15 -> 16",
    "enough: False -> True",
    "enough: strict and (not has) -> strict",
    "enough: strict and (not has) -> not has",
    "enough: not has -> has",
    "enough: False -> True (no. 2)",
    "enough: return has >= needs + 1 -> return True",
    "enough: return has >= needs + 1 -> return False",
    "enough: has >= needs + 1 -> has > needs + 1",
    "enough: has >= needs + 1 -> has < needs + 1",
    "enough: needs + 1 -> needs - 1",
    "enough: 1 -> 2",
    "enough: needs or 'none' -> needs",
    "enough: needs or 'none' -> 'none'",
    "first: thing.ready and thing.kind == 'cable' -> thing.ready",
    "first: thing.ready and thing.kind == 'cable' -> thing.kind == 'cable'",
    "first: thing.kind == 'cable' -> thing.kind != 'cable'",
    "first: 'cable' -> 'cable otherwise'",
    "first: return next((thing for thing in things if thing.ready and thing.kind == 'cable'), None) -> return None",
}
TABLE = """kind,holds,value,metric,source,confidence,note
open,length,24 in,600 mm,Handout,high,
covered,length,4 1/2 in,,Handout,high,
cable,yes or no,no,,Handout,high,
factor,number,0.80,,Handout,high,
size,size,4 AWG,,Handout,high,
larger,size,1/0 AWG,,Handout,high,
"""


def name(mutant: Mutant) -> str:
    """The name of a mutant without its path."""
    return mutant.name.partition(" ")[2]


def test_what_is_tried_in_source() -> None:
    """All that decides something, and none of the words that are only said."""
    found = [name(mutant) for mutant in mutants_of("sample.py", SAMPLE)]
    assert len(found) == len(set(found))
    assert set(found) == EXPECTED


@pytest.mark.parametrize("mutant", mutants_of("sample.py", SAMPLE), ids=name)
def test_each_mutant_differs_from_the_source_in_its_place_alone(mutant: Mutant) -> None:
    """Its text and its tree are the same program; only the part that it names has changed."""
    before, after = ast.parse(SAMPLE), mutated_tree(SAMPLE, mutant)
    assert ast.unparse(after) == mutated(SAMPLE, mutant) != ast.unparse(before)
    differ = [ast.dump(a) != ast.dump(b) for a, b in zip(before.body, after.body, strict=True)]
    assert differ.count(True) == 1
    assert bool(mutant.lines) == (mutant.where != "module" and mutant.change != "False -> True")


@pytest.mark.parametrize(
    ("key", "change", "row"),
    [
        ("open", "value 24 in -> 25 in", "open,length,25 in,600 mm"),
        ("open", "metric 600 mm -> 601 mm", "open,length,24 in,601 mm"),
        ("covered", "value 4 1/2 in -> 5 1/2 in", "covered,length,5 1/2 in,"),
        ("cable", "value no -> yes", "cable,yes or no,yes,"),
        ("factor", "value 0.80 -> 0.81", "factor,number,0.81,"),
        ("size", "value 4 AWG -> 1/0 AWG", "size,size,1/0 AWG,"),
        ("larger", "value 1/0 AWG -> 4 AWG", "larger,size,4 AWG,"),
    ],
)
def test_what_is_tried_in_a_table(key: str, change: str, row: str) -> None:
    """One more in the last place of the first number, or what another row holds; every other cell stays."""
    (found,) = [mutant for mutant in mutants_of("t.csv", TABLE) if (mutant.where, mutant.change) == (key, change)]
    lines, changed = TABLE.splitlines(), mutated(TABLE, found).splitlines()
    (new,) = [line for line in changed if line not in lines]
    assert new.startswith(row)
    assert len(changed) == len(lines)


def test_every_cell_of_a_table_is_tried() -> None:
    """Values and metric twins."""
    assert len(mutants_of("t.csv", TABLE)) == 7


def test_code_is_exchanged_in_a_running_program(tmp_path: Path) -> None:
    """Also for who holds the function already; and nothing is exchanged that runs at import only."""
    file = str(tmp_path / "sample.py")
    names: dict[str, object] = {}
    exec(compile(SAMPLE, file, "exec"), names)  # noqa: S102 - the sample above
    enough = names["enough"]
    assert callable(enough) and enough(4, 3) is True
    by_name = {name(mutant): mutant for mutant in mutants_of("sample.py", SAMPLE)}
    functions = [names["enough"], names["first"]]
    assert exchange_code(by_name["enough: 1 -> 2"], SAMPLE, file, functions)  # type: ignore[arg-type]
    assert enough(4, 3) is False
    assert not exchange_code(by_name["module: 15 -> 16"], SAMPLE, file, functions)  # type: ignore[arg-type]
