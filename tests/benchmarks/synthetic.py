"""Catalogues made from the real one: fewer outlets, more leads and inlets, one lead changed."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from generator.catalogue.records import Catalogue, Lead, Port, Quantity
from generator.engine import pairings

EQUAL = 0.75  # of the copies differ in nothing but their names
SEED = 20261125


def some_outlets(catalogue: Catalogue, least: int) -> Catalogue:
    """A catalogue that lets only some ports send, as few as give at least so many
    pairings (or all there are)."""
    count: dict[str, int] = {}
    for outlet, _, _ in pairings(catalogue):
        count[outlet] = count.get(outlet, 0) + 1
    outlets, chosen = sorted(count), set()
    Random(SEED).shuffle(outlets)
    for outlet in outlets:
        if sum(count[name] for name in chosen) >= least:
            break
        chosen.add(outlet)
    # Without its sources a port is no outlet; what it listens to, and its circuit, stay.
    ports = {id: port if id in chosen else replace(port, sources=()) for id, port in catalogue.ports.items()}
    return replace(catalogue, ports=ports)


def copied(catalogue: Catalogue, times: int) -> Catalogue:
    """Every lead and every port that only listens `times` times over, under new ids; EQUAL of the copies are
    equal, the rest have other resistors."""
    chance = Random(SEED)
    ports, leads = dict(catalogue.ports), dict(catalogue.leads)
    for number in range(1, times):
        for kind, made in ((catalogue.ports, ports), (catalogue.leads, leads)):
            for record in kind.values():
                if isinstance(record, Lead) or record.listeners and not record.sources:
                    name = f"{record.id}-copy-{number}"
                    copy = replace(record, id=name, name=f"{record.name}, copy {number}")
                    made[name] = (
                        copy if chance.random() < EQUAL else other_resistors(copy, 1 + 0.001 * number)
                    )
    return replace(catalogue, ports=ports, leads=leads)


def other_resistors(record: Port | Lead, times: float) -> Port | Lead:
    """The record with every resistance multiplied."""
    parts = tuple(
        replace(part, value=_scaled(part.value, times)) if part.kind == "resistor" else part
        for part in record.network.parts
    )
    return replace(record, network=replace(record.network, parts=parts))


def _scaled(value: Quantity, times: float) -> Quantity:
    return replace(value, nominal=value.nominal * times, low=value.low * times, high=value.high * times)


def one_lead_changed(catalogue: Catalogue) -> tuple[Catalogue, str]:
    """The catalogue with the resistors of one lead a per cent larger, and that lead: the one with resistance
    that most pairings use."""
    count: dict[str, int] = {}
    for _, through, _ in pairings(catalogue):
        for name in through:
            count[name] = count.get(name, 0) + 1
    resistive = [
        name for name in count if any(part.kind == "resistor" for part in catalogue.leads[name].network.parts)
    ]
    lead = max(resistive, key=lambda name: (count[name], name))
    return replace(
        catalogue, leads={**catalogue.leads, lead: other_resistors(catalogue.leads[lead], 1.01)}
    ), lead
