"""Every kind of question by name. A kind draws a subject at random and makes the question about a
subject; nothing else."""

from . import contacts, estimates, faults, numbers, orders, outcomes, plugs, ways
from .kind import Kind

KINDS: dict[str, Kind] = {
    kind.name: kind
    for room in (contacts, plugs, outcomes, ways, orders, faults, numbers, estimates)
    for kind in room.KINDS
}

__all__ = ["KINDS", "Kind"]
