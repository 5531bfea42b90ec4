"""The server on a real socket: crowds, slow clients, huge heads, endless bodies."""

import asyncio
import http.client
import resource
import socket
import threading
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from running import SOON, Running, running

from labelgen.data_files import layouts
from labelgen.serving import server as serving

CROWD = 200
GET = b"GET /S1/ HTTP/1.1\r\nHost: localhost\r\n\r\n"


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Running]:
    file = tmp_path / "quay.yaml"
    file.write_bytes((layouts("railways") / "marram-quay.yaml").read_bytes())
    with running(file) as found:
        yield found


@pytest.fixture
def files_enough() -> Iterator[None]:
    """Each client is a file to this process, and so is its other end."""
    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = 4 * CROWD if hard == resource.RLIM_INFINITY else min(hard, 4 * CROWD)
    if soft != resource.RLIM_INFINITY and soft < wanted:
        resource.setrlimit(resource.RLIMIT_NOFILE, (wanted, hard))
    yield
    resource.setrlimit(resource.RLIMIT_NOFILE, (soft, hard))


def status(port: int, path: str = "/") -> tuple[int, int]:
    connection = http.client.HTTPConnection(serving.LOOPBACK, port, timeout=SOON)
    try:
        connection.request("GET", path)
        answer = connection.getresponse()
        return answer.status, len(answer.read())
    finally:
        connection.close()


def until_nobody_is_left(served: Running) -> None:
    """Waits for the server, not for a time: it would fail only where a connection is never given up."""
    tick = threading.Event()
    for _ in range(SOON * 100):
        if not served.connections:
            return
        tick.wait(0.01)
    pytest.fail(f"{served.connections} connections are left")


async def crowd(port: int) -> list[bytes]:
    """All are connected before the first of them asks. One thread is enough for them."""
    clients = [await asyncio.open_connection(serving.LOOPBACK, port) for _ in range(CROWD)]
    for _, writer in clients:
        writer.write(GET.replace(b"\r\n\r\n", b"\r\nConnection: close\r\n\r\n"))
    answers = await asyncio.gather(*(reader.read() for reader, _ in clients))
    for _, writer in clients:
        writer.close()
        await writer.wait_closed()
    return answers


@pytest.mark.usefixtures("files_enough")
def test_two_hundred_clients_at_once_all_get_their_page_and_leave_nothing_behind(served: Running) -> None:
    _, length = status(served.port, "/S1/")
    for _ in range(2):
        answers = asyncio.run(asyncio.wait_for(crowd(served.port), SOON))
        assert len(answers) == CROWD
        for answer in answers:
            head, _, body = answer.partition(b"\r\n\r\n")
            assert head.startswith(b"HTTP/1.1 200 ")
            assert len(body) == length
        until_nobody_is_left(served)
    assert not served.server.server_state.tasks


@pytest.mark.usefixtures("files_enough")
def test_clients_that_say_nothing_do_not_keep_others_out(served: Running) -> None:
    silent = [socket.create_connection((serving.LOOPBACK, served.port), timeout=SOON) for _ in range(CROWD)]
    try:
        for one in silent[::2]:
            one.sendall(b"GET / HTTP/1.1\r\nHost: loc")
        assert status(served.port)[0] == 200
    finally:
        for one in silent:
            one.close()
    assert status(served.port)[0] == 200
    until_nobody_is_left(served)


def left_by(one: socket.socket) -> bytes:
    """All that comes until the other side hangs up."""
    said = b""
    try:
        while found := one.recv(1 << 16):
            said += found
    except ConnectionResetError:
        pass
    return said


@pytest.mark.parametrize("first", [b"", GET], ids=["first request", "second request"])
def test_who_is_slow_is_cut_off(served: Running, monkeypatch: pytest.MonkeyPatch, first: bytes) -> None:
    monkeypatch.setattr(serving, "PATIENCE_SECONDS", 0.2)
    monkeypatch.setattr(serving, "SENDING_SECONDS", 0.2)
    with socket.create_connection((serving.LOOPBACK, served.port), timeout=SOON) as slow:
        slow.sendall(first + b"GET / HTTP/1.1\r\n")
        assert left_by(slow).count(b"HTTP/1.1 ") == (1 if first else 0)
    until_nobody_is_left(served)
    assert status(served.port)[0] == 200


def test_who_never_takes_the_answers_is_cut_off(served: Running, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each answer is made only once the one before is taken, so that they do not pile up either."""
    status(served.port)
    monkeypatch.setattr(serving, "SENDING_SECONDS", 0.5)
    with socket.create_connection((serving.LOOPBACK, served.port), timeout=SOON) as deaf:
        deaf.sendall(GET * 350)
        before = served.server.server_state.total_requests
        until_nobody_is_left(served)
        answered = served.server.server_state.total_requests - before
    assert answered < 350
    assert status(served.port)[0] == 200


def test_a_huge_head_is_refused(served: Running) -> None:
    with socket.create_connection((serving.LOOPBACK, served.port), timeout=SOON) as one:
        try:
            one.sendall(b"GET / HTTP/1.1\r\nHost: localhost\r\nX: " + b"x" * 10 * serving.LARGEST_HEAD)
            said = one.recv(1000)
        except (ConnectionResetError, BrokenPipeError):
            said = b""
    assert b"200" not in said[:20]
    assert status(served.port)[0] == 200


def test_a_body_without_an_end_is_not_kept(served: Running, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody has to send us anything: it is thrown away until the sender is cut off."""
    monkeypatch.setattr(serving, "SENDING_SECONDS", 0.2)
    with socket.create_connection((serving.LOOPBACK, served.port), timeout=SOON) as endless:
        endless.sendall(b"POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1000000000000\r\n\r\n")
        with suppress(ConnectionResetError, BrokenPipeError):
            while True:
                endless.sendall(b"x" * (1 << 16))
                cycles = [connection.cycle for connection in [*served.server.server_state.connections]]
                assert all(cycle is None or len(cycle.body) < 1 << 20 for cycle in cycles)
    assert status(served.port)[0] == 200


def test_only_this_machine_is_listened_to(served: Running) -> None:
    address = serving.own_address()
    if address is None:
        pytest.skip("this machine is in no network")
    with pytest.raises((ConnectionRefusedError, TimeoutError)):
        socket.create_connection((address, served.port), timeout=5)


def test_names_by_which_this_machine_may_be_called(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only addresses that are listened to; to phones it is its name with .local behind it (RFC 6762, section 3)."""
    assert serving.names(None) == ["localhost", "127.0.0.1"]
    monkeypatch.setattr(socket, "gethostname", lambda: "Workshop.lan.invalid")
    assert {"10.1.2.3", "workshop.lan.invalid", "workshop.local"} < {*serving.names("10.1.2.3")}
