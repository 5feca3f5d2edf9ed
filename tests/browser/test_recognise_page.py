"""A few questions about a plug in the hand, answered by thumb, end at its page; the
candidates are drawings."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def walk(page, catalogue, connector):
    """Answers every question as somebody would who sees what the record says; the questions asked."""
    asked = []
    while page.locator(".rf-reply").count():
        question = page.locator(".rf-ask__title").inner_text()
        fitting = page.evaluate(
            """(id) => { const { recognise, plugs } = Ringfence;
            const all = Object.entries(plugs.connectors).map(([id, plug]) => ({ id, ...plug })), questions = recognise.questions(all, plugs.words);
            const next = recognise.next(all, questions, recognise.read(location.hash, questions));
            return next.answers.find((one) => one.fits(plugs.connectors[id].looks)).id; }""",
            connector,
        )
        page.locator(f'.rf-reply[data-answer="{fitting}"]').tap()
        asked.append(question)
        expect(page.locator(".rf-ask__title")).not_to_have_text(question)
    return asked


@pytest.mark.parametrize("connector", ["xlr-5", "phone-35-trrs", "mini-xlr-4", "bnc", "din-5-180"])
def test_answers_lead_to_the_plug_in_the_hand(visit, catalogue, connector):
    page = visit("recognise/")
    assert 1 <= len(walk(page, catalogue, connector)) <= 6
    assert int(page.locator(".rf-plugs__count").inner_text().split()[0]) <= 3
    assert any(
        catalogue.connectors[connector].name in name
        for name in page.locator("#rf-recognise a").all_inner_texts()
    )
    drawn = page.locator("#rf-recognise img").evaluate_all(
        "all => Promise.all(all.map((one) => { one.loading = 'eager'; "
        "return one.decode().then(() => one.naturalWidth > 0); }))"
    )
    assert drawn and all(drawn)


def test_an_answer_is_taken_back_by_the_way_back_and_by_a_tap(visit):
    page = visit("recognise/")
    page.locator(".rf-reply").first.tap()
    count = page.locator(".rf-plugs__count")
    expect(count).to_contain_text("connectors fit")
    page.go_back()
    expect(count).not_to_contain_text("fit")
    page.locator(".rf-reply").first.tap()
    page.locator(".rf-taken button").first.tap()
    expect(count).not_to_contain_text("fit")


def test_nothing_like_it_is_said_honestly(visit):
    page = visit("recognise/")
    for _ in range(3):
        if page.locator('.rf-reply[data-answer="other"]').count():
            page.locator('.rf-reply[data-answer="other"]').tap()
            page.wait_for_timeout(100)
    expect(page.locator(".rf-ask__title")).to_have_text("Nothing in this catalogue looks like that")
    expect(page.locator(".rf-ask__help")).to_contain_text("Do not go by the nearest one")
