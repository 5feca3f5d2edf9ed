"""A case of a circuit as text for a simulator. Whether the simulator agrees is tested in tests/oracle."""

from bench import circuit, nominal

from generator.engine.netlist import netlist
from generator.engine.solve import OPEN

PHANTOM = (
    "E1 emf rail 0 48 V",
    "R1 resistor rail hot 6.81 kohm",
    "C1 capacitor hot in 47 uF",
    "R2 resistor in 0 10 kohm",
    "S1 sink mic 0 3 mA knee 10 V",
    "D1 clamp mic 0 40 V series 20 ohm",
)


def test_direct_current():
    of = circuit(*PHANTOM, switches=[("hot", "mic"), ("hot", "0")])
    assert (
        netlist(of, nominal(of)[0], (True, False), title="a microphone on phantom")
        == """\
* a microphone on phantom
* n0 = 0
* n1 = rail
* n2 = hot
* n3 = in
* n4 = mic
V0 n1 n0 48.0 ; E1
R1 n1 n2 6810.0 ; R1
C2 n2 n3 4.7e-05 ; C1
R3 n3 n0 10000.0 ; R2
B4 n4 n0 i=0.003*min(1,v(n4,n0)/10.0) ; S1
Rleak4 n4 n0 1000000000000.0 ; S1
B5 n4 n0 i=max(0,(v(n4,n0)-40.0)/20.0) ; D1
Rleak5 n4 n0 1000000000000.0 ; D1
Rcontact0 n2 n4 0.01
Rzero0 n0 0 1
.options reltol=1e-9 abstol=1e-12 vntol=1e-12 gmin=1e-15
.op
.end
"""
    )


def test_alternating_current_silences_supplies_and_drives_what_is_asked():
    of = circuit(*PHANTOM, switches=[("hot", "mic")])
    text = netlist(
        of, nominal(of)[0], (True,), {"S1": -1 / 2200, "E1": 0.5, ("0", "in"): 1.0}, (20.0, 1000.0)
    )
    assert "V0 n1 n0 dc 0 ac 0.5 ; E1\n" in text
    assert "I4 n4 n0 dc 0 ac -0.00045454545454545455 ; S1\n" in text
    assert "Iprobe0 n0 n3 dc 0 ac 1.0\n" in text
    assert "B" not in "".join(line[0] for line in text.splitlines()), "sinks and clamps are open to signal"
    assert text.endswith("noopac\n.ac lin 1 20.0 20.0\n.ac lin 1 1000.0 1000.0\n.end\n")


def test_every_piece_has_its_own_ground():
    of = circuit("R1 resistor a 0 1 kohm", "C1 capacitor a b 1 uF", "R2 resistor b c 1 kohm")
    assert netlist(of, nominal(of)[0], ()).count("Rzero") == 2
    assert netlist(of, nominal(of)[0], (), {}, (20.0,)).count("Rzero") == 1


def test_windings_are_coupled_for_signal_only():
    of = circuit(
        "L1 inductor a 0 10 H",
        "R1 resistor a 0 1 kohm",
        "L2 inductor b 0 1 H",
        "R2 resistor b 0 1 kohm",
        couplings=[("L1", "L2", 0.999)],
    )
    assert "K0 L0 L2 0.999\n" in netlist(of, nominal(of)[0], (), {}, (20.0,))
    assert "K0" not in netlist(of, nominal(of)[0], ())


def test_a_winding_shorted_on_itself_is_left_out_of_direct_current():
    of = circuit("L1 inductor a b 1 H", "J1 wire a b", "R1 resistor a 0 1 kohm")
    assert "L0" not in netlist(of, nominal(of)[0], ())
    assert "L0 n" in netlist(of, nominal(of)[0], (), {}, (20.0,))


def test_a_rail_that_is_disconnected_leaks_through_a_gigaohm():
    of = circuit("E1 emf rail 0 48 V", "R1 resistor rail 0 1 kohm")
    assert "V0 n1 open0 0 ; E1\nRopen0 open0 n0 1000000000.0 ; E1\n" in netlist(of, [OPEN, 1e3], ())
