"""Live crossings."""

from wiring.wiring_builder import described, netlist_of

from labelgen.checks.crossings import pairs_not_marked, shorted_crossings

TWO = "supplies: {DRIVE: {kind: dc}, CAB: {kind: track}}\nstrips: {A1: }\n"
OWN = """
kinds:
  slow:
    terminals: {1: , 8: , 2: , 4: , 3: , vee: }
    supply: {drive: dc, rails: track}
    lever_type: changeover
    group:
      - {function: drive-a, contact: A, terminal: 1}
      - {function: drive-b, contact: B, terminal: 8}
      - {function: track, terminal: 2, chain: rails.A, swap: rails}
      - {function: frog, terminal: 4, across: vee}
      - {function: track-return, terminal: 3, chain: rails.B, swap: rails}
    chain:
      - {function: feed, contact: P, supply: drive.feed}
      - {function: return, contact: M, supply: drive.return}
    inside: {normal: [[2, 4]], reverse: [[3, 4]]}
"""


def shorts(text: str) -> list[tuple[str, str]]:
    return [(one.place.source, one.message) for one in shorted_crossings(described(text), netlist_of(text))]


def test_a_crossing_as_it_is_wired_by_itself() -> None:
    assert shorts(f"{TWO}points: {{P5: {{kind: stall-motor}}}}") == []
    assert shorts("supplies: {PULSE: {kind: pulse}}\nstrips: {A1: }\npoints: {P5: }") == []


def test_a_crossing_on_a_rail_all_the_time() -> None:
    text = f"{TWO}points: {{P5: {{kind: stall-motor}}}}\nwires: [{{from: CAB.B, to: P5.vee}}]"
    ((place, message),) = shorts(text)
    assert place == "points.P5"
    assert message.startswith("the crossing of P5 is on CAB.B all the time")


def test_an_arm_on_the_motors_return() -> None:
    row = "      - {function: return, terminal: 4, supply: drive.return}\n"
    text = TWO + OWN.replace("    inside:", f"{row}    inside:") + "points: {P5: {kind: slow}}"
    assert [message.split(" all")[0] for _, message in shorts(text)] == ["the crossing of P5 is on DRIVE.return"]


def test_both_throws_on_one_rail() -> None:
    """Two supplies by name, and one controller for both."""
    text = TWO + OWN.replace("rails: track}", "rails: track, more: track}").replace("rails.B", "more.A")
    text += "points: {P5: {kind: slow, supplies: {rails: CAB, more: CAB}}}"
    assert [message for _, message in shorts(text)] == ["the crossing of P5 is on CAB.A both in normal and in reverse"]


def unmarked(text: str) -> list[str]:
    return [one.place.source for one in pairs_not_marked(described(text), netlist_of(text))]


def test_the_two_ways_that_may_have_to_be_exchanged_are_marked() -> None:
    text = f"{TWO}{OWN}points: {{P5: {{kind: slow}}}}"
    assert unmarked(text) == []
    assert unmarked(text.replace(", swap: rails", "")) == ["kinds.slow"]
    assert unmarked(text.replace(", swap: rails", "").replace("kind: slow", "kind: stall-motor")) == []


def test_what_senses_by_itself_has_no_pair() -> None:
    text = "supplies: {BUS: {kind: digital}}\nstrips: {A1: }\ndevices: {X: {kind: own}}\n"
    text += "kinds: {own: {terminals: {A: , out: }, supply: digital, group: [{function: frog, terminal: out}]}}"
    assert unmarked(text) == []
