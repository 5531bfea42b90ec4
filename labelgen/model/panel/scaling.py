"""The same panel on larger squares: what would do where there is no room."""

from bisect import bisect_left
from collections.abc import Callable
from math import ceil, floor

from labelgen.model.description import Description
from labelgen.model.panel.form import Panel

_LARGEST = 2.0
"""A panel more than twice as large is not what the builder has in mind."""


def size_that_would_do(description: Description, panel_id: str, does: Callable[[Description], bool]) -> str:
    """In the builder's words, the smallest panel on whole mm a square with which all is well: "" when none is.

    Found by halving, as what does on some squares does on larger ones; what is named has been tried in any case.
    """
    grids = _larger(description.panels[panel_id].grid)
    if not grids or not does(on_squares(description, panel_id, grids[-1])):
        return ""
    grid = grids[bisect_left(grids[:-1], 1, key=lambda one: int(does(on_squares(description, panel_id, one))))]
    size = on_squares(description, panel_id, grid).panels[panel_id].size
    of_size = f" on a panel of {size[0]:.4g} × {size[1]:.4g} mm" if size is not None else ""
    return f"`grid: {grid}`{of_size} would do"


def on_squares(description: Description, panel_id: str, grid: float) -> Description:
    """The description with one panel enlarged to squares of `grid` mm; texts and parts keep their size."""
    panel = description.panels[panel_id]
    return description.model_copy(update={"panels": {**description.panels, panel_id: _enlarged(panel, grid)}})


def _larger(grid: float) -> range:
    """At most ten sizes, each a tenth larger or more."""
    step = max(1, ceil(grid / 10))
    return range(floor(grid) + step, floor(_LARGEST * grid) + 1, step)


def _enlarged(panel: Panel, grid: float) -> Panel:
    scale = grid / panel.grid
    size = (ceil(panel.size[0] * scale), ceil(panel.size[1] * scale)) if panel.size is not None else None
    exit_ = (panel.exit[0] * scale, panel.exit[1] * scale) if panel.exit is not None else None
    return panel.model_copy(update={"grid": grid, "size": size, "exit": exit_})
