import pytest

from generator.catalogue.records import (
    Assignment,
    Catalogue,
    Connector,
    End,
    Evidence,
    Half,
    Join,
    Lead,
    Network,
    Spot,
    Spring,
)

EVIDENCE = Evidence("from memory")


def phone(id, segments, springs, bore="phone"):
    contacts = tuple(segments)
    return Connector(
        id,
        f"Phone {id}",
        "concentric",
        bore,
        contacts,
        {
            "plug": Half("plug", segments=segments, sizes={"diameter": 6.0}),
            "jack": Half("jack", springs={c: Spring(low, high, 0.8) for c, (low, high) in springs.items()}),
        },
        {},
        None,
        "",
        (),
        EVIDENCE,
    )


def circular(id, angles, key=None):
    return Connector(
        id,
        f"Circular {id}",
        "circular",
        id,
        tuple(angles),
        {"male": Half("male"), "female": Half("female")},
        {c: Spot(angle, 3.8) for c, angle in angles.items()},
        key,
        "",
        (),
        EVIDENCE,
    )


ROUND = circular("round", {"1": 270, "2": 90, "3": 180}, key=0)
TWO = phone("two", {"tip": (0, 9), "sleeve": (10, 30)}, {"tip": (4, 6), "sleeve": (20, 28)})
THREE = phone(
    "three",
    {"tip": (0, 9), "ring": (10, 14), "sleeve": (15, 30)},
    {"tip": (4, 6), "ring": (11.5, 12.5), "sleeve": (20, 28)},
)


def lead(joins, parts=(), couplings=(), cable=None, ends=None, screens=("screen",)):
    ends = ends or {"a": ("round", "female"), "b": ("round", "male")}
    return Lead(
        id="lead",
        name="A lead",
        form="cable" if cable else "adapter",
        ends={e: End(e, c, h, f"end {e}", None) for e, (c, h) in ends.items()},
        joins=tuple(Join(name, tuple(nodes), name in screens) for name, nodes in joins.items()),
        parts=tuple(part.id for part in parts),
        network=Network(tuple(parts), tuple(couplings)),
        length=3.0 if cable else None,
        cable=cable,
        impedance=None,
        looks_like=(),
        tell_apart="",
        cautions=(),
        also_called=(),
        evidence=EVIDENCE,
    )


@pytest.fixture
def small():
    """A catalogue of three connectors, one assignment and no leads."""
    assignment = Assignment(
        "round-audio",
        "Audio on round",
        "round",
        {"1": "screen", "2": "hot", "3": "cold"},
        "",
        {},
        (),
        EVIDENCE,
    )
    return Catalogue({c.id: c for c in (ROUND, TWO, THREE)}, {"round-audio": assignment}, {}, {}, {}, {})
