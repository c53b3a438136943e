"""The packs that ship with the built-in rules."""

from pathlib import Path

from precover.rulebook import Pack

_HERE = Path(__file__).parent

US_2023 = Pack(
    id="us-2023",
    title="Model electrical code of the United States, 2023 edition, as widely adopted for small circuits",
    edition="2023",
    tables=_HERE / "us_2023" / "tables",
    requirements=_HERE / "us_2023" / "requirements.csv",
    out_of_scope=_HERE / "us_2023" / "out_of_scope.csv",
    notes="Values are gathered from published secondary sources, named with each; the adopted code and the local amendments decide.",
)
