"""Kinds of raceway, as rules tell them apart."""

from precover.plan import Raceway

RIGID_METAL = ("RMC", "IMC")
METALLIC = ("RMC", "IMC", "EMT", "FMC", "LFMC")
NONMETALLIC = ("PVC-40", "PVC-80", "RTRC", "RTRC-XW", "HDPE", "LFNC", "ENT")


def is_raceway(raceway: Raceway) -> bool:
    """A raceway made for wiring: plumbing pipe is none."""
    return raceway.type in METALLIC or raceway.type in NONMETALLIC
