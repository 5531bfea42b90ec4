"""A client that talks to an application directly, as a server would (the ASGI specification, HTTP connection scope)."""

import asyncio
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import unquote


@dataclass(frozen=True)
class Answer:
    status: int
    headers: Mapping[str, str]
    content: bytes

    @property
    def text(self) -> str:
        return self.content.decode()


class Client:
    def __init__(self, application: Any) -> None:
        self._application = application

    def ask(self, path: str, *, method: str = "GET", host: str = "localhost") -> Answer:
        """`path` as it stands in the request line."""
        said: list[dict[str, Any]] = []

        async def receive() -> dict[str, Any]:
            return {"type": "http.request", "body": b"", "more_body": False}

        async def send(message: dict[str, Any]) -> None:
            said.append(message)

        scope = {
            "type": "http",
            "asgi": {"version": "3.0", "spec_version": "2.4"},
            "http_version": "1.1",
            "method": method,
            "scheme": "http",
            "path": unquote(path),
            "raw_path": path.encode(),
            "query_string": b"",
            "root_path": "",
            "headers": [(b"host", host.encode())],
            "client": ("127.0.0.1", 50000),
            "server": ("127.0.0.1", 8470),
        }
        asyncio.run(self._application(scope, receive, send))
        headers = {name.decode(): value.decode() for name, value in said[0]["headers"]}
        return Answer(said[0]["status"], headers, b"".join(message.get("body", b"") for message in said[1:]))
