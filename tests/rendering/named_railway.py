"""A railway of two boards on which everything that may have a name is called the same."""

import json
from pathlib import Path

TEXT = """
railway: NAME
about: NAME
boards: {B1: {name: NAME, size: [1200, 600], at: [0, 0], holes: {H1: {at: [600, 570], diameter: 8}}},
         B2: {name: NAME, size: [1200, 600], right_of: B1}}
supplies: {PULSE: {kind: pulse, name: NAME, board: B1, at: [60, 60], volts: 24, microfarads: 4700},
           LIGHT: {kind: dc, name: NAME, board: B1, at: [90, 60], volts: 12}}
devices: {LAMPS: {kind: lamps, name: NAME, board: B1, at: [400, 200], milliamps: 500}}
panels: {BOX: {name: NAME, board: B1, at: [600, 600], size: [300, 60], levers: {row: 3}}}
strips: {S1: {name: NAME, board: B1, at: [300, 300], measured: 110},
         S2: {name: NAME, board: B2, at: [300, 300], measured: 110}}
levers: {1: {name: NAME}, 5: {name: NAME}}
points:
  P1: {name: NAME, board: B1, at: [200, 200], not_in_use: NAME}
  P5A: {name: NAME, board: B1, at: [220, 200]}
  P5B: {name: NAME, board: B2, at: [100, 200]}
routes: {NAME: {1: normal, 5: reverse}}
plugs: {J1: {name: NAME, boards: [B1, B2], pins: 12, at: {B1: [1190, 300], B2: [10, 300]}}}
wires: [{from: S1.11, to: S2.11, function: lamp, note: NAME}]
"""


def named(name: str, folder: Path) -> Path:
    """The description, written; JSON texts are YAML texts as well."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "named.yaml"
    path.write_text(TEXT.replace("NAME", json.dumps(name)), encoding="utf-8")
    return path
