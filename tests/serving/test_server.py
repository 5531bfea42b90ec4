"""The server on a real socket: crowds, slow clients, huge heads."""

import http.client
import socket
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from labelgen.data_files import layouts
from labelgen.serving import server as serving
from labelgen.serving.current_pages import CurrentPages
from labelgen.serving.edition import edition_of


@pytest.fixture
def port(tmp_path: Path) -> Iterator[int]:
    """A server on loopback; its port."""
    file = tmp_path / "quay.yaml"
    file.write_bytes((layouts("railways") / "marram-quay.yaml").read_bytes())
    with socket.socket() as probe:
        probe.bind((serving.LOOPBACK, 0))
        number = int(probe.getsockname()[1])
    ready = threading.Event()
    pages = CurrentPages(file, edition_of)
    running = serving.server(pages, serving.LOOPBACK, number, serving.names(None), ready.set)
    thread = threading.Thread(target=running.run)
    thread.start()
    assert ready.wait(30)
    yield number
    running.should_exit = True
    thread.join(30)
    assert not thread.is_alive()


def status(port: int, path: str = "/") -> tuple[int, int]:
    connection = http.client.HTTPConnection(serving.LOOPBACK, port, timeout=30)
    try:
        connection.request("GET", path)
        answer = connection.getresponse()
        return answer.status, len(answer.read())
    finally:
        connection.close()


def test_two_hundred_clients_at_once_all_get_their_page(port: int) -> None:
    with ThreadPoolExecutor(200) as crowd:
        answers = set(crowd.map(lambda _: status(port, "/S1/"), range(400)))
    assert len(answers) == 1
    assert next(iter(answers))[0] == 200


def test_clients_that_say_nothing_do_not_keep_others_out(port: int) -> None:
    silent = [socket.create_connection((serving.LOOPBACK, port), timeout=30) for _ in range(200)]
    try:
        for one in silent[::2]:
            one.sendall(b"GET / HTTP/1.1\r\nHost: loc")
        assert status(port)[0] == 200
    finally:
        for one in silent:
            one.close()
    assert status(port)[0] == 200


def test_who_is_slow_is_cut_off(monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest) -> None:
    monkeypatch.setattr(serving, "PATIENCE_SECONDS", 0.2)
    number = request.getfixturevalue("port")
    with socket.create_connection((serving.LOOPBACK, number), timeout=30) as slow:
        slow.sendall(b"GET / HTTP/1.1\r\n")
        try:
            left = slow.recv(100)
        except ConnectionResetError:
            left = b""
        assert left == b""
    assert status(number)[0] == 200


def test_a_huge_head_is_refused(port: int) -> None:
    with socket.create_connection((serving.LOOPBACK, port), timeout=30) as one:
        try:
            one.sendall(b"GET / HTTP/1.1\r\nHost: localhost\r\nX: " + b"x" * 10 * serving.LARGEST_HEAD)
            said = one.recv(1000)
        except (ConnectionResetError, BrokenPipeError):
            said = b""
    assert b"200" not in said[:20]
    assert status(port)[0] == 200


def test_only_this_machine_is_listened_to(port: int) -> None:
    address = serving.own_address()
    if address is None:
        pytest.skip("this machine is in no network")
    with pytest.raises((ConnectionRefusedError, TimeoutError)):
        socket.create_connection((address, port), timeout=5)


def test_names_by_which_this_machine_may_be_called() -> None:
    assert serving.names(None) == ["localhost", "127.0.0.1", "[::1]"]
    assert "10.1.2.3" in serving.names("10.1.2.3")
