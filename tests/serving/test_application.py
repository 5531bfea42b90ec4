"""The served pages: what is answered, and what is not, however it is asked for."""

from pathlib import Path
from urllib.parse import quote

import pytest
from asking import Client
from hypothesis import given
from hypothesis import strategies as st

from labelgen.data_files import layouts
from labelgen.serving.application import application
from labelgen.serving.current_pages import CurrentPages, Edition
from labelgen.serving.edition import edition_of

HOSTS = ["localhost", "127.0.0.1"]
SECRET = "the builder's own file"


@pytest.fixture
def description(tmp_path: Path) -> Path:
    file = tmp_path / "marram-quay.yaml"
    file.write_bytes((layouts("railways") / "marram-quay.yaml").read_bytes())
    (tmp_path / "secret.txt").write_text(SECRET)
    return file


def client(file: Path) -> Client:
    return Client(application(CurrentPages(file, edition_of), HOSTS))


@pytest.fixture(scope="module")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Client:
    folder = tmp_path_factory.mktemp("served")
    file = folder / "marram-quay.yaml"
    file.write_bytes((layouts("railways") / "marram-quay.yaml").read_bytes())
    (folder / "secret.txt").write_text(SECRET)
    return client(file)


def test_the_index_and_every_strip_are_there_as_they_are_made(description: Path) -> None:
    made = edition_of(description).pages
    served = client(description)
    assert {"index.html", "S1/index.html", "S2/index.html", "S3/index.html"} <= made.keys()
    for path, content in made.items():
        answer = served.ask(f"/{path}")
        assert answer.status == 200
        assert answer.content == content
        assert answer.headers["content-type"] == "text/html; charset=utf-8"
    assert served.ask("/").content == made["index.html"]
    assert served.ask("/S1/").content == made["S1/index.html"]


def test_a_folder_without_its_slash_leads_to_the_folder_on_this_host(shared: Client) -> None:
    for path in ("/S1", "//S1"):
        answer = shared.ask(path)
        assert answer.status == 307
        assert answer.headers["location"] == "S1/"


def test_the_path_of_the_published_address_may_stand_before(description: Path) -> None:
    text = description.read_text().replace(
        "railway: Marram Quay", "railway: Marram Quay\nschedule: https://quay.invalid/a/b"
    )
    description.write_text(text)
    served = client(description)
    assert served.ask("/a/b/S2/").content == served.ask("/S2/").content
    assert served.ask("/a/S2/").status == 404


def published(description: Path, address: str) -> Client:
    railway = "railway: Marram Quay"
    description.write_text(description.read_text().replace(railway, f"{railway}\nschedule: {address}"))
    return client(description)


def test_a_strip_is_found_though_the_published_path_is_called_like_it(description: Path) -> None:
    made = edition_of(description).pages
    served = published(description, "https://quay.invalid/S1")
    for path, strip in (("/S1/", "S1"), ("/S1/S1/", "S1"), ("/S1/S2/", "S2"), ("/S2/", "S2")):
        assert f"Strip {strip}" in served.ask(path).text
        assert served.ask(path).content.count(b"<h1") == made[f"{strip}/index.html"].count(b"<h1")
    assert served.ask("/S1").headers["location"] == "S1/"


def test_the_published_path_may_have_signs_that_addresses_write_otherwise(description: Path) -> None:
    served = published(description, "https://quay.invalid/my%20rail")
    assert served.ask("/my%20rail/S2/").content == served.ask("/S2/").content
    assert served.ask("/my%20rail").content == served.ask("/").content
    assert served.ask("/my%20railS2/").status == 404


def test_what_is_saved_while_the_pages_are_made_is_not_missed(tmp_path: Path) -> None:
    file, beside = tmp_path / "quay.yaml", tmp_path / "wires.csv"
    for one in (file, beside):
        one.write_text("1")
    waiting = [file, beside]

    def saved_meanwhile(_: Path) -> Edition:
        page = (file.read_text() + beside.read_text()).encode()
        if waiting:
            waiting.pop().write_text("second")
        return Edition(pages={"index.html": page}, files=(file, beside, tmp_path / "none.csv"))

    pages = CurrentPages(file, saved_meanwhile)
    for _ in range(3):
        pages.refresh()
    assert pages.page("index.html") == b"secondsecond"


TRAVERSALS = [
    "/../secret.txt",
    "/..%2fsecret.txt",
    "/%2e%2e/secret.txt",
    "/S1/../../secret.txt",
    "/S1/%2e%2e%2f%2e%2e%2fsecret.txt",
    "/..\\secret.txt",
    "/%5c..%5csecret.txt",
    "//secret.txt",
    "/secret.txt",
    "/marram-quay.yaml",
    "/S1/index.html/",
    "/%00",
    "/S1/index.html%00.txt",
    "/....//secret.txt",
    "/file:///etc/passwd",
]


@pytest.mark.parametrize("path", TRAVERSALS)
def test_nothing_else_can_be_read(shared: Client, path: str) -> None:
    answer = shared.ask(path)
    assert answer.status == 404
    assert SECRET not in answer.text


@given(st.text(max_size=40))
def test_no_path_finds_more_than_what_was_made(shared: Client, path: str) -> None:
    answer = shared.ask(f"/{quote(path, safe='/.')}")
    assert answer.status in (200, 307, 404)
    assert SECRET not in answer.text


@pytest.mark.parametrize("host", ["evil.invalid", "localhost.evil.invalid", "127.0.0.1.evil.invalid", ""])
def test_other_names_for_this_machine_get_no_answer(shared: Client, host: str) -> None:
    """A foreign page may point a name of its own at this machine: it must not get at the pages by it."""
    answer = shared.ask("/", host=host)
    assert answer.status == 400
    assert "Marram Quay" not in answer.text


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS"])
def test_pages_can_only_be_read(shared: Client, method: str) -> None:
    assert shared.ask("/", method=method).status == 405


def test_pages_follow_the_description_as_it_is_edited(description: Path) -> None:
    served = client(description)
    assert "Marram Quay" in served.ask("/").text
    description.write_text(description.read_text().replace("railway: Marram Quay", "railway: Samphire Quay"))
    assert "Samphire Quay" in served.ask("/").text


def test_with_an_error_the_last_good_pages_stay_and_say_so(description: Path) -> None:
    served = client(description)
    before = served.ask("/S1/").text
    good = description.read_text()
    description.write_text(good.replace("strip: S1}", "strip: <b>S9</b>}"))
    after = served.ask("/S1/").text
    assert 'role="status"' in after
    assert "&lt;b&gt;S9&lt;/b&gt;" in after
    assert "<b>S9</b>" not in after
    description.write_text(good)
    assert served.ask("/S1/").text == before


def test_a_description_that_goes_away_and_comes_back(description: Path) -> None:
    served = client(description)
    good = description.read_text()
    served.ask("/")
    description.unlink()
    assert 'role="status"' in served.ask("/").text
    description.write_text(good)
    assert 'role="status"' not in served.ask("/").text


def test_pages_are_made_for_the_first_requests_and_not_for_each(description: Path) -> None:
    """Once to learn which files they are made from, and once from files that were looked at before."""
    made: list[Path] = []

    def counting(file: Path) -> Edition:
        made.append(file)
        return edition_of(file)

    served = Client(application(CurrentPages(description, counting), HOSTS))
    for _ in range(20):
        served.ask("/S1/")
    assert made == [description] * 2


def test_without_any_good_page_the_error_is_the_answer(tmp_path: Path) -> None:
    file = tmp_path / "bad.yaml"
    file.write_text("railway: [\n")
    answer = client(file).ask("/")
    assert answer.status == 404
    assert "line" in answer.text
