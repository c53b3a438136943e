"""What is checked: the list of topics, and one topic with everything in force under it, as plain data."""

from __future__ import annotations

from typing import Any

from precover.rulebook import Rulebook, Topic
from precover.showing.reads import cells_read
from precover.showing.record import cell_record


def topic_list(book: Rulebook) -> list[dict[str, Any]]:
    """Every topic, by id."""
    return [
        {
            "id": topic.id,
            "title": topic.title,
            "rules": len(topic.rules),
            "inspections": len(topic.inspections),
            "plugin": topic.plugin,
        }
        for topic in book.topics.values()
    ]


def topic_record(topic: Topic, book: Rulebook) -> dict[str, Any]:
    """A topic: its document, rules, inspections, the values it reads, where to look, the requirement rows covered."""
    requirements = [book.requirements[row] for row in topic.rows if row in book.requirements]
    return {
        "id": topic.id,
        "title": topic.title,
        "plugin": topic.plugin,
        "document": topic.text(),
        "packs": [{"id": pack.id, "edition": pack.edition} for pack in book.packs],
        "rules": [
            {
                "id": rule.id,
                "checks": rule.asks,
                "severity": rule.severity.word,
                "stage": rule.stage.value,
                "hazard": book.hazard(rule),
                "look_up": list(book.look_up(rule)),
                "requirements": list(rule.rows),
            }
            for rule in topic.rules
        ],
        "inspections": [
            {"id": item.id, "stage": item.stage.value, "requirements": list(item.rows)} for item in topic.inspections
        ],
        "out_of_force": [
            {"id": off.part.id, "set_by": off.set_by, "because": off.switch.reason, "until": off.switch.until}
            for off in book.off
            if off.part.topic == topic.id
        ],
        "values": [
            cell_record(cell)
            | {"earlier": None if cell.earlier is None else {"value": cell.earlier.text, "set_by": cell.earlier.set_by}}
            for cell in cells_read(topic, book)
        ],
        "requirements": [
            {
                "id": row.id,
                "says": row.says,
                "look_up": dict(sorted(row.locators.items())),
                "source": row.source,
                "confidence": row.confidence,
            }
            for row in requirements
        ],
    }
