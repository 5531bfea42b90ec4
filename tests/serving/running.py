"""A server of the schedule pages on loopback, in a thread of its own."""

import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from labelgen.serving import server as serving
from labelgen.serving.current_pages import CurrentPages
from labelgen.serving.edition import edition_of

SOON = 120
"""Seconds that a loaded machine is given; nothing is timed."""


@dataclass(frozen=True)
class Running:
    port: int
    server: Any
    """uvicorn's own."""

    @property
    def connections(self) -> int:
        return len(self.server.server_state.connections)


@contextmanager
def running(description: Path) -> Iterator[Running]:
    """The listening socket is opened here and handed over, so that nobody can take its port in between."""
    ready = threading.Event()
    pages = CurrentPages(description, edition_of)
    with socket.create_server((serving.LOOPBACK, 0), backlog=1024) as listening:
        port = int(listening.getsockname()[1])
        server = serving.server(pages, serving.LOOPBACK, port, serving.names(None), ready.set)
        thread = threading.Thread(target=server.run, args=([listening],))
        thread.start()
        try:
            assert ready.wait(SOON)
            yield Running(port, server)
        finally:
            server.should_exit = True
            thread.join(SOON)
    assert not thread.is_alive()
