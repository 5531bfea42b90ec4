"""Track: feeds, sections, controllers, the digital bus, loops and the turntable."""

from devices.kind_cases import BUS, CAB, DC, Case

TWO_CABS = "CAB1: {kind: track}, CAB2: {kind: track}"
_FEED = """
    D1T A1.1/layout > D1.A
    D1U A1.2/layout > D1.B
    T CAB.A > A1.1/layout
    U CAB.B > A1.2/layout
"""

TRACK_CASES = [
    Case(
        kind="track-feed",
        supplies=CAB,
        things="devices: {D1: {kind: track-feed}}",
        wires=_FEED,
        throws={"normal": "D1.A CAB.A; D1.B CAB.B"},
    ),
    Case(
        kind="rail-feed",
        supplies=CAB,
        things="devices: {D1: {kind: rail-feed}, D2: {kind: rail-feed}}",
        wires="""
            D1T A1.1/layout > D1.A
            D2T A1.2/layout > D2.A
            T CAB.A > A1.1/layout
            T A1.1/layout > A1.2/layout link
            U CAB.B > D1.B
            U D1.B > D2.B
        """,
        throws={"normal": "D1.A CAB.A; D1.B CAB.B; D2.A CAB.A; D2.B CAB.B"},
    ),
    Case(
        kind="dropper",
        supplies=BUS,
        things="devices: {D1: {kind: dropper}, D2: {kind: dropper}, D10: {kind: dropper}}",
        wires="""
            T BUS.A > D1.A
            T D1.A > D2.A
            T D2.A > D10.A
            U BUS.B > D1.B
            U D1.B > D2.B
            U D2.B > D10.B
        """,
        throws={"normal": "D1.A BUS.A; D1.B BUS.B; D2.A BUS.A; D2.B BUS.B; D10.A BUS.A; D10.B BUS.B"},
    ),
    Case(
        kind="section",
        supplies=CAB,
        things="devices: {D1: {kind: section, lever: 11}}",
        lever="11",
        wires="""
            11T L11.1 > A1.1/panel
            11Ts L11.2 > A1.2/panel
            11Ts A1.2/layout > D1.A
            T CAB.A > A1.1/layout
            U CAB.B > D1.B
        """,
        throws={"off": "D1.B CAB.B", "on": "D1.A CAB.A; D1.B CAB.B"},
    ),
    Case(  # one way and the common return, with the feed behind the panel
        kind="section",
        name="with its feed behind the panel",
        supplies="CAB: {kind: track, feed_at: panel}",
        things="devices: {D1: {kind: section, lever: 11}, D2: {kind: section, lever: 12}}",
        lever="11",
        wires="""
            11Ts L11.2 > A1.1/panel
            11Ts A1.1/layout > D1.A
            12Ts L12.2 > A1.2/panel
            12Ts A1.2/layout > D2.A
            T CAB.A > L11.1
            T L11.1 > L12.1
            U CAB.B > D1.B
            U D1.B > D2.B
        """,
        throws={"off": "D1.B CAB.B; D2.B CAB.B", "on": "D1.A CAB.A; D1.B CAB.B; D2.B CAB.B"},
    ),
    Case(  # two poles and centre-off: nothing is shared
        kind="cab-selector",
        supplies=TWO_CABS,
        things="devices: {D1: {kind: cab-selector, lever: 9, supplies: {cab1: CAB1, cab2: CAB2}}}",
        lever="9",
        wires="""
            9T1 L9.N1 > A1.1/panel
            9Ts L9.F1 > A1.2/panel
            9Ts A1.2/layout > D1.A
            9T2 L9.R1 > A1.3/panel
            9U1 L9.N2 > A1.4/panel
            9Us L9.F2 > A1.5/panel
            9Us A1.5/layout > D1.B
            9U2 L9.R2 > A1.6/panel
            CAB1T CAB1.A > A1.1/layout
            CAB1U CAB1.B > A1.4/layout
            CAB2T CAB2.A > A1.3/layout
            CAB2U CAB2.B > A1.6/layout
        """,
        throws={"off": "", "normal": "D1.A CAB1.A; D1.B CAB1.B", "reverse": "D1.A CAB2.A; D1.B CAB2.B"},
    ),
    Case(  # one pole, on a return that both share: declared by a wire of the builder's own
        kind="cab-selector-common",
        supplies=TWO_CABS,
        things="devices: {D1: {kind: cab-selector-common, lever: 9, supplies: {cab1: CAB1, cab2: CAB2}}}\n"
        "wires: [{from: CAB1.B, to: CAB2.B, function: track-return}]",
        lever="9",
        wires="""
            9T1 L9.N > A1.1/panel
            9Ts L9.F > A1.2/panel
            9Ts A1.2/layout > D1.A
            9T2 L9.R > A1.3/panel
            CAB1T CAB1.A > A1.1/layout
            CAB1U CAB1.B > D1.B
            CAB2T CAB2.A > A1.3/layout
            U CAB1.B > CAB2.B
        """,
        throws={
            "off": "D1.B CAB1.B CAB2.B",
            "normal": "D1.A CAB1.A; D1.B CAB1.B CAB2.B",
            "reverse": "D1.A CAB2.A; D1.B CAB1.B CAB2.B",
        },
        meet=("CAB1.B CAB2.B",),
    ),
    Case(
        kind="cab-selector-rotary",
        supplies=f"{TWO_CABS}, CAB3: {{kind: track}}, CAB4: {{kind: track}}",
        things="devices: {D1: {kind: cab-selector-rotary, lever: 9,"
        " supplies: {cab1: CAB1, cab2: CAB2, cab3: CAB3, cab4: CAB4}}}",
        lever="9",
        wires="""
            9Ts L9.F1 > A1.1/panel
            9Ts A1.1/layout > D1.A
            9T1 L9.1A > A1.2/panel
            9T2 L9.2A > A1.3/panel
            9T3 L9.3A > A1.4/panel
            9T4 L9.4A > A1.5/panel
            9Us L9.F2 > A1.6/panel
            9Us A1.6/layout > D1.B
            9U1 L9.1B > A1.7/panel
            9U2 L9.2B > A1.8/panel
            9U3 L9.3B > A1.9/panel
            9U4 L9.4B > A1.10/panel
            CAB1T CAB1.A > A1.2/layout
            CAB1U CAB1.B > A1.7/layout
            CAB2T CAB2.A > A1.3/layout
            CAB2U CAB2.B > A1.8/layout
            CAB3T CAB3.A > A1.4/layout
            CAB3U CAB3.B > A1.9/layout
            CAB4T CAB4.A > A1.5/layout
            CAB4U CAB4.B > A1.10/layout
        """,
        throws={
            "off": "",
            "cab 1": "D1.A CAB1.A; D1.B CAB1.B",
            "cab 2": "D1.A CAB2.A; D1.B CAB2.B",
            "cab 3": "D1.A CAB3.A; D1.B CAB3.B",
            "cab 4": "D1.A CAB4.A; D1.B CAB4.B",
        },
    ),
    Case(
        kind="digital-bus",
        name="with droppers",
        supplies=BUS,
        things="devices: {D1: {kind: digital-bus}, D2: {kind: dropper, supply: D1}}",
        wires="""
            D1T A1.1/layout > D1.A
            D1U A1.2/layout > D1.B
            BUST BUS.A > A1.1/layout
            BUSU BUS.B > A1.2/layout
            D1T D1.A > D2.A
            D1U D1.B > D2.B
        """,
        throws={"normal": "D1.A BUS.A; D1.B BUS.B; D2.A BUS.A; D2.B BUS.B"},
    ),
    Case(  # a sub-bus for each district, through its breaker
        kind="breaker",
        name="for a district",
        supplies=BUS,
        things="devices: {D1: {kind: breaker, supply: BUS}, D2: {kind: digital-bus, supply: D1}}",
        wires="""
            D2T A1.1/layout > D2.A
            D2U A1.2/layout > D2.B
            BUST BUS.A > D1.inA
            BUSU BUS.B > D1.inB
            D1T D1.A > A1.1/layout
            D1U D1.B > A1.2/layout
        """,
        throws={"normal": "D1.inA BUS.A; D1.inB BUS.B; D1.A BUS.A; D1.B BUS.B; D2.A BUS.A; D2.B BUS.B"},
    ),
    Case(
        kind="accessory-bus",
        supplies="ACC: {kind: digital}, BUS: {kind: digital}",
        things="devices: {D1: {kind: accessory-bus, supply: ACC}}",
        wires="""
            D1F A1.1/layout > D1.A
            D1C A1.2/layout > D1.B
            ACCF ACC.A > A1.1/layout
            ACCC ACC.B > A1.2/layout
        """,
        throws={"normal": "D1.A ACC.A; D1.B ACC.B"},
    ),
    Case(  # in one rail; droppers behind it
        kind="block-detector",
        name="with a dropper behind it",
        supplies=BUS,
        things="devices: {D1: {kind: block-detector, supply: BUS}, D2: {kind: dropper, supply: D1}}",
        wires="""
            D1Ti A1.1/layout > D1.in
            D1Ts A1.2/panel > D1.A
            D1Ts A1.2/layout > D1.out
            BUST BUS.A > A1.1/layout
            BUSU BUS.B > D1.B
            D1T D1.out > D2.A
            D1U D1.B > D2.B
        """,
        throws={
            "normal": "D1.in BUS.A; D1.out BUS.A; D1.A BUS.A; D1.B BUS.B; D2.A BUS.A; D2.B BUS.B",
            "open": "D1.in BUS.A; D1.B BUS.B; D2.B BUS.B",  # nothing passes the detector by
        },
    ),
    Case(
        kind="reversing-loop",
        supplies=CAB,
        things="devices: {D1: {kind: reversing-loop, lever: 9}}",
        lever="9",
        wires="""
            9T L9.A > A1.1/panel
            9T A1.1/layout > D1.A
            9U L9.B > A1.2/panel
            9U A1.2/layout > D1.B
            T CAB.A > L9.P
            U CAB.B > L9.M
        """,
        throws={"off": "", "normal": "D1.A CAB.A; D1.B CAB.B", "reverse": "D1.A CAB.B; D1.B CAB.A"},
    ),
    Case(
        kind="auto-reverser",
        name="before a loop",
        supplies=BUS,
        things="devices: {D1: {kind: auto-reverser, supply: BUS}, D2: {kind: track-feed, supply: D1}}",
        wires="""
            D2T A1.1/layout > D2.A
            D2U A1.2/layout > D2.B
            BUST BUS.A > D1.inA
            BUSU BUS.B > D1.inB
            D1T D1.outA > A1.1/layout
            D1U D1.outB > A1.2/layout
        """,
        throws={
            "normal": "D1.inA BUS.A; D1.inB BUS.B; D1.outA BUS.A; D1.outB BUS.B; D2.A BUS.A; D2.B BUS.B",
            "reverse": "D1.inA BUS.A; D1.inB BUS.B; D1.outA BUS.B; D1.outB BUS.A; D2.A BUS.B; D2.B BUS.A",
        },
    ),
    Case(  # its bridge on a reverser; each road by itself on the same strip
        kind="turntable",
        name="with a reverser and two roads",
        supplies=f"{DC}, {CAB}",
        things="devices: {REV: {kind: auto-reverser, supply: CAB}, D1: {kind: turntable, lever: 9,"
        " supplies: {rails: REV}}, R1: {kind: rail-feed, supply: CAB}, R2: {kind: rail-feed, supply: CAB}}",
        lever="9",
        wires="""
            9A L9.A > A1.1/panel
            9A A1.1/layout > D1.M1
            9B L9.B > A1.2/panel
            9B A1.2/layout > D1.M2
            9T A1.3/layout > D1.A
            9U A1.4/layout > D1.B
            R1T A1.5/layout > R1.A
            R2T A1.6/layout > R2.A
            CABT CAB.A > A1.5/layout
            CABT A1.5/layout > A1.6/layout link
            CABT CAB.A > REV.inA
            CABU CAB.B > R1.B
            CABU R1.B > R2.B
            CABU R2.B > REV.inB
            F DC.feed > L9.P
            C DC.return > L9.M
            REVT REV.outA > A1.3/layout
            REVU REV.outB > A1.4/layout
        """,
        throws={
            "off": "D1.A CAB.A; D1.B CAB.B; R1.A CAB.A; R1.B CAB.B; R2.A CAB.A; R2.B CAB.B;"
            "REV.inA CAB.A; REV.inB CAB.B; REV.outA CAB.A; REV.outB CAB.B",
            "normal": "D1.M1 DC.feed; D1.M2 DC.return; D1.A CAB.A; D1.B CAB.B; R1.A CAB.A; R1.B CAB.B; R2.A CAB.A;"
            "R2.B CAB.B; REV.inA CAB.A; REV.inB CAB.B; REV.outA CAB.A; REV.outB CAB.B",
            "reverse": "D1.M1 DC.return; D1.M2 DC.feed; D1.A CAB.A; D1.B CAB.B; R1.A CAB.A; R1.B CAB.B; R2.A CAB.A;"
            "R2.B CAB.B; REV.inA CAB.A; REV.inB CAB.B; REV.outA CAB.A; REV.outB CAB.B",
        },
    ),
]
