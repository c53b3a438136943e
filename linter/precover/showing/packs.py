"""Rule packs on a sheet and as plain data: which there are, what is in force under a list of them, what was changed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from precover.rulebook import Cell, Pack, Rulebook
from precover.rulebook.packs.change import Switch
from precover.rulebook.packs.weighing import Direction
from precover.showing.in_force import conflicts_record, effect_record
from precover.showing.record import cell_record
from precover.showing.sheet import Sheet

_HEADINGS = {
    Direction.LOOSENS.value: "Asks less",
    Direction.TIGHTENS.value: "Asks more",
    Direction.CHANGES.value: "Changes (to more or less cannot be told from the value)",
    Direction.ADDS.value: "Adds",
    Direction.SAME.value: "Says in its own way",
}


def pack_list(packs: Sequence[Pack]) -> list[dict[str, Any]]:
    """Installed packs as plain data."""
    return [
        {
            "id": pack.id,
            "title": pack.title,
            "edition": pack.edition,
            "changes": pack.changes or None,
            "notes": pack.notes,
        }
        for pack in packs
    ]


def put_pack_list(sheet: Sheet, packs: list[dict[str, Any]]) -> None:
    """Each pack with what it stands on."""
    for pack in packs:
        sheet.heading(pack["id"], f"changes {pack['changes']}" if pack["changes"] else "")
        sheet.text(pack["title"], indent=2)
        if pack["notes"]:
            sheet.text(pack["notes"], indent=2, style="quiet")
    sheet.gap()


def book_record(book: Rulebook, table: str | None) -> dict[str, Any]:
    """What is in force: packs, what each changed, rules out of force, and the cells of a table (of all, without one)."""
    return {
        "packs": [
            {"id": pack.id, "title": pack.title, "edition": pack.edition, "changes": pack.changes or None}
            for pack in book.packs
        ],
        "changes": [{"pack": effect.pack, **effect_record(effect)} for effect in book.effects],
        "conflicts": conflicts_record(book),
        "edition_changes": list(_edition_changes(book)),
        "out_of_force": [
            {
                "id": off.part.id,
                "set_by": off.set_by,
                "because": off.switch.reason,
                "until": off.switch.until,
                "by_edition": off.by_edition,
            }
            for off in book.off
        ],
        "tables": {name: _cells(book, name) for name in ([table] if table else sorted(book.tables))},
    }


def _cells(book: Rulebook, table: str) -> list[dict[str, Any]]:
    return [cell_record(cell) for cell in book.tables[table].cells.values()]


def _edition_changes(book: Rulebook) -> Iterator[dict[str, Any]]:
    """What the edition in force changes of the one before it: values, and rules that come or go."""
    own = next((layer for layer in reversed(book.layers) if layer.edition), None)
    if own is None or not own.pack.changes:
        return
    for name in own.changes.tables:
        for change in own.changes.cells(name):
            cell: Cell | None = book.tables[name].cells.get(change.key)
            while cell is not None and cell.was is not None:
                cell = cell.was
            if cell is not None:
                yield {
                    "what": f"{name} ({', '.join(cell.key)})",
                    "was": cell.earlier.text if cell.earlier is not None else "",
                    "becomes": cell.text,
                    "source": cell.source,
                    "from_memory": cell.from_memory,
                }
    for part in own.changes.parts:
        if not isinstance(part, Switch):
            continue
        yield {
            "what": part.part,
            "was": "out of force" if part.on else "in force",
            "becomes": "in force" if part.on else "out of force",
            "source": part.reason,
            "from_memory": False,
        }


def put_book(sheet: Sheet, record: dict[str, Any]) -> None:
    """What is in force, what was changed first."""
    packs = record["packs"]
    sheet.heading("In force", " + ".join(pack["id"] for pack in packs))
    for pack in packs:
        sheet.text(f"{pack['id']}: {pack['title']}", indent=2)
    _put_edition(sheet, record["edition_changes"], packs[0])
    for pack, changes in groupby(record["changes"], key=lambda change: change["pack"]):
        _put_changes(sheet, pack, list(changes))
    for conflict in record["conflicts"]:
        told = f"{conflict['what']}: by {conflict['first']['pack']}, and again by {conflict['last']['pack']}"
        sheet.entry("set twice", told, indent=2, style="strong")
    _put_off(sheet, record["out_of_force"])
    for name, cells in record["tables"].items():
        sheet.heading("Limits in force" if name == "limits" else f"Table {name}", f"{len(cells)} values")
        for cell in cells:
            _put_cell(sheet, cell)
    sheet.gap()


def _put_edition(sheet: Sheet, changes: list[dict[str, Any]], edition: dict[str, Any]) -> None:
    if not changes:
        return
    sheet.heading(f"What {edition['id']} changes of {edition['changes']}", f"{len(changes)} changes")
    for change in changes:
        memory = " (from memory)" if change["from_memory"] else ""
        was = f", was {change['was']}" if change["was"] else ", which is new"
        sheet.text(f"{change['what']}: {change['becomes']}{was}{memory}", mark="  - ")


def _put_changes(sheet: Sheet, pack: str, changes: list[dict[str, Any]]) -> None:
    sheet.heading(f"What {pack} changes", f"{len(changes)} changes")
    for way, heading in _HEADINGS.items():
        found = [change for change in changes if change["direction"] == way]
        if found:
            sheet.gap()
            sheet.text(heading, indent=2, style="label")
        for change in found:
            was = f", was {change['was']}" if change["was"] else ""
            because = f" ({change['because']})" if change["because"] else ""
            sheet.text(f"{change['what']}: {change['becomes']}{was}{because}", mark="  - ", indent=2)


def _put_off(sheet: Sheet, off: list[dict[str, Any]]) -> None:
    if not off:
        return
    sheet.heading("Out of force", f"{len(off)} rules and inspections")
    for one in off:
        until = f", until {one['until']}" if one["until"] else ""
        sheet.text(f"{one['id']}: by {one['set_by']}{until} ({one['because']})", mark="  - ")


def _put_cell(sheet: Sheet, cell: dict[str, Any]) -> None:
    value = f"{cell['value']} ({cell['metric']})" if cell["metric"] else cell["value"]
    was = f"; {cell['set_by']}, was {cell['was']['value']} by {cell['was']['set_by']}" if cell["was"] else ""
    memory = "; from memory" if cell["from_memory"] else ""
    sheet.text(f"{', '.join(cell['key'])}: {value}{was}{memory}", indent=2)
