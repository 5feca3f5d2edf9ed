"""The lead that is not in the catalogue: what one would have to do, where nothing there is safe."""

from __future__ import annotations

from collections.abc import Sequence

from generator.catalogue.records import Catalogue, Port

from .judge import judge
from .kinds import something_to_hear
from .mate import OPPOSITE
from .readings import short, spoken
from .route import chains, cost
from .verdict import Verdict


def missing(catalogue: Catalogue, start: str, target: str) -> str:
    """One or two sentences on the lead that would do it: its ends, and everything that speaks against the
    best single lead there is. Raises KeyError for an unknown id."""
    outlet, inlet = catalogue.ports[start], catalogue.ports[target]
    if not something_to_hear(outlet, inlet):
        return (
            f"No lead can help: neither the {spoken(short(outlet))} nor the {spoken(short(inlet))} sends "
            "what the other listens to."
        )
    tried = [
        judge(catalogue, start, chain, target)
        for length in (0, 1)
        for chain in chains(catalogue, start, target, length)
    ]
    best = min(tried, key=lambda verdict: cost(catalogue, verdict), default=None)
    return described(catalogue, outlet, inlet, best)


def described(catalogue: Catalogue, outlet: Port, inlet: Port, best: Verdict | None) -> str:
    """The same, from the best there is; None where nothing fits."""
    against = [finding for finding in best.findings if finding.severity != "note"] if best else []
    ends = f"from {_half(catalogue, outlet)} to {_half(catalogue, inlet)}"
    needs = list(dict.fromkeys(finding.mend for finding in against if finding.mend))
    # What no lead can change decides only where it is the worst there is.
    hopeless = (
        bool(best)
        and best.verdict == "no signal"
        and not any(f.mend for f in against if f.severity == best.verdict)
    )
    if hopeless:
        return (
            "No lead can help: "
            f"{' '.join(dict.fromkeys(f.says for f in against if f.severity == best.verdict))}"
        )
    if not best:
        return f"Nothing in the catalogue goes between the two. What would: a lead {ends} wired for both."
    if not needs:
        return "No lead does better than what there is."
    return (
        f"Nothing in the catalogue does this without loss. What would: a lead {ends} that {_joined(needs)}."
    )


def _half(catalogue: Catalogue, port: Port) -> str:
    """The half that goes into a port."""
    return f"the {OPPOSITE[port.half]} of {catalogue.connectors[port.connector].name},"


def _joined(needs: Sequence[str]) -> str:
    return needs[0] if len(needs) == 1 else f"{'; '.join(needs[:-1])}; and {needs[-1]}"
