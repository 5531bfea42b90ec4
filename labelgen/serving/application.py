"""Answers requests for schedule pages: only for pages that were made, only by the names of this machine.

A page is looked up by its path among those that were made. No path of the disk is ever built from a request, so that
nothing outside of the schedule can be read.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING
from urllib.parse import unquote, urlsplit

from labelgen.serving.current_pages import CurrentPages

if TYPE_CHECKING:
    from starlette.applications import Starlette
    from starlette.requests import Request
    from starlette.responses import Response

INDEX = "index.html"
HEADERS = {
    "Cache-Control": "no-cache",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
}
"""A page is asked for anew each time, leaves no trace elsewhere, and is never part of another."""


def application(pages: CurrentPages, hosts: Sequence[str]) -> "Starlette":
    """`hosts`: the names by which this machine may be called; other names get no answer (a foreign page in the same
    browser could otherwise read the schedule under a name of its own).
    """
    from starlette.applications import Starlette
    from starlette.middleware import Middleware
    from starlette.middleware.trustedhost import TrustedHostMiddleware
    from starlette.responses import PlainTextResponse, RedirectResponse
    from starlette.responses import Response as Answer
    from starlette.routing import Route

    def answer(request: "Request") -> "Response":
        pages.refresh()
        asked = request.path_params["path"].lstrip("/")
        return found(asked) or found(_below(asked, pages.address)) or none()

    def found(path: str | None) -> "Response | None":
        if path is None:
            return None
        page = pages.page(path or INDEX)
        if page is None and path.endswith("/"):
            page = pages.page(path + INDEX)
        if page is not None:
            return Answer(page, media_type="text/html", headers=HEADERS)
        if pages.page(f"{path}/{INDEX}") is not None:
            return RedirectResponse(f"{path.rpartition('/')[2]}/", headers=HEADERS)
        return None

    def none() -> "Response":
        words = pages.trouble or "There is no such page in the schedule."
        return PlainTextResponse(words, status_code=404, headers=HEADERS)

    routes = [Route("/{path:path}", answer, methods=["GET"])]
    named = Middleware(TrustedHostMiddleware, allowed_hosts=[*hosts], www_redirect=False)
    return Starlette(routes=routes, middleware=[named])


def _below(path: str, address: str) -> str | None:
    """The path behind that of the address of publication; None when it does not begin with that."""
    published = unquote(urlsplit(address).path).strip("/")
    inside = path.removeprefix(published)
    return inside.lstrip("/") if published and inside != path and inside[:1] in ("", "/") else None
