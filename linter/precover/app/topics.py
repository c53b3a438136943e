"""`precover topics`: what is checked, one topic with everything in force under it, how far the requirement map goes."""

from __future__ import annotations

import argparse
import difflib

from precover.app.output import new_sheet, on_terminal, put, put_sheet
from precover.app.packs import book_of
from precover.app.refused import Refused
from precover.rulebook import PackUnreadable, Rulebook, Topic
from precover.rulebook.book import DEFAULT_PACK
from precover.showing.visible import visible


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what the command takes."""
    what = parser.add_mutually_exclusive_group()
    what.add_argument("topic", nargs="?", metavar="TOPIC", help="a topic by its id, or by the last part of it")
    what.add_argument("--map", action="store_true", help="every row of the requirement map, and what covers it")
    parser.add_argument("--form", choices=("people", "json"), default="people", help="people (default) or json")
    parser.add_argument(
        "--pack",
        action="append",
        default=[],
        metavar="PACK",
        help=f"rule pack by name or path, base first (default: {DEFAULT_PACK})",
    )


def run(chosen: argparse.Namespace) -> int:
    """List the topics, or show one, or the requirement map."""
    book = book_of(tuple(chosen.pack) or (DEFAULT_PACK,))
    if chosen.map:
        _map(chosen, book)
    elif chosen.topic is None:
        _list(chosen, book)
    else:
        _one(chosen, book, _found(chosen.topic, book))
    return 0


def _list(chosen: argparse.Namespace, book: Rulebook) -> None:
    from precover.showing.topic_sheet import put_topic_list
    from precover.showing.topics import topic_list

    topics = topic_list(book)
    if chosen.form == "json":
        from precover.showing.as_json import dumped

        put(dumped({"topics": topics}))
        return
    sheet = new_sheet()
    put_topic_list(sheet, topics)
    put_sheet(sheet)


def _one(chosen: argparse.Namespace, book: Rulebook, topic: Topic) -> None:
    from precover.showing.topic_sheet import put_in_force
    from precover.showing.topics import topic_record

    record = topic_record(topic, book)
    if chosen.form == "json":
        from precover.showing.as_json import dumped

        put(dumped(record))
        return
    sheet = new_sheet()
    document = "\n".join(map(visible, record["document"].split("\n")))  # a pack file may have written it
    if on_terminal():
        from precover.showing.ink import markdown

        markdown(document, sheet.width)
    else:
        put(document)
    put_in_force(sheet, record)
    sheet.gap()
    put_sheet(sheet)


def _map(chosen: argparse.Namespace, book: Rulebook) -> None:
    from precover.showing.coverage import coverage_record
    from precover.showing.coverage_sheet import put_coverage

    try:
        record = coverage_record(book)
    except PackUnreadable as problem:
        raise Refused(f"{problem.message}; {problem.hint}") from None
    if chosen.form == "json":
        from precover.showing.as_json import dumped

        put(dumped(record))
        return
    sheet = new_sheet()
    put_coverage(sheet, record)
    put_sheet(sheet)


def _found(name: str, book: Rulebook) -> Topic:
    """The topic of an id, or of a last part that only one has; Refused with the nearest otherwise."""
    if name in book.topics:
        return book.topics[name]
    ending = [topic for topic in book.topics.values() if topic.id.rpartition("/")[2] == name]
    if len(ending) == 1:
        return ending[0]
    if ending:
        raise Refused(f"several topics end in {name}; one of {', '.join(topic.id for topic in ending)}")
    ends = {topic.id.rpartition("/")[2]: topic.id for topic in book.topics.values()}
    near = difflib.get_close_matches(name, [*book.topics, *ends], n=1, cutoff=0.5)
    hint = f"did you mean {ends.get(near[0], near[0])}?" if near else "`precover topics` lists them"
    raise Refused(f"there is no topic {name}; {hint}")
