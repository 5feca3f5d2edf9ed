"""Bad rows of converters.yaml: what is written the wrong way round is refused."""

from .bad_case import case

ROW = """\
box:
  name: a box
  enters: %s
  leaves: %s
%s  does: It turns one thing into another.
  power: It needs mains.
  look_at: [It works one way only.]
  evidence: common practice
"""


def row(enters, leaves, more=""):
    return "converters.yaml", "", ROW % (enters, leaves, more)


# fmt: off
CONVERTERS = [
    case([row("player-out", "player-out")], """\
pinouts/converters.yaml:3:11: error[nothing-enters]
    'player-out' hears nothing, so nothing enters a converter there."""),
    case([row("desk-in", "[player-out, desk-in]")], """\
pinouts/converters.yaml:4:24: error[nothing-leaves]
    'desk-in' sends nothing, so nothing leaves a converter there."""),
    case([row("desk-in", "plyer-out")], """\
pinouts/converters.yaml:4:11: error[unknown-port]
    there is no port 'plyer-out'. Did you mean 'player-out'?"""),
    case([row("[]", "player-out")], """\
pinouts/converters.yaml:3:11: error[too-few]
    'enters' has 0 of at least 1 items."""),
    case([row("desk-in", "player-out", "  turned: yes\n")], """\
pinouts/converters.yaml:5:3: error[unknown-key]
    'turned' is not a key here; 'box' takes name, enters, leaves, only_from, only_to, does, power, look_at, evidence, cite, checked, confirmed, note."""),
]
