"""Laws of every kind of drawing, by geometry: no line runs through a word, nothing is cut off at the edge,
and thumbnails bear no words."""

import random

import pytest

from generator import interference
from generator.drawing import SIDE, draw, draw_scene, draw_schematic, figures, mark, small, svg
from generator.drawing.marks import WORDS
from generator.drawing.scene import SMALLEST
from generator.engine import judge
from generator.engine.explain import explain
from generator.site import curves, runs, teaching

from . import seen
from .test_every_record import connections, pictures
from .test_figures import phones
from .test_plots_and_runs import pictures as plotted

WORKED = "site_src/runs"
# which contacts carry what changes what is told of a step, not where it stands
LEGS = ("tip", "tip"), "sleeve"
AIR = 0.6  # px that half a thin line may stand beyond the last spot


def faces(catalogue):
    for connector in catalogue.connectors.values():
        for half in connector.halves:
            if scene := small.picture(connector, half):
                yield f"small {connector.id} {half}", svg.write(scene, "small")


def schematics(catalogue, every_pairing):
    for start, through, target in random.Random(4).sample(every_pairing, 40):
        for finding in (
            None,
            *dict.fromkeys(one.id for one in judge(catalogue, start, through, target).findings),
        ):
            yield (
                f"{start} {through} {target} {finding}",
                draw_schematic(explain(catalogue, start, through, target, finding)),
            )


def taught(catalogue, root):
    tables = interference.with_ports(interference.tables(), catalogue)
    for name in teaching.PICTURES:
        yield name, draw_scene(teaching.picture(catalogue, name), prefix="idea")
    for plug, jack in phones(catalogue):
        if max(len(plug.contacts), len(jack.contacts)) > 3:
            continue  # no guide shows more: four springs have no room for their words
        for number, scene in enumerate(figures.sliding(plug, jack, *LEGS)):
            yield f"{plug.id} into {jack.id}, step {number}", draw_scene(scene, prefix="step")
    for number, scene in enumerate(plotted()):
        yield f"plot or run {number}", draw_scene(scene, prefix="plotted")
    for shown in curves.all(tables):
        yield shown.id, shown.picture
    for one in runs.worked(runs.with_sources(catalogue), tables, root / WORKED):
        yield one.id, one.picture
        yield f"bars of {one.id}", one.bars


@pytest.fixture(scope="module", params=["records", "connections", "faces", "schematics", "taught"])
def kind(request, catalogue, every_pairing, pytestconfig):
    made = {
        "records": lambda: pictures(catalogue),
        "connections": lambda: connections(catalogue),
        "faces": lambda: faces(catalogue),
        "schematics": lambda: schematics(catalogue, every_pairing),
        "taught": lambda: taught(catalogue, pytestconfig.rootpath),
    }
    found = list(made[request.param]())
    assert len(found) > 50
    return found


def test_no_line_runs_through_a_word(kind):
    assert [
        (name, words.words, look, spot) for name, source in kind for words, look, spot in seen.struck(source)
    ] == []


def test_words_are_large_enough_inside_and_not_on_each_other(kind):
    for name, source in kind:
        wide, high = (float(seen.root(source).get(side)) for side in ("width", "height"))
        found = seen.all_words(source)
        for number, one in enumerate(found):
            assert one.size >= SMALLEST, f"{name}: {one}"
            assert 0 <= one.left and one.right <= wide and 0 <= one.top and one.bottom <= high, (
                f"{name}: {one} is cut off"
            )
            assert not any(one.overlaps(other) for other in found[:number]), f"{name}: {one} covers another"


def test_nothing_is_cut_off(kind):
    for name, source in kind:
        wide, high = (float(seen.root(source).get(side)) for side in ("width", "height"))
        for look, spots in seen.strokes(source):
            xs, ys = zip(*spots)
            assert -AIR <= min(xs) and max(xs) <= wide + AIR and -AIR <= min(ys) and max(ys) <= high + AIR, (
                f"{name}: {look} is cut off"
            )


def test_a_thumbnail_bears_no_words(catalogue):
    """Side views stand in lists, pickers and answers at a third of their size, and the marks beside names:
    words on them would be specks."""
    thumbnails = [
        draw(catalogue, connector.id, SIDE, half, mount=mount)
        for connector in catalogue.connectors.values()
        for half, mounts in connector.outside.body.items()
        for mount in mounts
    ]
    thumbnails += [mark(verdict, "mark", word=False) for verdict in WORDS]
    assert len(thumbnails) > 150 and [source for source in thumbnails if seen.all_words(source)] == []


def test_a_small_face_bears_the_names_of_contacts_and_nothing_else(catalogue):
    for connector in catalogue.connectors.values():
        for half in connector.halves:
            if scene := small.picture(connector, half):
                assert {words.words for words in seen.all_words(svg.write(scene, "small"))} <= set(
                    connector.contacts
                ), f"{connector.id} {half}"


@pytest.mark.parametrize(
    ("shape", "told"),
    [
        # through the word
        ('<line x1="0" y1="10" x2="90" y2="10" class="rf-line" stroke="currentColor"/>', ["hot"]),
        ('<line x1="0" y1="18" x2="90" y2="18" class="rf-line" stroke="currentColor"/>', []),  # under it
        (
            '<path d="M 0 30 C 20 0 60 0 90 20" class="rf-core-1" stroke="currentColor"/>',
            ["hot"],
        ),  # a bent one
        ('<line x1="0" y1="10" x2="90" y2="10" class="rf-gap" stroke="none"/>', []),  # nobody sees it
    ],
)
def test_the_law_sees_a_line_through_a_word(shape, told):
    source = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="90" height="40">{shape}<text x="30" y="14" '
        'font-size="12" text-anchor="start">hot</text></svg>'
    )
    assert [words.words for words, _, _ in seen.struck(source)] == told
