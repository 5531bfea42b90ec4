"""Railways for the plans of boards, and their plans as pages of a PDF."""

from pathlib import Path

from generated_railways import railway

from labelgen.data_files import layouts
from labelgen.making import Checked, Request
from labelgen.model.drawing import Drawing
from labelgen.model.look import Look
from labelgen.pipeline import check_file, make
from labelgen.standards.paper_sizes import PAPERS

EXAMPLE = (layouts("railways") / "marram-quay.yaml").read_text(encoding="utf-8")
CORNERS = """railway: Marram Quay
boards:
  B1:
    size: [900, 500]
    at: [0, 0]
    holes: {H1: {at: [450, 250], diameter: 16}, H2: {at: [890, 250], through: frame}}
  B2: {size: [800, 500], right_of: B1, holes: {H3: {at: [10, 250], through: frame}}}
  B3: {}
  B4: {}
supplies:
  PULSE: {kind: pulse, board: B1, at: [60, 60], volts: 22}
  DC: {kind: dc, board: B1, at: [60, 420], volts: 12, fuse: 1}
strips:
  S1: {board: B1, at: [200, 200], ways: 12, measured: 88, way_1: back, panel_side: right, taken: {12: bell}}
  S2: {board: B2, at: [300, 300], ways: 24, tiers: 2, measured: 110, way_1: right, panel_side: back}
  S3: {board: B1, at: [700, 440], ways: 12, measured: 88, way_1: front}
  S4: {board: B3, at: [300, 100], measured: 110}
points:
  P1: {board: B1, at: [330, 90], name: Wharf}
  P2: {board: B1, at: [600, 90], strip: S3}
  P3: {board: B2, at: [500, 120], lever: 1}
  P4: {board: B2, at: [600, 400]}
  P5: {board: B2}
  P6: {board: B2, at: [900, 100]}
  P7: {board: B3, at: [100, 200]}
devices:
  SIG: {kind: signal-2-aspect, lever: 8, board: B1, at: [500, 400], supply: DC}
panels:
  QUAY: {board: B1, at: [450, 500], size: [200, 100], levers: {row: 5}}
"""
"""Strips in all directions and in tiers, a signal above, holes in a top and in frames, a board without a size, one
with nothing on it, a point without a place and one beyond the edge."""
GENERATED = railway(84)


def checked_of(text: str, folder: Path) -> Checked:
    file = folder / "railway.yaml"
    file.write_text(text, encoding="utf-8")
    checked, problems = check_file(file)
    assert checked is not None, problems
    assert not [problem for problem in problems if problem.severity == "error"], problems
    return checked


def plans(text: str, folder: Path) -> dict[str, list[Drawing]]:
    from labelgen.drawings.board_plan.plan import plan_pages

    checked = checked_of(text, folder)
    drawings, problems = plan_pages(checked.description, checked.netlist, Look(), PAPERS["a4"])
    assert problems == []
    return drawings


def made(text: str, folder: Path, board: str | None = None) -> dict[str, bytes]:
    result = make(checked_of(text, folder), Request(only=frozenset({"plan"}), board=board))
    return result.files
