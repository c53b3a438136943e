"""How far the requirement map is covered, on a sheet."""

from __future__ import annotations

from typing import Any

from precover.rulebook.coverage import State
from precover.showing.sheet import Sheet


def put_coverage(sheet: Sheet, record: dict[str, Any]) -> None:
    """Rows by subject and state, each with what covers it; the share that is decided at the end."""
    for subject in record["subjects"]:
        rows = subject["rows"]
        sheet.heading(subject["subject"].capitalize(), f"{len(rows)} {'row' if len(rows) == 1 else 'rows'}")
        for state in State:
            found = [row for row in rows if row["state"] == state.value]
            if found:
                sheet.gap()
                sheet.text(state.value, style="label")
            for row in found:
                sheet.text(row["id"], indent=2, style="strong")
                for line in _details(row):
                    sheet.text(line, indent=6, style="quiet")
    _put_share(sheet, record)


def _details(row: dict[str, Any]) -> list[str]:
    """The rules and the entries of the inspection list that cover a row; for one that nothing covers why, or what it says."""
    inspections = [f"{item['id']} ({item['stage']})" for item in row["inspections"]]
    return [*row["rules"], *inspections] or [row["reason"] or row["says"]]


def _put_share(sheet: Sheet, record: dict[str, Any]) -> None:
    sheet.heading(
        "How much is covered", ", ".join(f"{pack['id']} (edition {pack['edition']})" for pack in record["packs"])
    )
    if not record["subjects"]:
        sheet.text("No pack in force brings a requirement map.")
    for state, count in record["counts"].items():
        sheet.text(state, mark=f"{count:>5}  ")
    decided, decidable = record["decided"], record["decidable"]
    if decidable:
        sheet.gap()
        share = f"{100 * decided / decidable:.0f} %" if decided < decidable else "all"
        sheet.text(f"Of {decidable} rows that a plan can decide, {decided} are decided ({share}).", style="strong")
    sheet.gap()
