"""Twenty descriptions as a worried beginner writes them, one planted fault in each: the first line names the fault.

The faults are those of section 6 of the trade's practice and of everyday typing; what each first line must name was
written down before the program was run on it.
"""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from labelgen.command_line import app

FAULTS: dict[str, tuple[str, tuple[str, ...]]] = {
    "a toggle switch on a solenoid": (
        """
railway: My first branch line
supplies:
  CDU: {kind: pulse, volts: 18, microfarads: 4700}
strips:
  T1: {ways: 12}
levers:
  1: {type: latching, name: into the siding}
points:
  P1: {name: siding}
  P2: {name: loop}
""",
        ("lever 1", "latching", "P1"),
    ),
    "an old transformer straight on the rails": (
        """
railway: The loft
supplies:
  OLD: {kind: ac, volts: 60}
  CDU: {kind: pulse}
strips:
  T1: {}
points:
  P1: {name: siding}
""",
        ("OLD", "60 volts", "50 volts"),
    ),
    "a mains lamp on the strip": (
        """
railway: The loft
supplies:
  CDU: {kind: pulse}
strips:
  T1: {taken: {11: 230 V lamp, 12: 230 V lamp}}
points:
  P1: {name: siding}
""",
        ("way 11", "T1", "mains"),
    ),
    "kettle leads between the boards": (
        """
railway: Club layout
boards:
  Left: {size: [1000, 500], at: [0, 0]}
  Right: {size: [1000, 500], right_of: Left}
supplies:
  CDU: {kind: pulse, board: Left, at: [100, 100]}
strips:
  T1: {board: Left, at: [500, 250], measured: 110}
  T2: {board: Right, at: [500, 250], measured: 110}
plugs:
  KETTLE: {boards: [Left, Right], pins: 8, fits_mains: yes}
points:
  P1: {board: Left, at: [300, 200]}
  P2: {board: Right, at: [300, 200]}
""",
        ("KETTLE", "mains"),
    ),
    "green and yellow because there was some left": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse}
strips:
  T1: {}
functions:
  return: green/yellow
points:
  P1: {name: siding}
""",
        ("green", "yellow"),
    ),
    "a slow motor on the discharge unit": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse}
  CAB: {kind: track, fuse: 1}
strips:
  T1: {}
points:
  P1: {kind: stall-motor, supplies: {drive: CDU}}
""",
        ("P1", "CDU"),
    ),
    "a slow motor on a sprung switch": (
        """
railway: Shed end
supplies:
  TRAFO: {kind: ac, volts: 12, fuse: 1}
strips:
  T1: {}
levers:
  1: {type: sprung}
points:
  P1: {kind: stall-motor-one-wire}
""",
        ("lever 1", "sprung", "P1"),
    ),
    "the strip is too short": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse}
strips:
  T1: {ways: 8}
points:
  P1: {name: siding}
  P2: {name: loop}
  P3: {name: shed}
""",
        ("P3", "room"),
    ),
    "a mistyped key": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse}
strips:
  T1: {ways: 12}
points:
  P1: {nmae: siding}
""",
        ("nmae",),
    ),
    "a board that is called otherwise": (
        """
railway: Shed end
boards:
  Window: {size: [1200, 600]}
supplies:
  CDU: {kind: pulse, board: Window, at: [50, 50]}
strips:
  T1: {board: Window, at: [500, 300]}
points:
  P1: {board: Windows, at: [200, 200]}
""",
        ("Windows",),
    ),
    "a supply with no fuse": (
        """
railway: Shed end
supplies:
  LAMPS: {kind: dc, volts: 12, amps: 1, protection: none}
strips:
  T1: {}
devices:
  H1: {kind: lamps, name: street lamps}
""",
        ("LAMPS", "fuse"),
    ),
    "more wires than a screw takes": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse}
strips:
  T1: {}
points:
  P1: {name: siding}
wires:
  - {from: T1.1/layout, to: T1.10, note: lamp that shows it}
  - {from: T1.1/layout, to: T1.11, note: and another}
""",
        ("3 wires", "T1.1"),
    ),
    "a second wire that closes a ring": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse}
strips:
  T1: {}
points:
  P1: {name: siding}
  P2: {name: loop}
  P3: {name: shed}
wires:
  - {from: L1.N, to: P1.N, note: to be on the safe side}
""",
        ("L1.N", "P1.N", "ring"),
    ),
    "plus and minus joined": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse}
strips:
  T1: {}
points:
  P1: {name: siding}
wires:
  - {from: T1.2, to: P1.C}
""",
        ("T1.2", "P1.C"),
    ),
    "a return as thin as a hair": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse}
strips:
  T1: {}
functions:
  return: {size: 7/0.1}
points:
  P1: {name: siding}
""",
        ("CDU", "return", "7/0.1"),
    ),
    "solid and stranded under one screw": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse}
strips:
  T1: {}
points:
  P1: {name: siding}
wires:
  - {from: T1.1/layout, to: T1.12, size: 1/0.6, function: normal}
""",
        ("1/0.6", "16/0.2", "T1.1"),
    ),
    "digital and old controller on one switch": (
        """
railway: Half converted
supplies:
  OLD: {kind: track, volts: 12, fuse: 1}
  NEW: {kind: digital, volts: 15, fuse: 3}
strips:
  T1: {}
devices:
  YARD: {kind: cab-selector-common, lever: 1, supplies: {cab1: OLD, cab2: NEW}}
""",
        ("YARD", "OLD", "NEW"),
    ),
    "two decoders with one address": (
        """
railway: Half converted
supplies:
  NEW: {kind: digital, volts: 15, fuse: 3}
strips:
  T1: {ways: 12, entry_limit: 4}
devices:
  DEC1: {kind: accessory-bus, addresses: 1-4}
  DEC2: {kind: accessory-bus, addresses: 3-6}
""",
        ("DEC2", "3", "DEC1"),
    ),
    "a switched section without its switch": (
        """
railway: Shed end
supplies:
  CAB: {kind: track, fuse: 1}
strips:
  T1: {}
devices:
  YARD: {kind: section, name: the yard}
""",
        ("lever", "YARD"),
    ),
    "a discharge unit for one point, and a route of four": (
        """
railway: Shed end
supplies:
  CDU: {kind: pulse, microfarads: 2200}
strips:
  T1: {ways: 24}
points:
  P1:
  P2:
  P3:
  P4:
routes:
  Bay: {1: normal, 2: normal, 3: reverse, 4: reverse}
""",
        ("CDU", "2200", "Bay", "4"),
    ),
}


MORE: dict[str, tuple[str, tuple[str, ...]]] = {
    "two things of one id": (
        """
railway: Loft
supplies:
  CDU: {kind: pulse}
  CAB: {kind: track, fuse: 1}
strips:
  T1: {}
points:
  P1: {}
devices:
  P1: {kind: section, lever: 2}
""",
        ("P1", "taken", "line 8"),
    ),
    "a wire that leads past the detector": (
        """
railway: Loft
supplies:
  CAB: {kind: track, protection: built-in}
strips:
  T1: {entry_limit: 3}
devices:
  DET: {kind: block-detector, supply: CAB}
  D1: {kind: dropper, supply: DET}
wires:
  - {from: T1.1, to: D1.A}
""",
        ("T1.1", "D1.A", "past DET"),
    ),
    "a lamp on the discharge unit": (
        """
railway: Loft
supplies:
  CDU: {kind: pulse}
strips:
  T1: {}
devices:
  H1: {kind: lamps, supply: CDU}
""",
        ("H1", "lamps", "dc", "CDU"),
    ),
    "a slip on two levers, and nobody knows its roads": (
        """
railway: Loft
supplies:
  CDU: {kind: pulse}
strips:
  T1: {measured: 110}
points:
  P7:
  P8:
panels:
  BOX:
    size: [240, 100]
    tracks: {main: [[2, 5], [22, 5]], shed: [[4, 9], [12, 5], [20, 1]]}
    points: {P7: [12, 5], P8: [12, 5]}
    levers: {7: [8, 9], 8: [16, 9]}
""",
        ("P7", "P8", "slip", "levers 7 and 8"),
    ),
    "a red wire among the yellow ones": (
        """
railway: Loft
supplies:
  CDU: {kind: pulse}
strips:
  T1: {measured: 110}
points:
  P1:
wires:
  - {from: L1.N, to: T1.1, colour: red}
""",
        ("wire 1", "red", "yellow", "feed"),
    ),
    "three boards and one plug": (
        """
railway: Loft
boards:
  A: {size: [1000, 500], at: [0, 0]}
  B: {size: [1000, 500], right_of: A}
  C: {size: [1000, 500], right_of: B}
supplies:
  CDU: {kind: pulse, board: A, at: [10, 10]}
strips:
  T1: {board: A, at: [500, 250], measured: 110}
  T3: {board: C, at: [500, 250], measured: 110}
plugs:
  J1: {boards: [A, B], pins: 9}
points:
  P1: {board: A, at: [100, 100]}
  P3: {board: C, at: [100, 100]}
""",
        ("A and C", "no plugs"),
    ),
    "a red lamp that takes more volts than there are": (
        """
railway: Loft
supplies:
  L: {kind: dc, volts: 3, fuse: 1}
strips:
  T1: {}
devices:
  H1: {kind: lamps, lamp_volts: 3.3, lamp_milliamps: 10}
""",
        ("3 V", "H1", "3.3 V"),
    ),
    "a comb over three ways of one point": (
        """
railway: Loft
supplies:
  CDU: {kind: pulse}
strips:
  T1: {bridges: [[1, 2, 3]]}
points:
  P1: {strip: T1, way: 1}
""",
        ("bridge", "T1.1", "CDU.feed"),
    ),
    "a strip measured in centimetres": (
        """
railway: Loft
supplies:
  CDU: {kind: pulse}
strips:
  T1: {measured: 11}
points:
  P1:
""",
        ("T1", "1 mm"),
    ),
    "a button that sets a slow motor": (
        """
railway: Loft
supplies:
  D: {kind: dc, volts: 12, fuse: 1}
  CAB: {kind: track, protection: built-in}
strips:
  T1: {}
points:
  P1: {kind: stall-motor}
routes:
  Bay: {1: normal}
""",
        ("Bay", "lever 1", "P1", "stall-motor"),
    ),
}
"""Ten more, of rules that came later and of what puzzled in the first run."""


def test_there_are_twenty() -> None:
    assert len(FAULTS) == 20
    assert len(MORE) == 10
    assert not FAULTS.keys() & MORE.keys()


@pytest.mark.parametrize("name", [*FAULTS, *MORE])
def test_the_first_line_names_the_fault(tmp_path: Path, name: str) -> None:
    text, words = {**FAULTS, **MORE}[name]
    file = tmp_path / "railway.yaml"
    file.write_text(text.lstrip(), encoding="utf-8")
    first = CliRunner().invoke(app, ["check", str(file)]).stdout.splitlines()[0]
    assert [word for word in words if word.casefold() not in first.casefold()] == [], first
