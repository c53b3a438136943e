"""Rules of a third party: built, installed and found as any distribution is, and harmless where they are broken."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from support.reviews import EXAMPLES, example, written

HERE = Path(__file__).parent
RULE = "outlets/above-floods/receptacle-above-floods"
POST = "/boxes/post-box/devices/outlet"

LOOKING = """
import json, sys
from precover.reviewing import open_plan, review
from precover.rulebook import gather
library = gather()
review = review(open_plan("plan.yaml", sys.stdin.buffer.read()), library)
print(json.dumps({
    "topics": {topic.id: topic.plugin for topic in library.topics.values()},
    "failures": [list(failure) for failure in review.failures],
    "answers": [[line.rule.id, line.subject, line.answer.outcome.value, str(line.answer.needs)] for line in review.ledger],
    "look up": {rule.id: list(review.book.look_up(rule)) for rule in review.book.rules},
    "hazards": {rule.id: review.book.hazard(rule) for rule in review.book.rules},
}))
"""


@pytest.fixture(scope="module")
def county(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example distribution, built and installed into a folder of its own."""
    source, target = tmp_path_factory.mktemp("source") / "hill_county", tmp_path_factory.mktemp("site")
    shutil.copytree(HERE / "hill_county", source)
    pip = [sys.executable, "-m", "pip", "install", "--quiet", "--no-deps", "--no-build-isolation", "--no-index"]
    subprocess.run([*pip, "--target", str(target), str(source)], check=True, capture_output=True)
    return target


def seen(plan: dict[str, Any], *sites: Path) -> dict[str, Any]:
    """What a new process finds and reviews, with folders of installed distributions on its path, in that order."""
    path = os.pathsep.join(map(str, sites))
    done = subprocess.run(
        [sys.executable, "-c", LOOKING],
        input=written(plan),
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONPATH": path},
    )
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def installed(site: Path, name: str, code: str) -> Path:
    """A distribution of one module with one entry point, laid out as an installer would."""
    site.mkdir(exist_ok=True)
    module = name.replace("-", "_")
    (site / f"{module}.py").write_text(code, encoding="utf-8")
    info = site / f"{module}-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 1.0\n", encoding="utf-8")
    (info / "entry_points.txt").write_text(f"[precover]\n{name} = {module}\n", encoding="utf-8")
    return site


def pump(height: str | None = None) -> dict[str, Any]:
    """The orchard pump, its receptacle at a height."""
    outlet = {"height": height} if height else {"height": None}
    return example("orchard-pump", {"boxes": {"post-box": {"devices": {"outlet": outlet}}}})


def answers(found: dict[str, Any], rule: str) -> list[list[str]]:
    """The answers of one rule: subject, outcome, and what is needed."""
    return [line[1:] for line in found["answers"] if line[0] == rule]


def test_an_installed_plugin_is_found_and_its_rule_runs(county: Path) -> None:
    """At, above and below its own limit, in inches and millimetres; and its fact is asked for where it matters."""
    found = seen(pump("24 in"), county)
    assert found["failures"] == []
    assert found["topics"]["outlets/above-floods"] == "hill-county"
    assert found["topics"]["burial/minimum-cover"] == "built-in"
    assert found["look up"][RULE] == ["Hill County amendments, 7"]
    assert found["hazards"][RULE] == "shock"
    assert answers(found, RULE) == [[POST, "met", "24 in"]]
    assert answers(seen(pump("23 in"), county), RULE) == [[POST, "not met", "24 in"]]
    assert answers(seen(pump("600 mm"), county), RULE) == [[POST, "met", "600 mm"]]
    assert answers(seen(pump("599 mm"), county), RULE) == [[POST, "not met", "600 mm"]]
    assert answers(seen(pump(), county), RULE)[0][1] == "cannot tell"


def test_a_plugin_changes_nothing_in_the_other_rules(county: Path) -> None:
    """Only its own lines are added."""
    without, with_it = seen(pump("24 in")), seen(pump("24 in"), county)
    assert RULE not in {line[0] for line in without["answers"]}
    assert [line for line in with_it["answers"] if line[0] != RULE] == without["answers"]


BROKEN = {
    "does not import": ("raise ImportError('the county is closed')", "ImportError: the county is closed"),
    "has a syntax error": ("def (", "SyntaxError"),
    "fails in its hook": (
        "from precover.rulebook.hooks import hookimpl\n@hookimpl\ndef precover_topics():\n    return [1 / 0]",
        "ZeroDivisionError",
    ),
    "gives something else": (
        "from precover.rulebook.hooks import hookimpl\n@hookimpl\ndef precover_topics():\n    return ['a topic']",
        "AttributeError",
    ),
    "has an unknown hook": (
        "from precover.rulebook.hooks import hookimpl\n@hookimpl\ndef precover_tropics():\n    return []",
        "precover_tropics",
    ),
    "asks for what no hook has": (
        "from precover.rulebook.hooks import hookimpl\n@hookimpl\ndef precover_topics(book):\n    return []",
        "PluginValidationError",
    ),
}


@pytest.mark.parametrize(("code", "reason"), BROKEN.values(), ids=BROKEN)
def test_a_broken_plugin_is_noted_and_costs_only_its_own_rules(
    code: str, reason: str, county: Path, tmp_path: Path
) -> None:
    """The review says which plugin did not load, and why; every other rule runs."""
    broken = installed(tmp_path / "site", "a-broken-county", code)
    found = seen(pump("24 in"), broken, county)
    ((name, why),) = found["failures"]
    assert name == "a-broken-county"
    assert reason in why
    assert found["answers"] == seen(pump("24 in"), county)["answers"]


def test_what_could_not_be_loaded_is_told_where_a_pack_is_not_there(tmp_path: Path) -> None:
    """The pack may be the plugin's."""
    site = installed(tmp_path / "site", "a-broken-county", "import not_there_at_all\n")
    plan = tmp_path / "a.plan.yaml"
    text = (EXAMPLES / "orchard-pump.plan.yaml").read_text(encoding="utf-8")
    plan.write_text(text.replace("rules: [us-2023]", "rules: [broken-county-pack]"), encoding="utf-8")
    environment = os.environ | {"PYTHONPATH": str(site)}
    for arguments in (["review", str(plan)], ["review", str(plan), "--pack", "broken-county-pack"]):
        done = subprocess.run(
            [sys.executable, "-m", "precover.app", *arguments],
            env=environment,
            capture_output=True,
            text=True,
            check=False,
        )
        first, second = done.stderr.splitlines()
        assert first.startswith("precover: the plugin a-broken-county cannot be used: ModuleNotFoundError")
        assert "there is no rule pack `broken-county-pack`" in second
        assert done.returncode == 2


def test_a_rule_that_fails_on_a_subject_is_noted(tmp_path: Path) -> None:
    """As a failure of that rule, with the place; the others run."""
    code = """
from pathlib import Path
from precover.plan import Receptacle
from precover.rulebook import Severity, Stage, Topic, rule
from precover.rulebook.hooks import hookimpl

@rule(looks_at=Receptacle, severity=Severity.ADVICE, stage=Stage.FINAL, look_up="here")
def always_fails(receptacle, look):
    return receptacle.no_such_fact

@hookimpl
def precover_topics():
    return [Topic("county/failing", Path(__file__), (always_fails.named("county/failing", "always_fails"),), ())]
"""
    found = seen(pump(), installed(tmp_path / "site", "failing-county", code))
    ((name, why),) = found["failures"]
    assert name == "county/failing/always-fails"
    assert POST in why
    assert found["answers"] == seen(pump())["answers"]


def test_a_topic_that_is_there_already_costs_only_itself(county: Path, tmp_path: Path) -> None:
    """The first one holds; the plugin's other topics, before it and after it, come in."""
    code = """
from pathlib import Path
from precover.rulebook import Topic
from precover.rulebook.hooks import hookimpl

@hookimpl
def precover_topics():
    names = ("county/before", "outlets/above-floods", "county/after")
    return [Topic(name, Path(__file__), (), ()) for name in names]
"""
    found = seen(pump("24 in"), county, installed(tmp_path / "site", "upland-county", code))
    assert found["failures"] == [
        ["upland-county", "the topic `outlets/above-floods` is there already; only the first is used"]
    ]
    assert {found["topics"][f"county/{name}"] for name in ("before", "after")} == {"upland-county"}
    assert answers(found, RULE) == [[POST, "met", "24 in"]]


def test_the_order_of_plugins_does_not_matter(county: Path, tmp_path: Path) -> None:
    """Neither their order on the path nor that of their names."""
    quiet = "from precover.rulebook.hooks import hookimpl\n@hookimpl\ndef precover_topics():\n    return []"
    early = installed(tmp_path / "early", "a-quiet-county", quiet)
    late = installed(tmp_path / "late", "z-broken-county", "raise ImportError('closed')")
    orders = [(early, county, late), (late, county, early), (county, late, early)]
    first, *others = [seen(pump("24 in"), *order) for order in orders]
    assert all(other == first for other in others)
    assert first["failures"] == [["z-broken-county", "ImportError: closed"]]


def test_no_plugin_takes_the_place_of_a_built_in_topic(tmp_path: Path) -> None:
    """Not even one whose name comes first."""
    code = """
from pathlib import Path
from precover.rulebook import Topic
from precover.rulebook.hooks import hookimpl

@hookimpl
def precover_topics():
    return [Topic("burial/minimum-cover", Path(__file__), (), ())]
"""
    found = seen(pump("17 in"), installed(tmp_path / "site", "a-county", code))
    assert found["failures"] == [
        ["a-county", "the topic `burial/minimum-cover` is there already; only the first is used"]
    ]
    assert found["answers"] == seen(pump("17 in"))["answers"]
