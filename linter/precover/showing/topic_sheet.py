"""The list of topics, and what is in force under one topic, on a sheet."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from precover.showing.sheet import INDENT, Sheet
from precover.showing.visible import visible

FROM_MEMORY = "from memory: verify it in the adopted code"


def put_topic_list(sheet: Sheet, topics: list[dict[str, Any]]) -> None:
    """Topics by subject, each with its id to ask for and how many rules it has."""
    for subject, found in groupby(topics, key=lambda topic: topic["id"].partition("/")[0]):
        sheet.heading(subject.replace("-", " ").capitalize())
        for topic in found:
            rules = topic["rules"]
            sheet.text(topic["title"], indent=2, style="strong")
            sheet.text(f"{topic['id']}, {rules} {'rule' if rules == 1 else 'rules'}", indent=6, style="quiet")
    sheet.gap()


def put_in_force(sheet: Sheet, topic: dict[str, Any]) -> None:
    """What stands below a topic's document: its rules, the values in force, and what they rest on."""
    _rules(sheet, topic)
    _out_of_force(sheet, topic["out_of_force"])
    _values(sheet, topic["values"])
    _requirements(sheet, topic["requirements"])


def _rules(sheet: Sheet, topic: dict[str, Any]) -> None:
    packs = ", ".join(f"{pack['id']} (edition {pack['edition']})" for pack in topic["packs"])
    sheet.heading("Rules of this topic", packs)
    for rule in topic["rules"]:
        sheet.gap()
        sheet.text(rule["id"].rpartition("/")[2], style="strong")
        sheet.entry("checks", rule["checks"])
        sheet.entry("severity", rule["severity"])
        sheet.entry("looked at", rule["stage"])
        if rule["hazard"]:
            sheet.entry("hazard", rule["hazard"])
        if rule["look_up"]:
            sheet.entry("look up", "; ".join(rule["look_up"]))


def _out_of_force(sheet: Sheet, parts: list[dict[str, Any]]) -> None:
    """Rules and inspections that a pack, or the edition, leaves out."""
    if not parts:
        return
    sheet.heading("Out of force")
    for part in parts:
        until = f", until {part['until']}" if part["until"] else ""
        sheet.text(f"{part['id'].rpartition('/')[2]}: by {part['set_by']}{until} ({part['because']})", mark="  - ")


def _values(sheet: Sheet, values: list[dict[str, Any]]) -> None:
    """Values by table; their sources below, each once, under a letter."""
    if not values:
        return
    sheet.heading("Values in force")
    letters: dict[tuple[str, str, str], str] = {}
    for table, found in groupby(values, key=lambda cell: str(cell["table"])):
        cells = list(found)
        sheet.gap()
        sheet.text(table, style="label")
        room = min(max(len(_value(cell)) for cell in cells), 24)
        for cell in cells:
            basis = (cell["set_by"], cell["source"], cell["confidence"])
            letter = letters.setdefault(basis, _letter(len(letters)))
            sheet.text(_said_of(cell), mark=f"  {_value(cell).ljust(room)}  [{letter}]  ")
    sheet.gap()
    sheet.text("set by, source, and how sure it is", style="label")
    for (set_by, source, confidence), letter in letters.items():
        sheet.text(f"{set_by}; {_resting_on(source, confidence)}", mark=f"  [{letter}] ")


def _value(cell: dict[str, Any]) -> str:
    value = visible(cell["value"])
    return f"{value} ({visible(cell['metric'])})" if cell["metric"] else value


def _said_of(cell: dict[str, Any]) -> str:
    was = f"was {cell['was']['value']} by {cell['was']['set_by']}" if cell["was"] else ""
    earlier = f"{cell['earlier']['value']} in {cell['earlier']['set_by']}" if cell["earlier"] else ""
    memory = "from memory" if cell["from_memory"] else ""
    return "; ".join(part for part in (", ".join(cell["key"]), memory, was, earlier, cell["note"]) if part)


def _requirements(sheet: Sheet, rows: list[dict[str, Any]]) -> None:
    if not rows:
        return
    sheet.heading("Requirements covered")
    for row in rows:
        sheet.gap()
        sheet.text(row["id"], style="strong")
        sheet.entry("says", row["says"])
        places = "; ".join(f"{edition}: {locator}" for edition, locator in row["look_up"].items())
        sheet.entry("look up", places or "no place known for it")
        sheet.entry("source", _resting_on(row["source"], row["confidence"]), INDENT, "quiet")


def _resting_on(source: str, confidence: str) -> str:
    """A source with how sure it is; what no published page was seen for says so plainly."""
    return FROM_MEMORY if source.strip() == "from memory" else f"{source} ({confidence} confidence)"


def _letter(number: int) -> str:
    """a to z, then aa, ab, ..."""
    ahead, last = divmod(number, 26)
    return (_letter(ahead - 1) if ahead else "") + chr(ord("a") + last)
