"""A law over the whole ledger: power that arrives the wrong way round is dangerous, never merely no power."""

import once


def test_reversed_power_is_dangerous(catalogue):
    """common practice: some inputs have a diode against it and some die; until a manual says
    which, nobody plugs it."""
    rows = [
        row
        for row in once.rows(catalogue)
        if any(source.kind == "power" for source in catalogue.ports[row["from"]].sources)
        and any(listener.kind == "power" for listener in catalogue.ports[row["into"]].listeners)
    ]
    turned = [row for row in rows if {"reversed", "supply-reversed"} & {*row["findings"], *row["also"]}]
    assert len(turned) > 50
    assert [row for row in turned if row["verdict"] != "dangerous"] == []
    assert sum("supply-reversed" in row["findings"] for row in turned) > len(turned) / 2
