"""Signals, lamps and magnets."""

from devices.kind_cases import DC, Case

SIGNAL_CASES = [
    Case(  # normal is danger
        kind="signal-2-aspect",
        supplies=DC,
        things="devices: {S7: {kind: signal-2-aspect, lever: 7}}",
        lever="7",
        wires="""
            7Lr L7.N > A1.1/panel
            7Lr A1.1/layout > S7.R
            7F L7.F > A1.2/panel
            7Lg L7.R > A1.3/panel
            7Lg A1.3/layout > S7.G
            F DC.feed > A1.2/layout
            C DC.return > S7.C
        """,
        throws={"normal": "S7.R DC.feed; S7.C DC.return", "reverse": "S7.G DC.feed; S7.C DC.return"},
    ),
    Case(  # aspects + 1 ways, the return shared from head to head
        kind="signal-3-aspect",
        supplies=DC,
        things="devices: {S7: {kind: signal-3-aspect, lever: 7}, S8: {kind: signal-3-aspect, lever: 8}}",
        lever="7",
        wires="""
            7F L7.F > A1.1/panel
            7Lr L7.red > A1.2/panel
            7Lr A1.2/layout > S7.R
            7Ly L7.yellow > A1.3/panel
            7Ly A1.3/layout > S7.Y
            7Lg L7.green > A1.4/panel
            7Lg A1.4/layout > S7.G
            8F L8.F > A1.5/panel
            8Lr L8.red > A1.6/panel
            8Lr A1.6/layout > S8.R
            8Ly L8.yellow > A1.7/panel
            8Ly A1.7/layout > S8.Y
            8Lg L8.green > A1.8/panel
            8Lg A1.8/layout > S8.G
            F DC.feed > A1.1/layout
            F A1.1/layout > A1.5/layout link
            C DC.return > S7.C
            C S7.C > S8.C
        """,
        throws={
            "red": "S7.R DC.feed; S7.C DC.return; S8.C DC.return",
            "yellow": "S7.Y DC.feed; S7.C DC.return; S8.C DC.return",
            "green": "S7.G DC.feed; S7.C DC.return; S8.C DC.return",
        },
    ),
    Case(  # two yellows by one diode; one yellow lights one
        kind="signal-4-aspect",
        supplies=DC,
        things="devices: {S7: {kind: signal-4-aspect, lever: 7}}",
        lever="7",
        wires="""
            7F L7.F > A1.1/panel
            7Lr L7.red > A1.2/panel
            7Lr A1.2/layout > S7.R
            7Ly L7.yellow > A1.3/panel
            7Ly A1.3/layout > S7.Y
            7Ld L7.double > A1.4/panel
            7Ld A1.4/layout > S7.Y2
            7Lg L7.green > A1.5/panel
            7Lg A1.5/layout > S7.G
            F DC.feed > A1.1/layout
            C DC.return > S7.C
        """,
        diodes="A1.4 A1.3",
        throws={
            "red": "S7.R DC.feed; S7.C DC.return",
            # The second yellow sees plus only against its diode, which lets nothing through that way.
            "yellow": "S7.Y DC.feed; S7.Y2 <DC.feed; S7.C DC.return",
            "double": "S7.Y >DC.feed; S7.Y2 DC.feed; S7.C DC.return",
            "green": "S7.G DC.feed; S7.C DC.return",
        },
    ),
    Case(  # the motor's two, and the lamp's; the lamp always burns
        kind="semaphore",
        supplies=DC,
        things="devices: {S7: {kind: semaphore, lever: 7}}",
        lever="7",
        wires="""
            7A L7.A > A1.1/panel
            7A A1.1/layout > S7.M1
            7B L7.B > A1.2/panel
            7B A1.2/layout > S7.M2
            7L A1.3/layout > S7.L
            F DC.feed > L7.P
            F L7.P > A1.3/layout
            C DC.return > L7.M
            C DC.return > S7.C
        """,
        throws={
            "off": "S7.L DC.feed; S7.C DC.return",
            "normal": "S7.M1 DC.feed; S7.M2 DC.return; S7.L DC.feed; S7.C DC.return",
            "reverse": "S7.M1 DC.return; S7.M2 DC.feed; S7.L DC.feed; S7.C DC.return",
        },
    ),
    Case(  # a combination: the servo moves the arm, the lamps are by themselves
        kind="servo",
        name="of a semaphore, with its lamp",
        supplies="FIVE: {kind: dc}, LIGHT: {kind: dc}",
        signals=("S7.out",),
        things="devices: {S7: {kind: servo, lever: 7, above: yes, supply: FIVE}, S7L: {kind: lamps, supply: LIGHT}}",
        lever="7",
        wires="""
            7A L7.1 > A1.1/panel
            7A A1.1/layout > S7.in
            7D A1.2/panel > S7.out
            7D A1.2/layout > S7.S
            7F A1.3/layout > S7.5V
            7C A1.4/layout > S7.0V
            S7LL A1.5/layout > S7L.L
            FIVEF FIVE.feed > A1.3/layout
            FIVEC FIVE.return > L7.2
            FIVEC L7.2 > A1.4/layout
            LIGHTL LIGHT.feed > A1.5/layout
            LIGHTC LIGHT.return > S7L.C
        """,
        throws={
            "off": "S7.5V FIVE.feed; S7.0V FIVE.return; S7.S S7.out; S7L.L LIGHT.feed; S7L.C LIGHT.return",
            "on": "S7.in FIVE.return; S7.5V FIVE.feed; S7.0V FIVE.return; S7.S S7.out; "
            "S7L.L LIGHT.feed; S7L.C LIGHT.return",
        },
    ),
    Case(
        kind="panel-lamps",
        supplies=DC,
        things="devices: {PL5: {kind: panel-lamps, lever: 5L}}",
        lever="5L",
        wires="""
            5LLn L5L.N > A1.1/panel
            5LLn A1.1/layout > PL5.N
            5LLr L5L.R > A1.2/panel
            5LLr A1.2/layout > PL5.R
            F DC.feed > L5L.F
            C DC.return > PL5.C
        """,
        throws={"normal": "PL5.N DC.feed; PL5.C DC.return", "reverse": "PL5.R DC.feed; PL5.C DC.return"},
    ),
    Case(  # never a latching switch
        kind="uncoupler",
        supplies=DC,
        things="devices: {U1: {kind: uncoupler, lever: 21}}",
        lever="21",
        wires="""
            21F L21.1 > A1.1/panel
            21Fs L21.2 > A1.2/panel
            21Fs A1.2/layout > U1.1
            F DC.feed > A1.1/layout
            C DC.return > U1.2
        """,
        throws={"off": "U1.2 DC.return", "on": "U1.1 DC.feed; U1.2 DC.return"},
    ),
    Case(
        kind="lamps",
        supplies=DC,
        things="devices: {D1: {kind: lamps}}",
        wires="""
            D1L A1.1/layout > D1.L
            L DC.feed > A1.1/layout
            C DC.return > D1.C
        """,
        throws={"normal": "D1.L DC.feed; D1.C DC.return"},
    ),
    Case(
        kind="lighting-bus",
        supplies=DC,
        things="devices: {D1: {kind: lighting-bus}, D2: {kind: lighting-bus}}",
        wires="""
            D1L A1.1/layout > D1.+
            D1C A1.2/layout > D1.-
            D2L A1.3/layout > D2.+
            D2C A1.4/layout > D2.-
            L DC.feed > A1.1/layout
            L A1.1/layout > A1.3/layout link
            C DC.return > A1.2/layout
            C A1.2/layout > A1.4/layout link
        """,
        throws={"normal": "D1.+ DC.feed; D1.- DC.return; D2.+ DC.feed; D2.- DC.return"},
    ),
]
