"""Routes of one lead, where one knows which lead is the better (derived): devices of a few parts, both with
pins, so that it takes a lead."""

from dataclasses import replace

import pytest
from bench import part
from box import BOND, DRIVE, hears, inlet, just, lead, outlet, sends, stands

from generator.catalogue.records import Need
from generator.engine.judge import judge
from generator.engine.missing import missing
from generator.engine.route import remedies, routes


def between_plugs(name, like, *more):
    """The lead under a name, with sockets at both ends and more parts."""
    network = replace(like.network, parts=(*like.network.parts, *more))
    return replace(
        like, id=name, network=network, ends={**like.ends, "b": replace(like.ends["b"], half="female")}
    )


@pytest.fixture
def powered(catalogue):
    """A device that works from 5 V and works well from 9 V takes 12 V +-1 V over 1 kohm with its 10 kohm: 10
    V at least. A lead with 2 kohm inside leaves it 9.23 V, and 8.46 V where the supply is low."""
    needs = [
        Need(
            "main.power",
            "electronics",
            ("hot", "chassis"),
            5.0,
            catalogue.ports["mixer-line-out-xlr"].evidence,
            full=9.0,
        )
    ]
    start = outlet(
        catalogue,
        DRIVE,
        "build-out resistor stage out 100 ohm",
        "couple capacitor out hot 100 uF",
        "load resistor hot chassis 10 kohm",
        BOND,
        sources=(sends(nominal=1.0, maximum=2.0),),
        needs=needs,
    )
    target = inlet(
        catalogue,
        "rail emf rail chassis 12 V +-1 V",
        "feed resistor rail hot 1 kohm",
        BOND,
        half="male",
        listeners=(hears(sensitivity=0.5, maximum=5.0),),
    )
    weak = between_plugs("weak", lead(catalogue, "1"), part("series resistor a.2 b.2 2 kohm"))
    own, *_ = just(catalogue, start, target, weak, between_plugs("wire", lead(catalogue, "1", "2")))
    return own, start.id, target.id


def test_the_safe_lead_comes_before_the_one_that_turns_out_lossy(powered):
    """At a first look, with everything at its nominal value, both are well, and the worse stands
    first in the catalogue."""
    own, start, target = powered
    assert [judge(own, start, [name], target).verdict for name in ("weak", "wire")] == ["lossy", "safe"]
    assert routes(own, start, target)[0].through == ("wire",)


def test_a_remedy_is_better_than_what_there_is(powered):
    own, start, target = powered
    assert [better.through for better in remedies(own, judge(own, start, ("weak",), target))] == [("wire",)]
    assert remedies(own, judge(own, start, ("wire",), target)) == ()


def test_what_turns_out_dangerous_is_not_offered(catalogue):
    """96 V +-8 V behind 10 kohm into 10 kohm: 48 V at a first look, and 52 V where the supply is high, on a
    part that stands 50 V."""
    start = outlet(
        catalogue,
        DRIVE,
        "build-out resistor stage hot 10 kohm",
        BOND,
        sources=(sends(),),
        limits=[stands(catalogue, "volts", ("hot", "chassis"), 50.0, 60.0)],
    )
    target = inlet(
        catalogue,
        "rail emf rail chassis 96 V +-8 V",
        "feed resistor rail hot 10 kohm",
        BOND,
        half="male",
        listeners=(hears(),),
    )
    own, *_ = just(catalogue, start, target, between_plugs("wire", lead(catalogue, "1", "2")))
    assert routes(own, start.id, target.id) == []


def test_what_a_lead_would_have_to_do_is_told_from_the_best_there_is(catalogue):
    """Neither lead does it: one turns the signal upside down, the other leaves it behind. Only the
    first is worth mending."""
    start = outlet(
        catalogue,
        "up emf stage-up chassis 0 V",
        "build-up resistor stage-up hot 100 ohm",
        "down emf stage-down chassis 0 V",
        "build-down resistor stage-down cold 100 ohm",
        BOND,
        sources=(
            replace(sends(output=("hot", "cold"), nominal=1.0, maximum=4.0), drive={"up": 0.5, "down": -0.5}),
        ),
    )
    target = inlet(
        catalogue,
        "load resistor hot cold 10 kohm",
        BOND,
        half="male",
        listeners=(hears(between=("hot", "cold"), maximum=10.0, sensitivity=1.0),),
    )
    leads = (
        between_plugs("open", lead(catalogue, "1")),
        between_plugs("turned", lead(catalogue, "1", "23", "32")),
    )
    own, *_ = just(catalogue, start, target, *leads)
    assert [judge(own, start.id, [one.id], target.id).verdict for one in leads] == ["no signal", "lossy"]
    assert missing(own, start.id, target.id).endswith("that swaps the two legs.")
