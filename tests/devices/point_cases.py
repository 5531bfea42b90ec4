"""Points and their crossings."""

from devices.kind_cases import BUS, CAB, DC, PULSE, Case

_TWIN_COIL = """
    5N L5.N > A1.1/panel
    5N A1.1/layout > P5.N
    5F L5.F > A1.2/panel
    5R L5.R > A1.3/panel
    5R A1.3/layout > P5.R
    F PULSE.feed > A1.2/layout
    C PULSE.return > P5.C
"""
_TWIN_COIL_THROWS = {
    "rest": "P5.C PULSE.return",
    "normal": "P5.N PULSE.feed; P5.C PULSE.return",
    "reverse": "P5.R PULSE.feed; P5.C PULSE.return",
}
_STALL = """
    5A L5.A > A1.1/panel
    5A A1.1/layout > P5.{0}
    5B L5.B > A1.2/panel
    5B A1.2/layout > P5.{1}
    5T A1.3/layout > P5.{2}
    5X A1.4/panel > P5.vee
    5X A1.4/layout > P5.{3}
    5U A1.5/layout > P5.{4}
    T CAB.A > A1.3/layout
    U CAB.B > A1.5/layout
    F DC.feed > L5.P
    C DC.return > L5.M
"""

POINT_CASES = [
    Case(
        kind="twin-coil",
        supplies=PULSE,
        things="points: {P5: }",
        lever="5",
        wires=_TWIN_COIL,
        throws=_TWIN_COIL_THROWS,
    ),
    Case(
        kind="twin-coil",
        name="turned round",
        supplies=PULSE,
        things="points: {P5: {swapped: yes}}",
        lever="5",
        wires=_TWIN_COIL.replace("P5.N", "P5.x").replace("P5.R", "P5.N").replace("P5.x", "P5.R"),
        throws={
            "rest": "P5.C PULSE.return",
            "normal": "P5.R PULSE.feed; P5.C PULSE.return",
            "reverse": "P5.N PULSE.feed; P5.C PULSE.return",
        },
    ),
    Case(  # the feed runs from lever to lever in the bank: two ways and the return
        kind="twin-coil",
        name="on a bank of passing levers",
        supplies="PULSE: {kind: pulse, feed_at: panel}",
        things="levers: {5: {type: passing}, 6: {type: passing}}\npoints: {P5: , P6: }",
        lever="5",
        wires="""
            5N L5.N > A1.1/panel
            5N A1.1/layout > P5.N
            5R L5.R > A1.2/panel
            5R A1.2/layout > P5.R
            6N L6.N > A1.3/panel
            6N A1.3/layout > P6.N
            6R L6.R > A1.4/panel
            6R A1.4/layout > P6.R
            F PULSE.feed > L5.F
            F L5.F > L6.F
            C PULSE.return > P5.C
            C P5.C > P6.C
        """,
        throws={
            "rest": "P5.C PULSE.return; P6.C PULSE.return",
            "normal": "P5.N PULSE.feed; P5.C PULSE.return; P6.C PULSE.return",
            "reverse": "P5.R PULSE.feed; P5.C PULSE.return; P6.C PULSE.return",
        },
    ),
    Case(
        kind="twin-coil",
        name="on two buttons",
        supplies=PULSE,
        things="levers: {5: {type: buttons}}\npoints: {P5: }",
        lever="5",
        wires=_TWIN_COIL,
        throws={
            "off": "P5.C PULSE.return",
            "N": "P5.N PULSE.feed; P5.C PULSE.return",
            "R": "P5.R PULSE.feed; P5.C PULSE.return",
        },
    ),
    Case(  # a stud for each coil, and the probe on the feed: two ways a motor
        kind="probe",
        name="and studs",
        supplies=PULSE,
        things="levers: {5: {type: stud}}\npoints: {P5: }\ndevices: {PROBE: {kind: probe}}",
        lever="5",
        wires="""
            5N L5.N > A1.1/panel
            5N A1.1/layout > P5.N
            5R L5.R > A1.2/panel
            5R A1.2/layout > P5.R
            F PULSE.feed > PROBE.tip
            C PULSE.return > P5.C
        """,
        throws={
            "off": "PROBE.tip PULSE.feed; P5.C PULSE.return",
            "N": "PROBE.tip PULSE.feed; P5.N PULSE.feed; P5.C PULSE.return",
            "R": "PROBE.tip PULSE.feed; P5.R PULSE.feed; P5.C PULSE.return",
        },
    ),
    Case(  # both ends of a crossover from one lever: the coils in parallel
        kind="twin-coil",
        name="two as a crossover",
        supplies=PULSE,
        things="points: {P5A: , P5B: }",
        lever="5",
        wires="""
            5N L5.N > A1.1/panel
            5N A1.1/layout > P5A.N
            5N A1.1/layout > P5B.N
            5F L5.F > A1.2/panel
            5R L5.R > A1.3/panel
            5R A1.3/layout > P5A.R
            5R A1.3/layout > P5B.R
            F PULSE.feed > A1.2/layout
            C PULSE.return > P5A.C
            C P5A.C > P5B.C
        """,
        throws={
            "normal": "P5A.N PULSE.feed; P5B.N PULSE.feed; P5A.C PULSE.return; P5B.C PULSE.return",
            "reverse": "P5A.R PULSE.feed; P5B.R PULSE.feed; P5A.C PULSE.return; P5B.C PULSE.return",
        },
    ),
    Case(  # three ways more than a twin-coil; never the motors' return
        kind="twin-coil-frog",
        supplies=f"{PULSE}, {CAB}",
        things="points: {P5: {kind: twin-coil-frog}}",
        lever="5",
        wires="""
            5N L5.N > A1.1/panel
            5N A1.1/layout > P5.N
            5F L5.F > A1.2/panel
            5R L5.R > A1.3/panel
            5R A1.3/layout > P5.R
            5T A1.4/layout > P5.SN
            5X A1.5/panel > P5.vee
            5X A1.5/layout > P5.SC
            5U A1.6/layout > P5.SR
            T CAB.A > A1.4/layout
            U CAB.B > A1.6/layout
            F PULSE.feed > A1.2/layout
            C PULSE.return > P5.C
        """,
        throws={
            "rest": "P5.C PULSE.return; P5.SN CAB.A; P5.SC CAB.A; P5.vee CAB.A; P5.SR CAB.B",
            "normal": "P5.N PULSE.feed; P5.C PULSE.return; P5.SN CAB.A; P5.SC CAB.A; P5.vee CAB.A; P5.SR CAB.B",
            "reverse": "P5.R PULSE.feed; P5.C PULSE.return; P5.SN CAB.A; P5.SC CAB.B; P5.vee CAB.B; P5.SR CAB.B",
        },
    ),
    Case(
        kind="twin-coil-lamps",
        supplies=f"{PULSE}, {DC}",
        things="points: {P5: {kind: twin-coil-lamps}}",
        lever="5",
        wires="""
            5N L5.N > A1.1/panel
            5N A1.1/layout > P5.N
            5F L5.F > A1.2/panel
            5R L5.R > A1.3/panel
            5R A1.3/layout > P5.R
            5La A1.4/layout > P5.SC
            5Ln L5.lamp-N > A1.5/panel
            5Ln A1.5/layout > P5.SN
            5Lr L5.lamp-R > A1.6/panel
            5Lr A1.6/layout > P5.SR
            5C L5.lamp-C > A1.7/panel
            DCL DC.feed > A1.4/layout
            DCC DC.return > A1.7/layout
            PULSEF PULSE.feed > A1.2/layout
            PULSEC PULSE.return > P5.C
        """,
        throws={
            "rest": "P5.C PULSE.return; P5.SC DC.feed; P5.SN DC.feed; L5.lamp-N DC.feed; L5.lamp-C DC.return",
            "normal": "P5.N PULSE.feed; P5.C PULSE.return; P5.SC DC.feed; P5.SN DC.feed; L5.lamp-N DC.feed; "
            "L5.lamp-C DC.return",
            "reverse": "P5.R PULSE.feed; P5.C PULSE.return; P5.SC DC.feed; P5.SR DC.feed; L5.lamp-R DC.feed; "
            "L5.lamp-C DC.return",
        },
    ),
    Case(  # left = B + D, centre = B + C, right = A + C, by six diodes
        kind="three-way",
        supplies=PULSE,
        things="points: {P7: {kind: three-way}}",
        lever="7",
        wires="""
            7F L7.F > A1.1/panel
            7Rl L7.left > A1.2/panel
            7N L7.centre > A1.3/panel
            7Rr L7.right > A1.4/panel
            7RA A1.5/layout > P7.A
            7NB A1.6/layout > P7.B
            7NC A1.7/layout > P7.C
            7RD A1.8/layout > P7.D
            F PULSE.feed > A1.1/layout
            C PULSE.return > P7.common
        """,
        diodes="A1.2 A1.6; A1.2 A1.8; A1.3 A1.6; A1.3 A1.7; A1.4 A1.5; A1.4 A1.7",
        throws={
            "off": "P7.common PULSE.return",
            "left": "P7.B >PULSE.feed; P7.D >PULSE.feed; P7.common PULSE.return",
            "centre": "P7.B >PULSE.feed; P7.C >PULSE.feed; P7.common PULSE.return",
            "right": "P7.A >PULSE.feed; P7.C >PULSE.feed; P7.common PULSE.return",
        },
    ),
    Case(  # three studs at the panel, four ways and the return at the layout
        kind="three-way",
        name="on studs",
        supplies=PULSE,
        things="levers: {7: {type: stud}}\npoints: {P7: {kind: three-way}}\ndevices: {PROBE: {kind: probe}}",
        lever="7",
        wires="""
            7Rl L7.left > A1.1/panel
            7N L7.centre > A1.2/panel
            7Rr L7.right > A1.3/panel
            7RA A1.4/layout > P7.A
            7NB A1.5/layout > P7.B
            7NC A1.6/layout > P7.C
            7RD A1.7/layout > P7.D
            F PULSE.feed > PROBE.tip
            C PULSE.return > P7.common
        """,
        diodes="A1.1 A1.5; A1.1 A1.7; A1.2 A1.5; A1.2 A1.6; A1.3 A1.4; A1.3 A1.6",
        throws={
            "off": "PROBE.tip PULSE.feed; P7.common PULSE.return",
            "left": "PROBE.tip PULSE.feed; P7.B >PULSE.feed; P7.D >PULSE.feed; P7.common PULSE.return",
            "centre": "PROBE.tip PULSE.feed; P7.B >PULSE.feed; P7.C >PULSE.feed; P7.common PULSE.return",
            "right": "PROBE.tip PULSE.feed; P7.A >PULSE.feed; P7.C >PULSE.feed; P7.common PULSE.return",
        },
    ),
    Case(
        kind="stall-motor",
        supplies=f"{DC}, {CAB}",
        things="points: {P5: {kind: stall-motor}}",
        lever="5",
        wires=_STALL.format("1", "8", "2", "4", "3"),
        throws={
            "off": "P5.2 CAB.A; P5.4 CAB.A; P5.vee CAB.A; P5.3 CAB.B",
            "normal": "P5.1 DC.feed; P5.8 DC.return; P5.2 CAB.A; P5.4 CAB.A; P5.vee CAB.A; P5.3 CAB.B",
            "reverse": "P5.1 DC.return; P5.8 DC.feed; P5.2 CAB.A; P5.4 CAB.B; P5.vee CAB.B; P5.3 CAB.B",
        },
    ),
    Case(  # rails are rails, also on a digital railway
        kind="stall-motor",
        name="on a digital railway",
        supplies=f"{DC}, {BUS}",
        things="points: {P5: {kind: stall-motor, swapped: yes}}",
        lever="5",
        wires="""
            5A L5.A > A1.1/panel
            5A A1.1/layout > P5.8
            5B L5.B > A1.2/panel
            5B A1.2/layout > P5.1
            5T A1.3/layout > P5.2
            5X A1.4/panel > P5.vee
            5X A1.4/layout > P5.4
            5U A1.5/layout > P5.3
            T BUS.A > A1.3/layout
            U BUS.B > A1.5/layout
            F DC.feed > L5.P
            C DC.return > L5.M
        """,
        throws={
            "normal": "P5.8 DC.feed; P5.1 DC.return; P5.2 BUS.A; P5.4 BUS.A; P5.vee BUS.A; P5.3 BUS.B",
            "reverse": "P5.8 DC.return; P5.1 DC.feed; P5.2 BUS.A; P5.4 BUS.B; P5.vee BUS.B; P5.3 BUS.B",
        },
    ),
    Case(  # both auxiliary changeovers: arms 4 and 5, throws 2/3 and 6/7
        kind="stall-motor-lamps",
        supplies=f"{CAB}, DRIVE: {{kind: dc}}, LIGHT: {{kind: dc}}",
        things="points: {P5: {kind: stall-motor-lamps, supplies: {drive: DRIVE, lamps: LIGHT}}}",
        lever="5",
        wires="""
            5A L5.A > A1.1/panel
            5A A1.1/layout > P5.1
            5B L5.B > A1.2/panel
            5B A1.2/layout > P5.8
            5T A1.3/layout > P5.2
            5X A1.4/panel > P5.vee
            5X A1.4/layout > P5.4
            5U A1.5/layout > P5.3
            5La A1.6/layout > P5.5
            5Ln L5.lamp-N > A1.7/panel
            5Ln A1.7/layout > P5.6
            5Lr L5.lamp-R > A1.8/panel
            5Lr A1.8/layout > P5.7
            5C L5.lamp-C > A1.9/panel
            T CAB.A > A1.3/layout
            U CAB.B > A1.5/layout
            DRIVEF DRIVE.feed > L5.P
            DRIVEC DRIVE.return > L5.M
            LIGHTL LIGHT.feed > A1.6/layout
            LIGHTC LIGHT.return > A1.9/layout
        """,
        throws={
            "normal": "P5.1 DRIVE.feed; P5.8 DRIVE.return; P5.2 CAB.A; P5.4 CAB.A; P5.vee CAB.A; P5.3 CAB.B; "
            "P5.5 LIGHT.feed; P5.6 LIGHT.feed; L5.lamp-N LIGHT.feed; L5.lamp-C LIGHT.return",
            "reverse": "P5.1 DRIVE.return; P5.8 DRIVE.feed; P5.2 CAB.A; P5.4 CAB.B; P5.vee CAB.B; P5.3 CAB.B; "
            "P5.5 LIGHT.feed; P5.7 LIGHT.feed; L5.lamp-R LIGHT.feed; L5.lamp-C LIGHT.return",
        },
    ),
    Case(  # two opposed diodes and a single-pole changeover: one half of the wave, or the other
        kind="stall-motor-one-wire",
        supplies="AC: {kind: ac}",
        things="points: {P5: {kind: stall-motor-one-wire}}",
        lever="5",
        wires="""
            5F L5.F > A1.1/panel
            5N L5.N > A1.2/panel
            5A A1.3/layout > P5.1
            5R L5.R > A1.4/panel
            F AC.feed > A1.1/layout
            C AC.return > P5.8
        """,
        diodes="A1.2 A1.3; A1.3 A1.4",
        throws={
            "off": "P5.8 AC.return",
            "normal": "P5.1 >AC.feed; P5.8 AC.return",
            "reverse": "P5.1 <AC.feed; P5.8 AC.return",
        },
    ),
    Case(
        kind="limit-switch-motor",
        supplies=f"{DC}, {CAB}",
        things="points: {P5: {kind: limit-switch-motor}}",
        lever="5",
        wires=_STALL.format("M1", "M2", "1N", "1C", "1R"),
        throws={
            "normal": "P5.M1 DC.feed; P5.M2 DC.return; P5.1N CAB.A; P5.1C CAB.A; P5.vee CAB.A; P5.1R CAB.B",
            "reverse": "P5.M1 DC.return; P5.M2 DC.feed; P5.1N CAB.A; P5.1C CAB.B; P5.vee CAB.B; P5.1R CAB.B",
        },
    ),
    Case(  # the servo's own three ways, and one to the driver board's input
        kind="servo",
        supplies="FIVE: {kind: dc}",
        signals=("P5.out",),
        things="points: {P5: {kind: servo}}\ndevices: {BOARD: {kind: driver-board}}",
        lever="5",
        wires="""
            5A L5.1 > A1.1/panel
            5A A1.1/layout > P5.in
            5D A1.2/panel > P5.out
            5D A1.2/layout > P5.S
            5F A1.3/layout > P5.5V
            5C A1.4/layout > P5.0V
            F FIVE.feed > A1.3/layout
            C FIVE.return > L5.2
            C L5.2 > A1.4/layout
            F FIVE.feed > BOARD.plus
            C FIVE.return > BOARD.minus
        """,
        throws={
            "off": "P5.5V FIVE.feed; P5.0V FIVE.return; P5.S P5.out; BOARD.plus FIVE.feed; BOARD.minus FIVE.return",
            "on": "P5.in FIVE.return; P5.5V FIVE.feed; P5.0V FIVE.return; P5.S P5.out; "
            "BOARD.plus FIVE.feed; BOARD.minus FIVE.return",
        },
    ),
    Case(
        kind="driver-board",
        supplies=DC,
        things="devices: {D1: {kind: driver-board}, D2: {kind: driver-board}}",
        wires="""
            F DC.feed > D1.plus
            F D1.plus > D2.plus
            C DC.return > D1.minus
            C D1.minus > D2.minus
        """,
        throws={"normal": "D1.plus DC.feed; D2.plus DC.feed; D1.minus DC.return; D2.minus DC.return"},
    ),
    Case(
        kind="memory-wire",
        supplies=DC,
        things="points: {P5: {kind: memory-wire}}",
        lever="5",
        wires=_TWIN_COIL.replace("PULSE", "DC"),
        throws={throw: text.replace("PULSE", "DC") for throw, text in _TWIN_COIL_THROWS.items()},
    ),
    Case(
        kind="crossing-changer",
        supplies=CAB,
        things="devices: {D1: {kind: crossing-changer}}",
        wires="""
            D1T A1.1/layout > D1.A
            D1X A1.2/panel > D1.vee
            D1X A1.2/layout > D1.arm
            D1U A1.3/layout > D1.B
            T CAB.A > A1.1/layout
            U CAB.B > A1.3/layout
        """,
        throws={
            "normal": "D1.A CAB.A; D1.arm CAB.A; D1.vee CAB.A; D1.B CAB.B",
            "reverse": "D1.A CAB.A; D1.arm CAB.B; D1.vee CAB.B; D1.B CAB.B",
        },
    ),
    Case(
        kind="crossing-detector",
        supplies=BUS,
        things="devices: {D1: {kind: crossing-detector}}",
        wires="""
            D1T A1.1/layout > D1.A
            D1X A1.2/panel > D1.vee
            D1X A1.2/layout > D1.out
            D1U A1.3/layout > D1.B
            T BUS.A > A1.1/layout
            U BUS.B > A1.3/layout
        """,
        throws={"normal": "D1.A BUS.A; D1.B BUS.B; D1.vee D1.out"},
        signals=("D1.out",),  # what its output is joined to, it decides by itself
    ),
    Case(  # the coil, and one changeover of three
        kind="relay",
        supplies=f"{DC}, {CAB}",
        things="devices: {D1: {kind: relay, lever: 9}}",
        lever="9",
        wires="""
            9A L9.2 > A1.1/panel
            9A A1.1/layout > D1.A1
            9T A1.2/layout > D1.12
            9X A1.3/panel > D1.vee
            9X A1.3/layout > D1.11
            9U A1.4/layout > D1.14
            T CAB.A > A1.2/layout
            U CAB.B > A1.4/layout
            F DC.feed > L9.1
            C DC.return > D1.A2
        """,
        throws={
            "off": "D1.A2 DC.return; D1.12 CAB.A; D1.11 CAB.A; D1.vee CAB.A; D1.14 CAB.B",
            "on": "D1.A1 DC.feed; D1.A2 DC.return; D1.12 CAB.A; D1.11 CAB.B; D1.vee CAB.B; D1.14 CAB.B",
        },
    ),
]
