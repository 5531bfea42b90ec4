"""Whatever is edited, made and printed in whatever order: what is stuck on the railway is what the record says.

The oracle is a second railway: every sticker that ever left the printer, read off the pages themselves, is stuck on or
taken off as the commands and the list say; and every cell of a label sheet that was printed is gone.
"""

from collections.abc import Mapping
from copy import deepcopy
from pathlib import Path
from typing import Any
from unittest.mock import patch

from captured_pages import FLAGS, Key, Paper, Printer, letter, plain
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from wiring.wiring_builder import built_in_kinds, described

from labelgen.keeping import record_after
from labelgen.making import Checked, Request
from labelgen.model.built.built_record import BuiltRecord
from labelgen.model.built.record_printing import Scope, with_printed, without_printed
from labelgen.pipeline import make
from labelgen.problems import has_errors
from labelgen.reading.built_record_reader import read_record_bytes
from labelgen.rendering import pdf
from labelgen.rendering.built_record_text import built_record_bytes
from labelgen.wiring.expansion import Expansion
from labelgen.wiring.recorded_outcome import built_record

BOARDS = ("West", "East")
KINDS = ("markers", "flags", "plates")
RAILWAY: dict[str, Any] = {
    "boards": {"West": {"at": ["0", "0"]}, "East": {"at": ["1200", "0"]}},
    "supplies": {"PULSE": {"kind": "pulse", "board": "West"}},
    "panels": {"QUAY": {"board": "West", "at": ["600", "600"]}},
    "strips": {
        name: {"board": board, "ways": "12", "measured": "110"} for board, name in zip(BOARDS, "WE", strict=True)
    },
    "sheets": {"flags": FLAGS.id, "plates": FLAGS.id},
    "points": {"P1": {"board": "West"}, "P2": {"board": "East"}},
}


class Builder(RuleBasedStateMachine):
    def __init__(self) -> None:
        super().__init__()
        self.railway = deepcopy(RAILWAY)
        self.record: BuiltRecord | None = None
        self.paper = Paper()
        self.wall: dict[Key, list[str]] = {}
        """What is stuck on."""
        self.letters: dict[Key, str] = {}
        self.gone: dict[str, set[int]] = {}
        """Kind: the cells that are gone of its part-used sheet."""
        self.undo: tuple[Any, ...] | None = None
        self.count = 0

    @initialize(points=st.integers(0, 3), stuck_on=st.booleans())
    def begin(self, *, points: int, stuck_on: bool) -> None:
        self.railway["points"] = {f"P{n}": {"board": BOARDS[n % 2]} for n in range(1, points + 1)}
        if stuck_on:
            self.make_all(changed=False)
            self.print_and_stick(board="", only=set())

    def teardown(self) -> None:
        """Whatever the builder has done, in the end everything can be brought up to date."""
        if self.record is not None:
            self.bring_it_up_to_date()

    def checked(self, railway: Mapping[str, Any], record: BuiltRecord | None) -> Checked | None:
        expansion = Expansion(described(dict(railway)), built_in_kinds(), record)
        netlist, problems = expansion.netlist()
        if has_errors(problems):
            return None
        built = built_record(netlist, expansion.record)
        return Checked(description=described(dict(railway)), netlist=netlist, before=expansion.record, built=built)

    def make(self, request: Request) -> None:
        checked = self.checked(self.railway, self.record)
        assert checked is not None
        printer = Printer()
        with patch.object(pdf, "pdf_bytes", printer):
            result = make(checked, request)
        assert not has_errors(result.problems), result.problems
        self.paper = printer.paper
        self._cells_are_there()
        record = record_after(checked, request, result.now)
        again = read_record_bytes(built_record_bytes(record), Path("x.built.yaml"))
        assert again == record, "what was written reads back the same"
        if self.record is not None:
            assert record.printed == self.record.printed, "making is not printing"
        self.record, self.undo = record, None

    def _cells_are_there(self) -> None:
        for kind, sheets in self.paper.cells.items():
            assert not sheets[0] & self.gone.get(kind, set()), "printed on cells that are gone"
            assert min(sheets[0]) == len(self.gone.get(kind, set())), "no cell is wasted"

    # What a builder does.

    @rule(
        changed=st.booleans(), board=st.sampled_from([None, *BOARDS]), only=st.sets(st.sampled_from(KINDS), min_size=1)
    )
    def make_some(self, *, changed: bool, board: str | None, only: set[str]) -> None:
        self.make(Request(only=frozenset(only), board=board, changed=changed))

    @rule(changed=st.booleans())
    def make_all(self, *, changed: bool) -> None:
        self.make(Request(only=frozenset(KINDS), changed=changed))

    @precondition(lambda self: self.record is not None)
    @rule(board=st.sampled_from(["", *BOARDS]), only=st.sets(st.sampled_from(KINDS)))
    def print_and_stick(self, board: str, only: set[str]) -> None:
        """Part of what was made: what the list says comes off is there, and comes off."""
        assert self.record is not None
        scope = Scope(only=only, board=board)
        before = (self.record, deepcopy(self.wall), dict(self.letters), deepcopy(self.gone))
        for one in self.record.made:
            if scope.holds(one.either):
                self._stick(one.key, off=one.was is not None, on=one.now is not None)
        for kind, sheets in self.paper.cells.items():
            if kind in scope.kinds:
                whole = (self.gone.get(kind, set()) if len(sheets) == 1 else set()) | sheets[-1]
                self.gone[kind] = set() if len(whole) == FLAGS.count else whole
        self.record = with_printed(self.record, scope)
        self.undo = (scope, *before) if not board else None

    def _stick(self, key: Key, *, off: bool, on: bool) -> None:
        """Said twice, nothing is stuck on twice."""
        new = [plain(drawing) for drawing in self.paper.stickers.get(key, [])]
        if self.wall.get(key, []) == new:
            return
        letter_now = next_letter(self.letters.get(key))
        if off:
            assert key in self.wall, "the list takes off what is not there"
            del self.wall[key]
            del self.letters[key]
        if on:
            assert new, "the list puts on what was not printed"
            assert key not in self.wall, "the list puts on what is there"
            (printed,) = {letter(drawing) for drawing in self.paper.stickers[key]}
            assert printed in ("", letter_now), "issues follow one another"
            self.wall[key], self.letters[key] = new, letter_now

    @precondition(lambda self: self.undo is not None)
    @rule()
    def take_it_back(self) -> None:
        """At once: everything is as before."""
        assert self.undo is not None
        assert self.record is not None
        scope, before, wall, letters, gone = self.undo
        back = without_printed(self.record, scope)
        if any(scope.holds(one.either) for one in self.record.made) and before.printed != self.record.printed:
            assert back is not None
            assert {one.key: one for one in back.printed} == {one.key: one for one in before.printed}
            assert {(one.use, one.following) for one in back.sheets} == {(o.use, o.following) for o in before.sheets}
            self.record, self.wall, self.letters, self.gone = back, wall, letters, gone
        self.undo = None

    @rule(number=st.integers(1, 9), board=st.sampled_from(BOARDS))
    def add_a_point(self, number: int, board: str) -> None:
        self.edit({**self.railway["points"], f"P{number}": {"board": board}} | self.railway["points"])

    @rule(data=st.data())
    def remove_a_point(self, data: st.DataObject) -> None:
        if self.railway["points"]:
            gone = data.draw(st.sampled_from(sorted(self.railway["points"])))
            self.edit({id_: one for id_, one in self.railway["points"].items() if id_ != gone})

    @rule(data=st.data(), what=st.sampled_from(["name", "shown", "terminals"]))
    def call_it_otherwise(self, data: st.DataObject, what: str) -> None:
        if self.railway["points"]:
            id_ = data.draw(st.sampled_from(sorted(self.railway["points"])))
            self.count += 1
            said = {"N": f"n{self.count}"} if what == "terminals" else f"w{self.count}"
            self.edit({**self.railway["points"], id_: {**self.railway["points"][id_], what: said}})

    @rule(data=st.data())
    def rename(self, data: st.DataObject) -> None:
        if self.railway["points"]:
            old = data.draw(st.sampled_from(sorted(self.railway["points"])))
            self.count += 1
            self.edit(
                {
                    f"P{20 + self.count}" if id_ == old else id_: {**one, "was": old} if id_ == old else one
                    for id_, one in self.railway["points"].items()
                }
            )

    def edit(self, points: dict[str, Any]) -> None:
        """An edit that is refused is taken back."""
        changed = {**self.railway, "points": points}
        if self.checked(changed, self.record) is not None:
            self.railway = changed

    @invariant()
    def the_record_knows_what_is_stuck_on(self) -> None:
        if self.record is not None:
            assert {one.key for one in self.record.printed} == self.wall.keys()
            assert {one.key: one.issue for one in self.record.printed} == {
                key: self.letters[key] or "A" for key in self.wall
            }
            gone = {one.use: one.following - 1 for one in self.record.sheets}
            assert gone == {kind: len(cells) for kind, cells in self.gone.items() if cells}

    @precondition(lambda self: self.record is not None)
    @rule()
    def bring_it_up_to_date(self) -> None:
        """The labels printed over time, less those removed, are those of the description; and a next list is empty."""
        self.make_all(changed=True)
        self.print_and_stick(board="", only=set())
        checked, printer = self.checked(self.railway, None), Printer()
        fresh = self.checked(self.railway, self.record)
        assert checked is not None
        assert fresh is not None
        with patch.object(pdf, "pdf_bytes", printer):
            make(fresh, Request(only=frozenset(KINDS)))
        assert {key: sorted(map(plain, own)) for key, own in printer.paper.stickers.items()} == {
            key: sorted(own) for key, own in self.wall.items()
        }
        self.make_all(changed=True)
        assert not self.paper.stickers
        assert self.record is not None
        assert not self.record.made
        self.the_record_knows_what_is_stuck_on()


def next_letter(issue: str | None) -> str:
    """ "" stands for the first, whose letter is not printed; then B to Z without I and O."""
    letters = ["", *"BCDEFGHJKLMNPQRSTUVWXYZ"]
    return "" if issue is None else letters[letters.index(issue) + 1]


Builder.TestCase.settings = settings(max_examples=25, stateful_step_count=15)
TestWhatIsStuckOn = Builder.TestCase
