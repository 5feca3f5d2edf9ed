"""What a well-formed file must also mean: kind -> checks.

A check is `(id, tree, context) -> None`. It adds to `context.problems`, and stops (`Unusable`) at
whatever is already reported."""

from functools import partial

from . import assignments, cables, circuits, connectors, converters, leads, light, ports, retired
from .common import check_name

CHECKS = {
    "connectors": (*connectors.CHECKS, light.check_contacts),
    "assignments": assignments.CHECKS,
    "circuits": circuits.CHECKS,
    "cables": (*cables.CHECKS, light.check_cable),
    "ports": (*ports.CHECKS, light.check_port),
    "leads": (*leads.CHECKS, light.check_lead),
    "converters": converters.CHECKS,
    "retired": retired.CHECKS,
}
CHECKS |= {
    kind: (*CHECKS[kind], partial(check_name, kind))
    for kind in ("connectors", "assignments", "ports", "leads")
}
