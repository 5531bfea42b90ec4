"""DXF files, read and audited by ezdxf's reader."""

import os
import subprocess
import sys
from collections import Counter
from dataclasses import replace
from io import StringIO
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from ezdxf import options
from layered_panel import PANEL
from shapely.geometry import Polygon

from labelgen.model.drawing import Symbol
from labelgen.rendering.dxf import dxf_bytes


def read(content: bytes) -> Any:
    return ezdxf.read(StringIO(content.decode()))  # type: ignore[attr-defined]


def test_it_passes_the_audit_in_millimetres_with_its_layers() -> None:
    document = read(dxf_bytes(PANEL))
    auditor = document.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    assert (document.dxfversion, document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == ("AC1024", 4, 1)
    assert document.header["$EXTMAX"][:2] == (120, 60)
    assert {"print", "engrave", "cut", "drill"} <= {layer.dxf.name for layer in document.layers}
    found = Counter((entity.dxf.layer, entity.dxftype()) for entity in document.modelspace())
    assert found["drill", "CIRCLE"] == 2
    assert found["cut", "LWPOLYLINE"] == 1
    assert found["print", "LWPOLYLINE"] == 3  # ground, line, track; neither fills of holes nor letters
    assert {kind for _, kind in found} == {"CIRCLE", "LWPOLYLINE"}


def test_y_runs_up_from_the_lower_left_corner() -> None:
    circles = [entity for entity in read(dxf_bytes(PANEL)).modelspace() if entity.dxftype() == "CIRCLE"]
    assert [(c.dxf.center.x, c.dxf.center.y, c.dxf.radius) for c in circles] == [(40, 28, 3.25), (100.5, 52.75, 1.7)]


def test_letters_are_closed_and_enclose_ink() -> None:
    runs = [e for e in read(dxf_bytes(PANEL)).modelspace() if e.dxf.layer == "engrave"]
    assert all(run.closed for run in runs)
    assert all(Polygon(list(run.get_points("xy"))).area > 0.01 for run in runs)
    with_two = "iqa"  # a dot, and what is hollow
    assert len(runs) == len("Fishquay") + len(with_two) + 1  # and the bar
    width = [e for e in read(dxf_bytes(PANEL)).modelspace() if e.dxf.layer == "print"][-1].dxf.const_width
    assert width == 4


def test_same_drawing_same_bytes_and_the_library_is_left_as_it_was() -> None:
    assert options.write_fixed_meta_data_for_testing is False
    first = dxf_bytes(PANEL)
    assert options.write_fixed_meta_data_for_testing is False
    assert dxf_bytes(PANEL) == first


def test_the_order_of_what_is_written_is_not_left_to_chance() -> None:
    """Sets are in another order for each seed of Python's hashes."""
    script = (
        "from layered_panel import PANEL; from labelgen.rendering.dxf import dxf_bytes; from hashlib import sha256;"
        "print(sha256(dxf_bytes(PANEL)).hexdigest())"
    )
    written = {
        subprocess.run(
            [sys.executable, "-c", script],
            cwd=Path(__file__).parent,
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(written) == 1


def test_what_has_no_form_is_refused() -> None:
    with pytest.raises(ValueError, match="Symbol"):
        dxf_bytes(replace(PANEL, print=(Symbol(x=0, y=0, module=1, rows=((True,),)),)))
