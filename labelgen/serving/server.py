"""Serves the schedule pages over HTTP until it is told to stop."""

import socket
from asyncio import TimerHandle
from collections.abc import Callable
from ipaddress import ip_address
from typing import TYPE_CHECKING, Any

from labelgen.serving.application import application
from labelgen.serving.current_pages import CurrentPages

if TYPE_CHECKING:
    import asyncio

    import uvicorn

LOOPBACK = "127.0.0.1"
EVERYWHERE = "0.0.0.0"  # only when the builder asks for the phones of the workshop
MOST_CLIENTS = 1000
PATIENCE_SECONDS = 20
"""For the head of a request: who is slower is cut off, so that nobody can hold all connections."""
SENDING_SECONDS = 120
"""For an answer to be taken, after which the next request is awaited: a phone may be slow, but not forever."""
LARGEST_HEAD = 16_384
"""Bytes of a request's head."""


def server(pages: CurrentPages, host: str, port: int, hosts: list[str], ready: Callable[[], None]) -> "uvicorn.Server":
    """`ready` is called once connections are taken."""
    import uvicorn

    class Telling(uvicorn.Server):
        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            await super().startup(sockets)
            if self.started:
                ready()

    config = uvicorn.Config(
        application(pages, hosts),
        host=host,
        port=port,
        http=impatient(),
        ws="none",
        lifespan="off",
        log_level="warning",
        server_header=False,
        limit_concurrency=MOST_CLIENTS,
        timeout_keep_alive=5,
        timeout_graceful_shutdown=2,
        h11_max_incomplete_event_size=LARGEST_HEAD,
    )
    return Telling(config)


class Clock:
    """Gives up on a connection when it runs out."""

    def __init__(self, loop: "asyncio.AbstractEventLoop", give_up: Callable[[], None]) -> None:
        self._loop, self._give_up = loop, give_up
        self._running: TimerHandle | None = None

    def start(self, seconds: float) -> None:
        """From the beginning, if it runs."""
        self.stop()
        self._running = self._loop.call_later(seconds, self._give_up)

    def stop(self) -> None:
        if self._running is not None:
            self._running.cancel()
            self._running = None


def impatient() -> "type[asyncio.Protocol]":
    """How a connection is listened to."""
    from uvicorn.protocols.http.h11_impl import H11Protocol

    class Impatient(H11Protocol):
        """Hangs up on who does not finish the head of a request in time, or does not take the answer.

        The clock runs while we wait for the other side; it stands still while a page is made.
        """

        _clock: Clock

        def connection_made(self, transport: Any) -> None:
            super().connection_made(transport)
            self._clock = Clock(self.loop, transport.abort)
            self._clock.start(PATIENCE_SECONDS)

        def handle_events(self) -> None:
            before = self.cycle
            super().handle_events()
            if self.cycle is not before and not self.cycle.response_complete and not self.flow.write_paused:
                self._clock.stop()

        def on_response_complete(self) -> None:
            self._clock.start(SENDING_SECONDS)
            super().on_response_complete()

        def pause_writing(self) -> None:
            super().pause_writing()
            self._clock.start(SENDING_SECONDS)

        def resume_writing(self) -> None:
            super().resume_writing()
            if not self.cycle.response_complete:
                self._clock.stop()

        def connection_lost(self, exc: Exception | None) -> None:
            super().connection_lost(exc)
            self._clock.stop()

    return Impatient


def own_address() -> str | None:
    """The address of this machine in the local network; None without one. Nothing is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # RFC 5737: an address for documentation, in no network
            found = str(probe.getsockname()[0])
        except OSError:
            return None
    return None if ip_address(found).is_loopback else found


def names(lan: str | None) -> list[str]:
    """By which this machine may be called: also as phones call it, by multicast DNS (RFC 6762, section 3)."""
    if not lan:
        return ["localhost", LOOPBACK]
    bare = socket.gethostname().lower()
    return ["localhost", LOOPBACK, lan, bare, f"{bare.partition('.')[0]}.local"]
