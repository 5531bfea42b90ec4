"""What every page is set in: templates compiled once, style and scripts inside the page, and what it may not do.

A page runs and shows only what stands in it: its policy names its one style and its one script by their SHA-256
(Content Security Policy level 3), so that nothing which a builder wrote can ever run, and nothing is loaded.
"""

import json
import re
from base64 import b64encode
from collections.abc import Mapping, Sequence
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any

from labelgen.rendering.page_addresses import slug
from labelgen.rendering.page_wires import colours_of

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

TEMPLATES = Path(__file__).parent / "templates"
_USED_MARK = re.compile(r'href="#(m\d+)"')
_PICTURE = re.compile(r"<svg\b([^>]*)>(.*)</svg>", re.DOTALL)
_BOX = re.compile(r'viewBox="[^"]*"')


class Marks:
    """The functions' patterns: drawn once on a page, and only those that it shows."""

    def __init__(self, pictures: Mapping[str, str]) -> None:
        self.ids = {name: f"m{number}" for number, name in enumerate(pictures)}
        self._symbols = {id_: _symbol(id_, pictures[name]) for name, id_ in self.ids.items()}

    def used_in(self, body: str) -> str:
        return "".join(
            self._symbols[id_] for id_ in sorted(set(_USED_MARK.findall(body)), key=lambda id_: int(id_[1:]))
        )


def _symbol(id_: str, picture: str) -> str:
    found = _PICTURE.fullmatch(picture)
    assert found is not None, "a picture is one <svg>"
    box = _BOX.search(found[1])
    sized = f' {box[0]} preserveAspectRatio="none"' if box is not None else ""
    return f'<symbol id="{id_}"{sized}>{found[2]}</symbol>'


def page(template: str, values: Mapping[str, Any], scripts: Sequence[str], marks: Marks) -> bytes:
    """One page, in UTF-8; a style of the template's own comes behind that of all."""
    from markupsafe import Markup

    style, script = _style(template.replace(".html", ".css")), _script(tuple(scripts))
    frame = {
        "style": Markup(style),
        "script": Markup(script),
        "policy": _policy(style, script),
        "marks_here": Markup(_HERE),
    }
    body: str = templates().get_template(template).render({**values, **frame})
    return body.replace(_HERE, marks.used_in(body), 1).encode()


_HERE = "<!-- marks -->"


def page_data(value: object) -> "Markup":
    """JSON that can stand in a page: nothing in it ends its element or begins another."""
    from markupsafe import Markup

    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e"))


def _policy(style: str, script: str) -> str:
    return (
        f"default-src 'none'; style-src '{_hash(style)}'; script-src '{_hash(script)}'; base-uri 'none'; "
        "form-action 'none'"
    )


@cache
def _hash(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"


@cache
def _style(own: str) -> str:
    names = ("style.css", *((own,) if (TEMPLATES / own).exists() else ()), "print.css")
    return "".join(map(_shorter, names))


@cache
def _script(names: tuple[str, ...]) -> str:
    return "".join(['"use strict";\n{\n', *map(_shorter, names), "}\n"])


def _shorter(name: str) -> str:
    """Without what is there for its readers here: blanks at the beginning of a line, and lines of comment."""
    lines = (line.strip() for line in (TEMPLATES / name).read_text(encoding="utf-8").splitlines())
    return "".join(f"{line}\n" for line in lines if line and not line.startswith(("//", "/*")))


@cache
def templates() -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    found = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    found.filters["metres"] = lambda length: f"{length / 1000:.1f} m"
    found.filters["colours"] = colours_of
    found.filters["slug"] = slug
    return found
