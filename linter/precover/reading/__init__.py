"""From text to a typed plan: decode, parse with positions, validate against the schema, build."""

from precover.reading.build import build
from precover.reading.document import Document, Range
from precover.reading.errors import MOST_PROBLEMS, Located, PlanUnreadable
from precover.reading.parse import parse
from precover.reading.references import dangling
from precover.reading.schema import against_schema
from precover.reading.source import Source, decode

__all__ = [
    "MOST_PROBLEMS",
    "Document",
    "Located",
    "PlanUnreadable",
    "Range",
    "Source",
    "against_schema",
    "build",
    "dangling",
    "decode",
    "parse",
]
