"""The pages of a schedule, read by the standard library's parser of HTML."""

from html.parser import HTMLParser
from pathlib import PurePosixPath

VOID = {"meta", "link", "br", "img", "hr", "input"}
INLINE = {"a", "b", "bdi", "span", "strong"}


class Page(HTMLParser):
    """Tags with their attributes, ids, and the text inside each element that has an id."""

    def __init__(self, page: bytes) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text_by_id: dict[str, list[str]] = {}
        self.text: list[str] = []
        self._open: list[tuple[str, str | None]] = []
        self.feed(page.decode())
        self.close()
        assert self._open == [], "every element is closed"

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in INLINE:
            self.handle_data(" ")
        found = dict(attrs)
        assert len(found) == len(attrs)
        self.tags.append((tag, found))
        if tag not in VOID:
            self._open.append((tag, found.get("id")))
        if found.get("id"):
            assert found["id"] not in self.text_by_id, "ids are unique"
            self.text_by_id[str(found["id"])] = []

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop()[0] == tag
        if tag not in INLINE:
            self.handle_data(" ")

    def handle_data(self, data: str) -> None:
        if any(tag in ("style", "svg", "script") for tag, _ in self._open):
            return
        self.text.append(data)
        for _, id_ in self._open:
            if id_:
                self.text_by_id[id_].append(data)

    def of(self, tag: str) -> list[dict[str, str | None]]:
        return [attributes for name, attributes in self.tags if name == tag]

    def words(self, id_: str = "") -> str:
        return " ".join("".join(self.text_by_id[id_] if id_ else self.text).split())


def led_to(path: str, href: str) -> tuple[str, str]:
    """The page, and the place on it, to which a link of a page leads."""
    target, _, id_ = href.partition("#")
    parts: list[str] = []
    for part in PurePosixPath(path).parent.joinpath(target).parts if target else PurePosixPath(path).parts:
        parts = parts[:-1] if part == ".." else [*parts, part]
    return "/".join(parts), id_
