"""The two ways a page is worked: by a thumb, that must be able to hit what it aims at, and by keys, that
must see where they are."""

from __future__ import annotations

TOUCH = 43.5  # px; WCAG 2.2, 2.5.5 Target Size (Enhanced) asks for 44, less what rounding takes
IN_TEXT = 24  # px; 2.5.8 for a word within running text
STOPS = 160  # of the Tab key; more than that nobody goes
FOCUS = """() => { const one = document.activeElement, style = getComputedStyle(one.closest(".rf-tick, label") || one), own = getComputedStyle(one), box = one.getBoundingClientRect();
    return { ring: [style, own].some((it) => it.outlineStyle !== "none" && parseFloat(it.outlineWidth) >= 1), seen: box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth,
             what: one.outerHTML.slice(0, 120) }; }"""


class Thumb:
    """`taps` counts what was tapped; writing needs one to get into the field."""

    def __init__(self, page):
        self.page, self.taps = page, 0

    def press(self, target, in_text: bool = False) -> None:
        target = target.first
        target.scroll_into_view_if_needed()
        box = (
            target.locator("xpath=ancestor-or-self::label[1]")
            if target.evaluate("one => one.matches('label input')")
            else target
        ).bounding_box()
        least = IN_TEXT / 2 if in_text else TOUCH
        assert box["height"] >= least and box["width"] >= least, (
            f"too small for a thumb: {box} {target.evaluate('one => one.outerHTML.slice(0, 100)')}"
        )
        assert box["x"] >= 0 and box["x"] + box["width"] <= self.page.viewport_size["width"] + 1, (
            f"not on the screen: {box}"
        )
        target.tap()
        self.taps += 1

    def write(self, field, words: str) -> None:
        self.press(field)
        field.first.fill(words)


class Keys:
    """Tab to it, then Enter, or Space on what is ticked. `taps` stays nothing: a bound on
    taps is none on keys."""

    taps = 0

    def __init__(self, page):
        self.page = page

    def press(self, target, in_text: bool = False) -> None:
        self._reach(target.first)
        self.page.keyboard.press(
            "Space" if target.first.evaluate("one => one.matches('input[type=checkbox]')") else "Enter"
        )

    def write(self, field, words: str) -> None:
        self._reach(field.first)
        self.page.keyboard.type(words)

    def _reach(self, target) -> None:
        target.wait_for(state="attached")
        for _ in range(STOPS):
            if target.evaluate("one => one === document.activeElement"):
                focus = self.page.evaluate(FOCUS)
                assert focus["ring"] and focus["seen"], f"the focus is not seen: {focus['what']}"
                return
            self.page.keyboard.press("Tab")
        raise AssertionError(f"not reached by Tab: {target.evaluate('one => one.outerHTML.slice(0, 120)')}")
