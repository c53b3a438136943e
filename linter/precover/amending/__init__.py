"""Ways out, proved: proposals applied to the plan, reviewed again, combined, and written into the file."""

from precover.amending.amendment import Amendment, amendments
from precover.amending.patch import Patch, applied
from precover.amending.prover import Mark, Proved, Prover, Way, mark, way_out, ways_out
from precover.amending.rewriting import Unwritable, changed_stretch, rewritten
from precover.amending.writing import FileChanged, write

__all__ = [
    "Amendment",
    "FileChanged",
    "Mark",
    "Patch",
    "Proved",
    "Prover",
    "Unwritable",
    "Way",
    "amendments",
    "applied",
    "changed_stretch",
    "mark",
    "rewritten",
    "way_out",
    "ways_out",
    "write",
]
