from generator.drawing import text
from generator.drawing.scene import Text


def test_widths_are_the_fonts_own():
    # advance widths of DejaVu Sans 2.37 (units per em 2048): A 1401, i 569, m 1995
    assert text.width("A", 1000) == 684
    assert text.width("i", 1000) == 278
    assert text.width("m", 1000) == 974
    assert text.width("ten W and ten i", 13) > text.width("iiiiiiiiiiiiiii", 13)


def test_a_character_outside_the_table_counts_as_a_full_em():
    assert text.width("漢", 10) == 10


def test_bold_is_wider():
    assert text.width("sleeve", 13, "bold") > text.width("sleeve", 13)


def test_wrapped_lines_fit_and_keep_every_word():
    words = "Headset combiner, left-right-ground-microphone order, 3.5 mm plug"
    lines = text.wrap(words, 13, 90)
    assert all(text.width(line, 13) <= 90 for line in lines)
    assert "".join(lines).replace("\xa0", "").replace(" ", "") == words.replace(" ", "")


def test_a_number_stays_with_its_unit():
    assert text.wrap("RCA lead, 1.5 m", 13, text.width("RCA lead, 1.5", 13) + 2) == ["RCA lead,", "1.5\xa0m"]


def test_a_word_too_long_for_the_room_is_broken():
    lines = text.wrap("Donaudampfschiff", 13, 40)
    assert "".join(lines) == "Donaudampfschiff" and len(lines) > 1


def test_box_follows_the_anchor():
    wide = text.width("hot", 13)
    assert text.box(Text(100, 50, "hot", 13, "end")).right == 100
    assert text.box(Text(100, 50, "hot", 13)).left == 100
    assert abs(text.box(Text(100, 50, "hot", 13, "middle")).left - (100 - wide / 2)) < 1e-9
