"""Laws that hold for any connection, tried on fixed samples of the real catalogue: nobody has to know the
right answer to see a wrong one."""

from dataclasses import replace
from random import Random

import pytest

from generator.catalogue.records import Port
from generator.engine import judge
from generator.engine.assemble import Way, placed, ways
from generator.engine.constants import SILENT
from generator.engine.direct import settings, supply_switches
from generator.engine.findings import findings_of
from generator.engine.judge import judge_way, read
from generator.engine.verdict import RANK
from generator.engine.words import setting_words

SEED, MANY = 20261125, 30


@pytest.fixture(scope="module")
def sample(catalogue, every_pairing):
    """`sample(wanted)`: a fixed choice of pairings of which wanted(start, through, target) is true; without
    leads of four tails, which take long."""
    short = [
        pairing
        for pairing in every_pairing
        if all(len(catalogue.leads[name].ends) <= 3 for name in pairing[1])
    ]

    def sample(wanted=lambda *pairing: True, many=MANY):
        mixed = Random(SEED).sample(short, len(short))
        found = [pairing for pairing in mixed if wanted(*pairing)][:many]
        assert len(found) == many, "the catalogue has too few of these for a sample"
        return found

    return sample


def with_port(catalogue, port):
    return replace(catalogue, ports={**catalogue.ports, port.id: port})


def rated(port, change):
    """The port with every rating of volts and amps changed by `change(value)`; what is not known stays so."""

    def changed(limit):
        if limit.quantity not in ("volts", "amps") or limit.settled is None:
            return limit
        return replace(
            limit,
            settled=change(limit.settled),
            momentary=None if limit.momentary is None else change(limit.momentary),
        )

    return replace(port, network=replace(port.network, limits=tuple(map(changed, port.network.limits))))


def rank(catalogue, pairing):
    return RANK[judge(catalogue, *pairing).verdict]


def assert_alike(one, other, about):
    """Two verdicts that differ in names and rounding only; below -120 dB all is rounding, and small losses
    carry some 1e-8 dB of it. Of two capacitors that take equally long either may be named."""

    def told(verdict):
        return sorted(
            (
                f.id,
                f.severity,
                f.where if f.id != "wait-for-capacitors" else "",
                f.state,
                max(f.value, SILENT) if f.unit == "dB" else f.value,
            )
            for f in verdict.findings
        )

    assert (one.verdict, one.plugging, [v for _, v in one.settings]) == (
        other.verdict,
        other.plugging,
        [v for _, v in other.settings],
    ), about
    assert [finding[:-1] for finding in told(one)] == [finding[:-1] for finding in told(other)], about
    assert [finding[-1] for finding in told(one)] == pytest.approx(
        [finding[-1] for finding in told(other)], rel=1e-6, abs=1e-7
    ), about


# -- supplies
# -------------------------------------------------------------------------------------------------------


def fed(port):
    """Emfs that push direct current: (those that can be switched off, all of them)."""
    pushing = [part for part in port.network.parts if part.kind == "emf" and part.value.nominal]
    return [part for part in pushing if part.supply], pushing


def one_supply(catalogue):
    """Connections in which one switch turns all direct current off: with two supplies, turning one off may
    well leave the other its prey."""

    def wanted(start, through, target):
        ports = [catalogue.ports[start], catalogue.ports[target]]
        spare = any(end.usual for name in through for end in catalogue.leads[name].ends.values()) and any(
            len(catalogue.leads[n].ends) > 2 for n in through
        )
        switches = sum(len(port.supplies) for port in ports)
        return (
            not spare
            and switches == 1
            and all(len(switched) == len(pushing) for switched, pushing in map(fed, ports))
        )

    return wanted


def test_turning_a_supply_off_never_makes_a_new_danger(catalogue, sample):
    dangers = 0
    for start, through, target in sample(one_supply(catalogue)):
        outlet, inlet, leads = (
            catalogue.ports[start],
            catalogue.ports[target],
            [catalogue.leads[name] for name in through],
        )
        if any(part.kind == "emf" and part.value.nominal for lead in leads for part in lead.network.parts):
            # a supply in the lead: the switched one may hold it in balance, so the law does not speak of it
            continue
        for way in ways(catalogue, outlet, leads, inlet):
            places = placed(catalogue, outlet, leads, inlet, way)
            ports = {place: record for place, record in places.items() if isinstance(record, Port)}
            names = {switch.key: switch.name for switch in supply_switches(ports)}
            told = [setting_words(setting, names) for setting in settings(ports)]
            if len(told) > 2:
                # a lead with many tails goes into as many of the inlet, and each has a switch of its own
                continue
            found = [
                f
                for reading in read(catalogue, outlet, leads, inlet, way)
                for f in findings_of(reading, told, places)
                if f.severity == "dangerous"
            ]
            on, off = (
                {(f.id, f.subject, f.state) for f in found if f.setting == number} for number in (0, 1)
            )
            assert off <= on, (start, through, target)
            dangers += len(on)
    assert dangers, "this sample has nothing that could go wrong"


# -- leads
# ----------------------------------------------------------------------------------------------------------


def mirrored(lead):
    """The lead with its ends a and b named the other way round."""
    swap = {"a": "b", "b": "a"}

    def node(name):
        end, dot, contact = name.partition(".")
        return f"{swap[end]}.{contact}" if dot and end in swap else name

    parts = tuple(replace(part, a=node(part.a), b=node(part.b)) for part in lead.network.parts)
    limits = tuple(
        replace(limit, between=limit.between and tuple(map(node, limit.between)))
        for limit in lead.network.limits
    )
    ends = {swap[name]: replace(end, id=swap[name]) for name, end in lead.ends.items()}
    return replace(lead, ends=ends, network=replace(lead.network, parts=parts, limits=limits))


def two_ended(lead):
    return list(lead.ends) == ["a", "b"]


def symmetrical(lead):
    """Same halves, same contacts joined, nothing in between but cable."""
    if not two_ended(lead) or lead.parts:
        return False
    a, b = lead.ends.values()
    joined = [
        tuple({node.partition(".")[2] for node in join.nodes if node.startswith(f"{end}.")} for end in "ab")
        for join in lead.joins
    ]
    return (a.connector, a.half) == (b.connector, b.half) and all(one == other for one, other in joined)


def test_turning_a_symmetrical_lead_round_changes_nothing(catalogue, sample):
    def wanted(start, through, target):
        return through and symmetrical(catalogue.leads[through[0]])

    for start, through, target in sample(wanted, 20):
        outlet, inlet, leads = (
            catalogue.ports[start],
            catalogue.ports[target],
            [catalogue.leads[name] for name in through],
        )
        one, other = (
            judge_way(catalogue, outlet, leads, inlet, Way((pair,))) for pair in (("a", "b"), ("b", "a"))
        )
        assert_alike(one, other, (start, through, target))


def test_what_the_ends_are_called_changes_nothing(catalogue, sample):
    def wanted(start, through, target):
        return through and two_ended(catalogue.leads[through[0]])

    for start, through, target in sample(wanted, 20):
        lead = mirrored(catalogue.leads[through[0]])
        renamed = replace(catalogue, leads={**catalogue.leads, lead.id: lead})
        assert_alike(
            judge(renamed, start, through, target),
            judge(catalogue, start, through, target),
            (start, through, target),
        )


# -- ratings
# --------------------------------------------------------------------------------------------------------


def test_a_stricter_rating_never_makes_a_verdict_milder(catalogue, sample):
    stricter = 0
    for start, through, target in sample():
        before = rank(catalogue, (start, through, target))
        for name in (start, target):
            after = rank(
                with_port(catalogue, rated(catalogue.ports[name], lambda value: value / 20)),
                (start, through, target),
            )
            assert after >= before, (start, through, target)
            stricter += after > before
    assert stricter, "a twentieth of the rating must matter somewhere"


def test_an_unknown_rating_is_never_milder_than_a_known_one(catalogue, sample):
    """Nor milder than a part ten times as strong: what nobody has stated is not trusted. The devices
    send nothing here: a device is built for its own signal, so only a known rating can tell that a
    load is too heavy for it."""
    worse = 0
    for start, through, target in sample():
        for name in (start, target):
            port = catalogue.ports[name]
            port = replace(
                port, sources=tuple(replace(source, nominal=None, maximum=None) for source in port.sources)
            )
            unknown = rank(with_port(catalogue, rated(port, lambda value: None)), (start, through, target))
            for known in (port, rated(port, lambda value: value * 10)):
                before = rank(with_port(catalogue, known), (start, through, target))
                assert unknown >= before, (start, through, target, name)
                worse += unknown > before
    assert worse, "not knowing must matter somewhere"


# -- names and order
# ------------------------------------------------------------------------------------------------


def turned_round(records):
    return dict(reversed(records.items()))


def test_order_does_not_matter(catalogue, sample):
    other = replace(
        catalogue,
        **{
            kind: turned_round(getattr(catalogue, kind))
            for kind in ("connectors", "assignments", "ports", "leads", "sources")
        },
    )
    for pairing in sample(many=20):
        assert judge(other, *pairing) == judge(catalogue, *pairing)


def test_the_order_of_parts_does_not_matter(catalogue, sample):
    """The nets get other numbers; the numbers that come out are the same."""
    for start, through, target in sample(many=20):
        port = catalogue.ports[target]
        turned = replace(port, network=replace(port.network, parts=port.network.parts[::-1]))
        assert_alike(
            judge(with_port(catalogue, turned), start, through, target),
            judge(catalogue, start, through, target),
            (start, through, target),
        )


def test_ids_do_not_matter(catalogue, sample):
    for start, through, target in sample(lambda start, through, target: through, 20):
        lead = replace(catalogue.leads[through[0]], id="zz-lead")
        outlet, inlet = (
            replace(catalogue.ports[start], id="zz-outlet"),
            replace(catalogue.ports[target], id="aa-inlet"),
        )
        renamed = replace(
            catalogue, ports={**catalogue.ports, outlet.id: outlet, inlet.id: inlet}, leads={lead.id: lead}
        )
        assert_alike(
            judge(renamed, "zz-outlet", ("zz-lead",), "aa-inlet"),
            judge(catalogue, start, through, target),
            (start, through, target),
        )
