"""What a well-formed file must also mean: kind -> checks.

A check is `(id, tree, context) -> None`. It adds to `context.problems`, and stops (`Unusable`) at whatever is already reported."""

from . import assignments, circuits, connectors, leads, ports, retired

CHECKS = {
    "connectors": connectors.CHECKS,
    "assignments": assignments.CHECKS,
    "circuits": circuits.CHECKS,
    "ports": ports.CHECKS,
    "leads": leads.CHECKS,
    "retired": retired.CHECKS,
}
