"""What kind of premises the plan is for."""

from precover.rulebook import Look

DWELLINGS = ("one-family dwelling", "two-family dwelling", "multifamily dwelling")


def is_dwelling(look: Look) -> bool:
    """Premises of dwelling units."""
    return look.stated(look.plan.site.premises) in DWELLINGS


def is_small_dwelling(look: Look) -> bool:
    """Premises of a one- or two-family dwelling."""
    return look.stated(look.plan.site.premises) in DWELLINGS[:2]
