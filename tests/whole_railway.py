"""A railway that has one of everything: every kind of device, every form of flag, plugs, holes, routes, two panels."""

WHOLE = """railway: Marram Quay
schedule: https://marram-quay.example/wiring
printing: {tags: both}
functions:
  feed: {flags: sleeve}
  return: {flags: wrap}
boards:
  B1: {size: [1600, 700], at: [0, 0], holes: {H1: {at: [700, 640], diameter: 20}, H2: {at: [420, 520], diameter: 14}}}
  B2: {size: [1600, 700], right_of: B1}
plugs:
  J1: {boards: [B1, B2], pins: 50, at: {B1: [1590, 300], B2: [10, 300]}, keep_empty: [13]}
supplies:
  PULSE: {kind: pulse, board: B1, at: [100, 100], volts: 22, microfarads: 4700, charge_ohms: 100}
  CAB1: {kind: track, board: B1, at: [100, 260], volts: 12, amps: 1, protection: built-in}
  CAB2: {kind: track, board: B1, at: [100, 290], volts: 12, amps: 1, fuse: 1}
  CAB3: {kind: track, board: B1, at: [100, 320]}
  CAB4: {kind: track, board: B1, at: [100, 350]}
  DC: {kind: dc, board: B1, at: [100, 400], volts: 12, amps: 2, fuse: 2}
  LIGHT: {kind: dc, board: B2, at: [1500, 400], volts: 12, feed_at: panel}
  AC: {kind: ac, board: B1, at: [100, 450], volts: 12}
  BUS: {kind: digital, board: B2, at: [1500, 100], volts: 15, amps: 3}
  ACC: {kind: digital, board: B2, at: [1500, 130], volts: 15}
strips:
  S1: {board: B1, at: [400, 300], ways: 48, measured: 517, keep: [47, 48], bridges: [[45, 46]], taken: {44: doorbell}}
  S2: {board: B1, at: [1100, 300], ways: 48}
  S3: {board: B2, at: [400, 300], ways: 48, measured: 400, tiers: 2, fixing: 100}
  S4: {board: B2, at: [1100, 300], ways: 48, measured: 517}
levers:
  1: {role: points-and-lock, name: Harbour}
  9: {role: detonators, spare: yes}
  30: {type: buttons}
  31: {type: stud}
  32: {type: passing}
points:
  P1: {board: B1, at: [300, 100], supply: PULSE, swapped: yes}
  P2: {board: B2, at: [300, 100], kind: stall-motor, supplies: {drive: LIGHT, rails: BUS}}
  P3: {board: B2, at: [500, 100], kind: twin-coil-frog, supplies: {coils: PULSE, rails: CAB1}}
  P4: {board: B1, at: [500, 100], kind: twin-coil-lamps, supplies: {coils: PULSE, lamps: DC}}
  P5: {board: B1, at: [600, 100], kind: three-way, supply: PULSE}
  P6: {board: B2, at: [600, 100], kind: stall-motor-lamps, supplies: {drive: LIGHT, lamps: LIGHT, rails: BUS}}
  P7: {board: B1, at: [700, 100], kind: stall-motor-one-wire, supply: AC}
  P8: {board: B1, at: [800, 100], kind: limit-switch-motor, supplies: {drive: DC, rails: CAB2}, not_in_use: burnt}
  P10: {board: B2, at: [700, 100], kind: servo, supply: LIGHT}
  P12: {board: B1, at: [900, 100], kind: memory-wire, supply: DC}
  P30: {board: B1, at: [950, 100], supply: PULSE}
  P31: {board: B1, at: [960, 100], supply: PULSE}
  P32: {board: B1, at: [970, 100], supply: PULSE}
devices:
  BRD: {kind: driver-board, board: B2, at: [720, 200], supply: LIGHT}
  PROBE: {kind: probe, panel: QUAY, supply: PULSE}
  X1: {kind: crossing-changer, board: B1, at: [910, 120], supply: CAB1}
  X2: {kind: crossing-detector, board: B2, at: [920, 120], supply: BUS}
  RELAY: {kind: relay, lever: 33, board: B1, at: [930, 120], supplies: {coil: DC, rails: CAB1}}
  SIG2: {kind: signal-2-aspect, lever: 14, board: B2, at: [400, 60], supply: LIGHT}
  SIG3: {kind: signal-3-aspect, lever: 15, board: B2, at: [450, 60], supply: LIGHT}
  SIG4: {kind: signal-4-aspect, lever: 16, board: B2, at: [480, 60], supply: LIGHT}
  ARM: {kind: semaphore, lever: 17, board: B2, at: [520, 60], supplies: {drive: LIGHT, lamp: LIGHT}}
  PL1: {kind: panel-lamps, lever: 1L, panel: QUAY, supply: DC}
  MAG: {kind: uncoupler, lever: 18, board: B1, at: [1000, 200], supply: DC}
  LAMPS: {kind: lamps, board: B2, at: [800, 500], supply: LIGHT}
  GLOW: {kind: lighting-bus, board: B2, at: [900, 500], supply: LIGHT}
  FEED: {kind: track-feed, board: B1, at: [1200, 200], supply: CAB1}
  RAIL: {kind: rail-feed, board: B1, at: [1250, 200], supply: CAB1}
  DROP: {kind: dropper, board: B2, at: [1250, 200], supply: BUS}
  YARD: {kind: section, lever: 11, board: B1, at: [560, 280], supply: CAB1}
  CABS: {kind: cab-selector, lever: 19, board: B1, at: [580, 280], supplies: {cab1: CAB1, cab2: CAB2}}
  DIAL: {kind: cab-selector-rotary, lever: 21, board: B1, at: [620, 280],
         supplies: {cab1: CAB1, cab2: CAB2, cab3: CAB3, cab4: CAB4}}
  DIST: {kind: digital-bus, board: B2, at: [1000, 200], supply: BUS}
  TRIP: {kind: breaker, board: B2, at: [1020, 200], supply: BUS}
  ACCS: {kind: accessory-bus, board: B2, at: [1040, 200], supply: ACC}
  AUTO: {kind: auto-reverser, board: B1, at: [1300, 200], supply: CAB1}
  SPOT: {kind: block-detector, board: B1, at: [1320, 200], supply: CAB1}
  LOOP: {kind: reversing-loop, lever: 22, board: B1, at: [1340, 200], supply: CAB2}
  TABLE: {kind: turntable, lever: 23, board: B1, at: [1360, 200], supplies: {drive: DC, rails: CAB1}}
panels:
  QUAY:
    board: B1
    at: [600, 700]
    size: [400, 160]
    tracks: {main: [[2, 6], [38, 6]], loop: [P1, [14, 9], [20, 9]]}
    points: {P1: [10, 6]}
    sections: {YARD: [20, 6]}
    levers: {row: 12}
    routes: {Fish dock: [36, 9]}
    matrix: [35, 12]
  TOWN: {board: B2, at: [600, 700], size: [300, 120], levers: {row: 8}}
routes: {Fish dock: {1: reverse, 4: normal}}
"""
