import random

import pytest

from generator.drawing import draw_schematic
from generator.engine import judge
from generator.engine.explain import explain

from . import seen

LINE_INTO_PHANTOM = ("mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr")


def words(drawn):
    return [each.words.replace("\xa0", " ") for each in seen.all_words(drawn)]


@pytest.mark.parametrize("seed", range(3))
def test_no_text_overlaps_or_leaves_the_canvas(catalogue, every_pairing, seed):
    for start, through, target in random.Random(seed).sample(every_pairing, 15):
        ids = dict.fromkeys(finding.id for finding in judge(catalogue, start, through, target).findings)
        for finding in (None, *ids):
            drawn = draw_schematic(explain(catalogue, start, through, target, finding))
            found, root = seen.all_words(drawn), seen.root(drawn)
            wide, high = float(root.get("width")), float(root.get("height"))
            assert wide == 320
            for number, one in enumerate(found):
                assert one.left >= 0 and one.top >= 0 and one.right <= wide and one.bottom <= high, (
                    start,
                    through,
                    target,
                    finding,
                    one,
                )
                assert one.size >= 12
                assert not any(one.overlaps(other) for other in found[:number]), (
                    start,
                    through,
                    target,
                    finding,
                    one,
                )


def test_no_words_cross_a_line(catalogue, every_pairing):
    for pairing in random.Random(9).sample(every_pairing, 25):
        drawn = draw_schematic(explain(catalogue, *pairing))
        found = seen.all_words(drawn)
        for element, matrix, _ in seen.walk(seen.root(drawn)):
            if element.tag != f"{seen.SVG}line" or element.get("class") == "rf-marked":
                continue
            x1, y1 = seen.place(matrix, float(element.get("x1")), float(element.get("y1")))
            x2, y2 = seen.place(matrix, float(element.get("x2")), float(element.get("y2")))
            for one in found:
                if one.words not in ("V", "Ω"):  # stand inside the meter
                    crosses = (
                        min(x1, x2) < one.right
                        and max(x1, x2) > one.left
                        and min(y1, y2) < one.bottom
                        and max(y1, y2) > one.top
                    )
                    assert not crosses, (pairing, one, (x1, y1, x2, y2))


def test_equal_workings_give_equal_files(catalogue):
    assert draw_schematic(explain(catalogue, *LINE_INTO_PHANTOM)) == draw_schematic(
        explain(catalogue, *LINE_INTO_PHANTOM)
    )


def test_rails_stand_in_order_of_voltage_with_name_and_volts(catalogue):
    tops = {
        each.words: each.top
        for each in reversed(seen.all_words(draw_schematic(explain(catalogue, *LINE_INTO_PHANTOM))))
    }
    assert tops["rail"] < tops["hot,"] < tops["leg hot"] < tops["ground"]
    assert {"52 V", "46.6 V", "0 V"} <= set(words(draw_schematic(explain(catalogue, *LINE_INTO_PHANTOM))))


def test_parts_show_value_voltage_and_current(catalogue):
    found = words(draw_schematic(explain(catalogue, *LINE_INTO_PHANTOM)))
    key = next(line.split(":")[0] for line in found if line.endswith(": feed resistor of the hot leg, Mixer"))
    assert found[found.index(key) :][:4] == [key, "5.45 kΩ", "5.4 V", "991 µA"]


def test_only_what_decides_is_brought_out_and_the_legend_says_so_in_words(catalogue):
    drawn = draw_schematic(explain(catalogue, *LINE_INTO_PHANTOM))
    assert seen.classes(drawn)["rf-marked"] == 1
    assert "output capacitor of the hot leg, Mixer line output (decides)" in seen.described(drawn)


def test_a_part_that_stands_where_the_meter_would_takes_its_place(catalogue):
    working = explain(
        catalogue, "mic-electret-mono-35", ("phone-35-trs-jack-to-xlr-m",), "mixer-mic-in-p48-xlr"
    )
    drawn = draw_schematic(working)
    assert any(part.kind == "meter" for part in working.parts)
    assert "capsule, Electret microphone (decides)" in seen.described(drawn) and "V" not in words(drawn)


def test_what_no_circuit_decides_is_told_in_words(catalogue):
    drawn = draw_schematic(
        explain(catalogue, "digital-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-line-in-xlr", "other-kind")
    )
    assert "No voltage or current decides this" in " ".join(words(drawn))
    assert "rf-heavy" not in seen.classes(drawn)


def test_prefix_starts_every_id(catalogue):
    drawn = draw_schematic(explain(catalogue, *LINE_INTO_PHANTOM), prefix="working", standalone=False)
    assert [e.get("id") for e in seen.root(drawn).iter() if e.get("id")] == ["working-title", "working-desc"]
