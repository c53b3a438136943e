"""The packs that ship with the built-in rules: editions of the model code, each a change of the one before it."""

from pathlib import Path
from typing import Final

from precover.rulebook import Pack

_HERE = Path(__file__).parent
_TITLE = "Model electrical code of the United States, {} edition, as widely adopted for small circuits"
_SOURCES = "Values are gathered from published secondary sources, named with each; the adopted code and the local amendments decide."
_COARSE = "Its lists for ground-fault protection were narrower in kitchens, and before 2020 in basements, than what is checked here."
_UNDATED = "What no source dates is taken to be as in the other editions."

US_2017: Final = Pack(
    id="us-2017",
    title=_TITLE.format(2017),
    edition="2017",
    tables=_HERE / "us_2017" / "tables",
    requirements=_HERE / "us_2017" / "requirements.csv",
    out_of_scope=_HERE / "us_2017" / "out_of_scope.csv",
    stricter=_HERE / "us_2017" / "stricter.csv",
    folder=_HERE / "us_2017",
    is_edition=True,
    notes=f"{_SOURCES} {_UNDATED} {_COARSE}",
)


def _after(before: Pack, edition: str, notes: str) -> Pack:
    return Pack(
        id=f"us-{edition}",
        title=_TITLE.format(edition),
        edition=edition,
        changes=before.id,
        folder=_HERE / f"us_{edition}",
        is_edition=True,
        notes=notes,
    )


US_2020: Final = _after(US_2017, "2020", f"{_SOURCES} {_UNDATED} {_COARSE}")
US_2023: Final = _after(US_2020, "2023", _SOURCES)
US_2026: Final = _after(
    US_2023,
    "2026",
    f"{_SOURCES} {_UNDATED} This edition was renumbered in places: section numbers stand only where a source shows them.",
)

EDITIONS: Final = (US_2017, US_2020, US_2023, US_2026)
