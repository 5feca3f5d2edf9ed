"""The lumped part of a run as a circuit: cases, screen and cores as coupled inductors. Shares no
formula with the package it holds to account.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from bench import circuit

from generator.engine.circuit import Circuit

CORE_MORE = 1.25  # a core's own inductance over the screen's: what lies between them belongs to it alone
PAIR = 0.98  # coupling of two cores beyond what they share with the screen


@dataclass(frozen=True)
class Lumped:
    """A circuit, what drives it, and the two nodes the input hears."""

    circuit: Circuit
    drive: dict
    hears: tuple[str, str]


def run(n, length: float) -> Lumped:
    """Case A, what stands between it and case B (node 0), the screen, one core or two, source and input.

    `n` holds the run's plain numbers; the input's own balance is left out, being no circuit."""
    lines = ["E emf top 0 0 V", *_between(n)]
    screen = max(n.loop_henry, 1e-9)
    if n.closed:
        lines += [f"Rscreen resistor a mid {n.screen_ohm!r} ohm", f"Lscreen inductor mid 0 {screen!r} H"]
    if n.bond:
        lines.append(f"Rbond resistor a 0 {n.bond!r} ohm")
    return (_balanced if n.balanced else _single)(n, lines, screen, length)


def _between(n):
    between = n.chassis
    if between.farad:
        return [f"C capacitor top a {between.farad!r} F"]
    return [f"R resistor top a {between.ohm!r} ohm"]


def _single(n, lines, screen, length):
    core = CORE_MORE * screen
    lines = [
        *lines,
        f"Rout resistor a s {n.source_ohm!r} ohm",
        f"Rcore resistor s c {0.084 * length!r} ohm",
        f"Lcore inductor c in {core!r} H",
        f"Rin resistor in 0 {n.input_ohm!r} ohm",
    ]
    couplings = [("Lscreen", "Lcore", screen / sqrt(screen * core))] if n.closed else []
    return Lumped(circuit(*lines, couplings=couplings), {"E": 1.0}, ("in", "0"))


def _balanced(n, lines, screen, length):
    """Each leg: source, core, impedance to case B. `nearness` pulls the mutual inductances of the
    two cores apart.
    """
    core = CORE_MORE * screen
    for leg, ohm in (("1", n.leg), ("2", n.leg + n.imbalance)):
        lines += [
            f"Rs{leg} resistor a s{leg} {max(ohm, 1e-6)!r} ohm",
            f"Rcore{leg} resistor s{leg} c{leg} {0.084 * length!r} ohm",
            f"Lcore{leg} inductor c{leg} in{leg} {core!r} H",
            *_common(n, leg),
        ]
    couplings = []
    if n.closed:
        for leg, apart in (("1", n.nearness / 2), ("2", -n.nearness / 2)):
            couplings.append(("Lscreen", f"Lcore{leg}", (screen + apart) / sqrt(screen * core)))
        couplings.append(("Lcore1", "Lcore2", (screen + PAIR * (core - screen)) / core))
    return Lumped(circuit(*lines, couplings=couplings), {"E": 1.0}, ("in1", "in2"))


def _common(n, leg):
    if n.common:
        yield f"Rcm{leg} resistor in{leg} 0 {n.common!r} ohm"
    if n.common_farad:
        yield f"Ccm{leg} capacitor in{leg} 0 {n.common_farad!r} F"


def live_wire(n, one) -> Lumped:
    """A live wire through its capacitance to the signal core, on source and input side by side and
    the lead's own capacitance.
    """
    lines = [
        "E emf top 0 0 V",
        f"C12 capacitor top in {one.farad!r} F",
        f"R resistor in 0 {n.electric_ohm!r} ohm",
        f"C2 capacitor in 0 {n.own_farad!r} F",
    ]
    return Lumped(circuit(*lines), {"E": one.volts}, ("in", "0"))


def in_the_core(n, volts: float) -> Lumped:
    """What is induced in the pair: an emf in series with source and input."""
    lines = [
        "E emf top 0 0 V",
        f"Rout resistor top in {n.source_ohm!r} ohm",
        f"Rin resistor in 0 {n.input_ohm!r} ohm",
    ]
    return Lumped(circuit(*lines), {"E": volts}, ("in", "0"))
