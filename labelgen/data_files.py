"""Finds layouts/ and fonts/, inside an installed wheel or beside the package in a checkout.

The only place that knows where they are.
"""

from functools import cache
from pathlib import Path


@cache
def _root() -> Path:
    inside = Path(__file__).resolve().parent
    return inside if (inside / "layouts").is_dir() else inside.parent


def layouts(folder: str) -> Path:
    """`layouts/FOLDER`: sheets, devices or railways."""
    return _root() / "layouts" / folder


def font_file(name: str) -> Path:
    """A file of `fonts/`."""
    return _root() / "fonts" / name
