"""`Netlist` to `TestPlan`: the charts of all boards, and what else is tested."""

from collections.abc import Iterator

from labelgen.model.copper_tree import CopperTree
from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.model.test_plan import BoardChart, Idle, PlugChart, Reading, TestPlan
from labelgen.natural_order import natural
from labelgen.probing.apartness import Apart, Apartness, one_of_each
from labelgen.probing.evenings import evening_cards
from labelgen.probing.motors import motor_rows
from labelgen.probing.places import Places
from labelgen.probing.scenes import SCENES, hidden_nets, network_of
from labelgen.probing.show import show_steps
from labelgen.probing.starting import supply_starts
from labelgen.probing.touching import Touch, touches
from labelgen.probing.wholeness import Plugged, Whole, whole_nets


def plan_of_tests(description: Description, netlist: Netlist) -> TestPlan:
    """All that is tested on a railway, in walking order."""
    places = Places(netlist)
    apart_tree, together = CopperTree(netlist, plugged=False), CopperTree(netlist)
    idle = {id_: one for id_, one in {**description.points, **description.devices}.items() if one.not_in_use}
    whole, least = whole_nets(apart_tree, places, idle)
    all_touches = one_of_each(touches(netlist, apart_tree, places), apart_tree, places)
    apart, left = _apart(description, netlist, apart_tree, places, all_touches)
    plugged = Plugged(together, apart_tree, places)
    plugs = _plug_charts(netlist, plugged)
    return TestPlan(
        charts=_board_charts(description, netlist, whole, apart, hidden_nets(netlist, apart_tree)),
        plugs=plugs,
        motors=tuple(motor_rows(description, netlist, places)),
        starts=supply_starts(description, netlist, together, places),
        show=show_steps(description, netlist, together, places),
        evenings=evening_cards(description, netlist, apart_tree, places),
        fewest_whole=least,
        fewest_plugged=plugged.least,
        fewest_apart=sum(one.fewest for one in apart),
        pairs=len(all_touches),
        unread=tuple((places.shown(touch.one), places.shown(touch.other)) for touch in left),
    )


def _apart(
    description: Description, netlist: Netlist, tree: CopperTree, places: Places, left: list[Touch]
) -> tuple[list[Apart], list[Touch]]:
    """With all levers normal; what contacts join then, with the levers in other positions."""
    found: list[Apart] = []
    for scene in SCENES:
        if left:
            network = network_of(description, netlist, tree, scene)
            found.append(Apartness(scene, network, tree, places).proofs(left))
            left = list(found[-1].left)
    return found, left


def _board_charts(
    description: Description, netlist: Netlist, whole: list[Whole], apart: list[Apart], hidden: set[int]
) -> tuple[BoardChart, ...]:
    boards = [one.board for one in whole] + [proof.board for one in apart for proof in one.proofs]
    return tuple(
        BoardChart(
            board=board,
            whole=tuple(one.reading for one in whole if one.board == board),
            again=tuple(one.reading for one in whole if one.board == board and one.net in hidden),
            apart=tuple((one.scene, readings) for one in apart if (readings := _on(board, one))),
            idle=tuple(_idle(description, netlist, board)),
        )
        for board in sorted(set(boards), key=natural)
    )


def _on(board: str, apart: Apart) -> tuple[Reading, ...]:
    return tuple(proof.reading for proof in apart.proofs if proof.board == board)


def _idle(description: Description, netlist: Netlist, board: str) -> Iterator[Idle]:
    boards = {device: group.board for c in netlist.circuits for group in c.groups for device in group.devices}
    for id_, given in {**description.points, **description.devices}.items():
        if given.not_in_use and (given.board or boards.get(id_) or "") == board:
            yield Idle(shown=netlist.shown_id(id_), reason=given.not_in_use)


def _plug_charts(netlist: Netlist, plugged: Plugged) -> tuple[PlugChart, ...]:
    found = sorted(plugged.readings(), key=lambda one: (natural(one[0][0]), one[0][1]))
    charts = []
    for plug in netlist.plugs:
        readings = tuple(reading for (id_, _), reading in found if id_ == plug.id)
        if readings:
            charts.append(PlugChart(plug=plug.id, shown=plug.shown, boards=plug.boards, readings=readings))
    return tuple(charts)
