"""What a plan implies: the supply tree, what is ahead of every point, and what lies where."""

from precover.tracing.lying import Lying
from precover.tracing.supply_tree import Supply, SupplyTree, grow
from precover.tracing.trace import Protector, Trace, trace
from precover.tracing.walk import walk_order

__all__ = ["Lying", "Protector", "Supply", "SupplyTree", "Trace", "grow", "trace", "walk_order"]
