"""Links from the words of a text to the glossary."""

from types import SimpleNamespace

import pytest

from generator.site.glossary import Glossary
from generator.site.page import Page

GLOSSARY = Glossary(
    {
        "phantom": {"term": "phantom power", "forms": ["phantom"], "says": "."},
        "ring": {"term": "ring", "linked": "no", "says": "."},
        "pad": {"term": "pad", "also": ["attenuator"], "says": "."},
    }
)
PAGE = Page("ports/x/", "port", "", SimpleNamespace())


def link(anchor: str, words: str) -> str:
    return f'<a class="rf-term" href="../../guides/glossary/#{anchor}">{words}</a>'


@pytest.mark.parametrize(
    "text, shown",
    [
        ("Switch phantom power off.", f"Switch {link('phantom', 'phantom power')} off."),
        ("Phantom off, phantom on.", f"{link('phantom', 'Phantom')} off, phantom on."),
        ("An attenuator is a pad.", f"An {link('pad', 'attenuator')} is a pad."),
        ("The ring.", "The ring."),
        ("A padded bag, a pad-less one.", "A padded bag, a pad-less one."),
        ("<b> & phantom", f"&lt;b&gt; &amp; {link('phantom', 'phantom')}"),
    ],
)
def test_first_use_leads_there_and_text_stays_text(text, shown):
    assert str(GLOSSARY.link(text, PAGE)) == shown


def test_record_pages_link_their_words(tree):
    assert 'href="../../guides/glossary/#phantom"' in tree["ports/mixer-mic-in-p48-xlr.md"].decode()


def test_methods_links_every_rule_to_its_word(tree):
    assert 'href="../guides/glossary/#over-volts"' in tree["methods.md"].decode()
