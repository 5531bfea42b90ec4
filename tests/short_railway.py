"""A description that no other test uses: one board, three points, a section and lamps."""

TEXT = """\
railway: Gull Sands
boards:
  B1: {size: [900, 500], holes: {H1: {at: [450, 470]}}}
supplies:
  PULSE: {kind: pulse, at: [60, 60]}
  CAB: {kind: track, at: [60, 200]}
  LIGHT: {kind: dc, at: [60, 320]}
strips:
  T1: {at: [300, 250], pitch: 8}
  T2: {at: [600, 250], measured: 110, way_1: right}
panels:
  BOX:
    at: [450, 500]
    size: [200, 120]
    tracks:
      main: [[1, 6], [19, 6]]
      loop: [P1, [7, 4], [13, 4], P2]
      spur: [P08, [11, 3], [4, 3]]
    points: {P1: [5, 6], P2: [15, 6], P08: [12, 4]}
    sections: {LOOP: [10, 4]}
    levers: {4: [10, 9]}
points:
  P1: {name: West loop, at: [200, 200]}
  P2: {name: East loop, at: [500, 200]}
  P08: {name: Spur, at: [420, 150]}
devices:
  LOOP: {kind: section, lever: 4, at: [350, 200]}
  LAMPS: {kind: lamps, at: [700, 300]}
"""
