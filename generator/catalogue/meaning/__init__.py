"""What a well-formed file must also mean: kind -> checks.

A check is `(id, tree, context) -> None`. It adds to `context.problems`, and stops (`Unusable`) at
whatever is already reported."""

from functools import partial

from . import assignments, cables, circuits, connectors, leads, ports, retired
from .common import check_name

CHECKS = {
    "connectors": connectors.CHECKS,
    "assignments": assignments.CHECKS,
    "circuits": circuits.CHECKS,
    "cables": cables.CHECKS,
    "ports": ports.CHECKS,
    "leads": leads.CHECKS,
    "retired": retired.CHECKS,
}
CHECKS |= {
    kind: (*CHECKS[kind], partial(check_name, kind))
    for kind in ("connectors", "assignments", "ports", "leads")
}
