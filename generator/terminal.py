"""Verdicts for a terminal."""

from __future__ import annotations

from collections.abc import Sequence

from generator.catalogue import OWN
from generator.converting import Converting
from generator.engine import Verdict

# figures of a signal in wires; of light only whether it arrives is worked out
IN_DECIBELS = ("load-seen", "treble-kept", "bass-kept", "channels-apart", "hum-held-back", "hum-left")


def told(verdict: Verdict, own: Sequence[tuple[str, str]] = (), light: bool = False) -> str:
    """A verdict; `own` are the numbers of a manual it rests on, question and value; `light`: what is sent is
    light, of which no figure is told in dB."""
    chain = " -> ".join((verdict.start, *verdict.through, verdict.target))
    by = f", BY YOUR NUMBER{'S' if len(own) > 1 else ''}" if own else ""
    lines = [
        f"{verdict.verdict.upper()}{by}  {chain}",
        *(f"  {asks}: {value} [{OWN}]" for asks, value in own),
    ]
    lines += [*filter(None, (verdict.conditions, verdict.offer, marked(verdict.plugs)))]
    for finding in verdict.findings:
        lines += [
            f"  {finding.severity}: {finding.says} [{finding.id}; {finding.when}; {finding.evidence}]",
            f"    {finding.remedy}",
        ]
    figures = [figure for figure in verdict.figures if not (light and figure.id in IN_DECIBELS)]
    lines += [f"  {figure.says}" for figure in figures]
    lines += [f"  instead, {offered(r)}" for r in verdict.remedies]
    return "\n".join(lines)


def marked(plugs: Sequence[str]) -> str:
    """Which plugs to take, where the verdict holds for them only."""
    named = " and ".join(f'"{label}"' for label in plugs)
    return f"Use the plug{'s' if len(plugs) > 1 else ''} marked {named}." if plugs else ""


def offered(verdict: Verdict) -> str:
    """A way and how it ends; one that a switch makes well says in which order."""
    ends = f"{verdict.verdict} while plugging only" if verdict.offer else verdict.verdict
    return (
        f"{ends}: {' -> '.join(verdict.through) or 'no lead'}{f'. {verdict.offer}' if verdict.offer else ''}"
    )


def instead(told: Converting, indent: str = "") -> str:
    """What to use instead of a lead: other sockets, a box, and what to ask about each of its sides."""
    known = f" [{told.box.evidence.grade}]" if told.box else ""
    return "\n".join(f"{indent}{sentence}" for sentence in told.sentences) + known
