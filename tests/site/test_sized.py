"""An image of a drawing keeps its room; every other image is left as it is."""

from generator.site.sized import sized

DRAWN = {"draw/lead-a.svg": b'<svg baseProfile="full" height="151.6" viewBox="0 0 320 151.6" width="320">'}


def test_a_drawing_gets_its_own_width_and_height():
    page = '<p><img class="a" src="../../draw/lead-a.svg" alt="A lead" loading="lazy"></p>'
    assert sized(page, DRAWN) == (
        '<p><img class="a" src="../../draw/lead-a.svg" alt="A lead" loading="lazy" width="320" '
        'height="152"></p>'
    )


def test_one_that_has_sizes_or_is_not_drawn_here_is_left():
    page = (
        '<img width="30" height="15" src="draw/lead-a.svg"><img src="draw/lead-b.svg"><img '
        'src="assets/logo.svg">'
    )
    assert sized(page, DRAWN) == page
