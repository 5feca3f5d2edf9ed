"""The wiring a lead that is in no catalogue starts from on the bench, as a practitioner would draw it."""

import json

import pytest
from front import run, scripts

from generator.catalogue.published import as_data
from generator.engine.tables import tables

MINI, XLR, RCA = "phone-35-trs/plug", "xlr-3/male", "rca/plug"
WIRINGS = {
    ("mic-dynamic-xlr", "mixer-mic-in-p48-xlr"): f"#ends=xlr-3/female,{XLR}&joins=a.2_b.2,a.3_b.3,a.1_b.1",
    # A floating microphone into a mini-jack: contact 3 goes to the screen, 2 feeds both channels.
    (
        "mic-dynamic-xlr",
        "camera-mic-in-35",
    ): f"#ends=xlr-3/female,{MINI}&joins=a.2_b.ring_b.tip,a.1_a.3_b.sleeve",
    # An active output keeps contact 3 free.
    (
        "mixer-line-out-xlr",
        "camera-mic-in-35",
    ): f"#ends=xlr-3/female,{MINI}&joins=a.2_b.ring_b.tip,a.1_b.sleeve",
    # A player's shell drives contact 3, which would otherwise hang free.
    ("player-line-out-rca", "mixer-line-in-xlr"): f"#ends={RCA},{XLR}&joins=a.centre_b.2,a.shell_b.1_b.3",
    ("mixer-line-out-xlr", "digital-in-rca"): None,
}


@pytest.mark.parametrize("pair", WIRINGS, ids="-".join)
def test_as_a_practitioner_would(catalogue, tmp_path, pair):
    file = tmp_path / "data.json"
    file.write_text(json.dumps({"data": as_data(catalogue), **tables()}))
    asked = (
        "(() => { Ringfence.ui.port = (id) => Ringfence.data.ports[id]; "
        f"return check.laidOut({json.dumps(dict(zip(('from', 'into'), pair)))}); }})()"
    )
    assert (
        run(asked, scripts("engine", "check/wanted.js"), file, before="Ringfence.ui = {};") == WIRINGS[pair]
    )
