"""The output folder is written whole or not at all, over nobody else's files, whatever goes wrong and whenever."""

import errno
import os
import random
import shutil
import subprocess
import sys
from hashlib import sha256
from pathlib import Path

import pytest

from labelgen.problems import Severity
from labelgen.rendering import folder_exchange, folder_journal, made_list, output_folder
from labelgen.rendering.made_list import MADE_LIST, made_in
from labelgen.rendering.output_folder import write_folder

OLD = {"flags.pdf": b"old flags", "schedule/A1/index.html": b"old A1", "gone.pdf": b"old only"}
NEW = {"flags.pdf": b"new flags", "schedule/A1/index.html": b"new A1", "schedule/B/index.html": b"new only"}


def files_in(folder: Path) -> dict[str, bytes]:
    """All files by name, but our list and what a run that was interrupted left in its own hidden folder."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and path.name != MADE_LIST and folder_journal.PREFIX not in str(path)
    }


def list_of(files: dict[str, bytes]) -> bytes:
    return made_list.made_list_bytes({name: made_list.mark_of(content) for name, content in files.items()})


def codes(problems: list) -> list[str]:
    return [problem.code for problem in problems]


def test_a_new_folder_holds_the_files_and_nothing_is_left_beside_it(tmp_path: Path) -> None:
    assert write_folder(tmp_path / "out", OLD) == []
    assert files_in(tmp_path / "out") == OLD
    assert [path.name for path in tmp_path.iterdir()] == ["out"]
    assert made_in(tmp_path / "out").keys() == OLD.keys()


@pytest.mark.parametrize("foreign", [False, True])
def test_a_second_run_replaces_adds_and_removes_its_own_files(tmp_path: Path, foreign: bool) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    theirs = {"notes/mine.txt": b"mine"} if foreign else {}
    for name, content in theirs.items():
        (out / name).parent.mkdir()
        (out / name).write_bytes(content)
    assert write_folder(out, NEW) == []
    assert files_in(out) == NEW | theirs
    assert made_in(out).keys() == NEW.keys()
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


@pytest.mark.parametrize("foreign", [False, True])
def test_part_of_a_run_keeps_what_was_made_earlier(tmp_path: Path, foreign: bool) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    if foreign:
        (out / "mine.txt").write_bytes(b"mine")
    assert write_folder(out, {"flags.pdf": b"new flags"}, whole=False) == []
    theirs = {"mine.txt": b"mine"} if foreign else {}
    assert files_in(out) == OLD | {"flags.pdf": b"new flags"} | theirs
    assert made_in(out).keys() == OLD.keys()
    assert write_folder(out, NEW) == []
    assert files_in(out) == NEW | theirs


def test_empty_folders_of_removed_files_go_but_those_of_others_stay(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    (out / "empty").mkdir()
    assert write_folder(out, {"flags.pdf": b"x"}) == []
    assert sorted(path.name for path in out.iterdir()) == [MADE_LIST, "empty", "flags.pdf"]


def test_an_empty_folder_keeps_its_mode(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    out.chmod(0o750)
    assert write_folder(out, OLD) == []
    assert files_in(out) == OLD
    assert out.stat().st_mode & 0o777 == 0o750


def test_the_list_of_what_was_made_can_be_read(tmp_path: Path) -> None:
    write_folder(tmp_path / "out", {"b.pdf": b"b", "a/c.html": b"c"})
    text = (tmp_path / "out" / MADE_LIST).read_text(encoding="utf-8")
    assert [line.split("  ") for line in text.splitlines()[1:]] == [
        [sha256(b"c").hexdigest(), "a/c.html"],
        [sha256(b"b").hexdigest(), "b.pdf"],
    ]
    assert text.startswith("# Made by labelgen")


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="no sha256sum here")
def test_the_list_can_be_checked_by_another_program(tmp_path: Path) -> None:
    """GNU coreutils' sha256sum reads it, the remark at its top apart."""
    out = tmp_path / "out"
    write_folder(out, OLD)
    marks = (out / MADE_LIST).read_text(encoding="utf-8").partition("\n")[2]
    done = subprocess.run(
        ["sha256sum", "--check", "--strict"], cwd=out, input=marks, text=True, capture_output=True, check=False
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.count(": OK") == len(OLD)


@pytest.mark.parametrize("foreign", [False, True])
def test_a_file_that_was_changed_since_is_the_builders(tmp_path: Path, foreign: bool) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    if foreign:
        (out / "mine.txt").write_bytes(b"mine")
    (out / "flags.pdf").write_bytes(b"with my remarks")
    (out / "gone.pdf").write_bytes(b"with my remarks too")
    before = files_in(out)
    (problem,) = write_folder(out, NEW)
    assert problem.code == "not-our-file"
    assert "changed since" in problem.message
    assert files_in(out) == before, "nothing was written"
    (out / "flags.pdf").rename(out / "my flags.pdf")
    assert write_folder(out, NEW) == []
    theirs = {"my flags.pdf": b"with my remarks", "gone.pdf": b"with my remarks too"}
    assert files_in(out) == NEW | theirs | ({"mine.txt": b"mine"} if foreign else {}), "not removed either"
    assert made_in(out).keys() == NEW.keys()


def test_what_version_control_does_to_line_ends_is_no_change(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, {"wires.csv": b"one\ntwo\n", "cut-list.csv": b"one\r\ntwo\r\n"})
    (out / "wires.csv").write_bytes(b"one\r\ntwo\r\n")
    (out / "cut-list.csv").write_bytes(b"one\ntwo\n")
    assert write_folder(out, {"wires.csv": b"three\n", "cut-list.csv": b"three\n"}) == []


def test_a_list_of_an_earlier_version_has_no_marks_and_still_counts(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    (out / MADE_LIST).write_text("# Made by labelgen\n" + "".join(f"{name}\n" for name in OLD), encoding="utf-8")
    assert write_folder(out, NEW) == []
    assert files_in(out) == NEW


@pytest.mark.parametrize("foreign", [False, True])
def test_a_part_of_the_folder_is_whole_by_itself(tmp_path: Path, foreign: bool) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    if foreign:
        (out / "mine.txt").write_bytes(b"mine")
    theirs = {"mine.txt": b"mine"} if foreign else {}
    first = {"changed/flags.pdf": b"some", "changed/tags.pdf": b"some"}
    assert write_folder(out, first, inside="changed/") == []
    assert files_in(out) == OLD | first | theirs
    assert write_folder(out, {"changed/flags.pdf": b"others"}, inside="changed/") == []
    assert files_in(out) == OLD | {"changed/flags.pdf": b"others"} | theirs
    assert write_folder(out, {}, inside="changed/") == []
    assert files_in(out) == OLD | theirs
    assert not (out / "changed").exists()


def test_a_file_that_we_did_not_make_is_in_the_way_and_nothing_is_written(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "flags.pdf").write_bytes(b"the builder's own")
    (out / "schedule").write_bytes(b"a file where a folder should go")
    problems = write_folder(out, NEW)
    assert codes(problems) == ["not-our-file", "not-our-file"]
    assert {Path(p.place.file).name for p in problems} == {"flags.pdf", "schedule"}
    assert all(p.severity is Severity.ERROR for p in problems)
    assert "did not make it" in problems[0].message
    assert files_in(out) == {"flags.pdf": b"the builder's own", "schedule": b"a file where a folder should go"}


def test_a_folder_or_a_link_in_the_way_is_not_ours(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    out = tmp_path / "out"
    write_folder(out, OLD)
    (out / "flags.pdf").unlink()
    (out / "flags.pdf").mkdir()
    (out / "schedule").rename(tmp_path / "moved")
    (out / "schedule").symlink_to(elsewhere)
    problems = write_folder(out, NEW)
    assert codes(problems) == ["not-our-file", "not-our-file"]
    assert {Path(p.place.file).name for p in problems} == {"flags.pdf", "schedule"}
    assert list(elsewhere.iterdir()) == []


def test_a_link_is_never_followed_out_of_the_folder_to_remove_something(tmp_path: Path) -> None:
    out, elsewhere = tmp_path / "out", tmp_path / "elsewhere"
    write_folder(out, OLD)
    (out / "schedule").rename(elsewhere)
    (out / "schedule").symlink_to(elsewhere)
    assert write_folder(out, {"flags.pdf": b"x"}) == []
    assert (elsewhere / "A1" / "index.html").read_bytes() == b"old A1"
    assert (out / "schedule").is_symlink()


def test_our_list_itself_may_be_in_the_way(tmp_path: Path) -> None:
    out = tmp_path / "out"
    (out / MADE_LIST).mkdir(parents=True)
    assert codes(write_folder(out, NEW)) == ["not-our-file"]


def test_a_list_that_was_tampered_with_names_nothing_outside(tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (tmp_path / "precious").write_bytes(b"x")
    (out / MADE_LIST).write_bytes(b"../precious\n/etc/hosts\n\n.\na//b\n.labelgen-made\n\xff\nok.pdf\n")
    assert made_in(out).keys() == {"ok.pdf", "\ufffd"}
    assert write_folder(out, NEW) == []
    assert (tmp_path / "precious").read_bytes() == b"x"


@pytest.mark.parametrize("name", ["../x", "/x", "", ".", "a/../b", "a//b", "a\nb", "a\0b", "a\\b", ".labelgen-made"])
def test_names_that_lead_out_are_a_fault_of_the_program(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="not a name inside"):
        write_folder(tmp_path / "out", {name: b""})
    assert list(tmp_path.iterdir()) == []


def test_the_folder_may_be_reached_by_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    assert write_folder(tmp_path / "link", OLD) == []
    assert (tmp_path / "link").is_symlink()
    assert files_in(tmp_path / "real") == OLD


def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "out").write_bytes(b"x")
    (problem,) = write_folder(tmp_path / "out", OLD)
    assert problem.code == "cannot-write"
    assert "a file of that name" in problem.message
    assert (tmp_path / "out").read_bytes() == b"x"


def test_a_parent_that_is_missing_or_a_file(tmp_path: Path) -> None:
    (problem,) = write_folder(tmp_path / "no" / "out", OLD)
    assert problem.code == "cannot-write"
    assert "does not exist" in problem.message
    (tmp_path / "file").write_bytes(b"")
    (problem,) = write_folder(tmp_path / "file" / "out", OLD)
    assert "where a folder should be" in problem.message


def test_a_folder_that_may_not_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_folder(tmp_path / "out", OLD)
    monkeypatch.setattr(os, "access", lambda *_: False)  # the tests may run as root, who may everything
    (problem,) = write_folder(tmp_path / "out", NEW)
    assert "not allowed" in problem.message
    assert files_in(tmp_path / "out") == OLD


@pytest.mark.parametrize(
    ("number", "words"), [(errno.ENOSPC, "no room left"), (errno.EROFS, "only be read"), (errno.EIO, "input/output")]
)
def test_reasons_are_given_in_plain_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int, words: str
) -> None:
    def full(_: int) -> None:
        raise OSError(number, os.strerror(number))

    write_folder(tmp_path / "out", OLD)
    monkeypatch.setattr(os, "fsync", full)
    for target in (tmp_path / "out", tmp_path / "fresh"):
        (problem,) = write_folder(target, NEW)
        assert words in problem.message
    assert files_in(tmp_path / "out") == OLD
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_fault_without_a_reason(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fault(_: int) -> None:
        raise OSError

    monkeypatch.setattr(os, "fsync", fault)
    (problem,) = write_folder(tmp_path / "out", NEW)
    assert "no reason" in problem.message


STEPS = ["mkdir", "rename", "replace", "link", "unlink", "rmdir", "chmod", "fsync"]


class Faults:
    """Counts the calls of the system that change something, and fails a chosen one, or all from it on."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, fault: BaseException, *, lasting: bool) -> None:
        self.calls, self.at, self.fault, self.lasting = 0, 0, fault, lasting
        monkeypatch.setattr(os, "fsync", lambda _: None)  # the disk itself is not what is tried here, and slow
        for name in STEPS:
            monkeypatch.setattr(os, name, self._counted(getattr(os, name)))
        monkeypatch.setattr(folder_exchange, "exchange", self._counted(folder_exchange.exchange))

    def _counted(self, real):
        def call(*args, **options):
            self.calls += 1
            if self.at and (self.calls == self.at or (self.lasting and self.calls > self.at)):
                raise self.fault
            return real(*args, **options)

        return call


@pytest.mark.parametrize("foreign", [False, True])
@pytest.mark.parametrize(
    ("fault", "lasting"),
    [(OSError(errno.EIO, "broken"), False), (OSError(errno.EIO, "broken"), True), (KeyboardInterrupt(), False)],
)
def test_a_fault_at_any_step_leaves_the_old_or_the_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, foreign: bool, fault: BaseException, lasting: bool
) -> None:
    theirs = {"mine.txt": b"mine"} if foreign else {}
    seen = set()
    with monkeypatch.context() as patched:
        faults = Faults(patched, fault, lasting=lasting)
        for at in range(1, 200):
            faults.at = 0
            out = tmp_path / str(at) / "out"
            out.parent.mkdir()
            write_folder(out, OLD)
            for name, content in theirs.items():
                (out / name).write_bytes(content)
            faults.calls, faults.at = 0, at
            try:
                problems = write_folder(out, NEW)
            except KeyboardInterrupt:
                problems = []
            finished = faults.calls < at
            faults.at = 0
            if lasting and foreign:  # a disk that stays broken while files are being put back: the next run does it
                write_folder(out, {}, whole=False)
            content = files_in(out)
            assert content in (OLD | theirs, NEW | theirs), (at, problems)
            if problems and not lasting:
                assert content == OLD | theirs, (at, problems)
            seen.add(content == NEW | theirs)
            assert write_folder(out, NEW) == []
            assert files_in(out) == NEW | theirs
            assert [path.name for path in out.parent.iterdir()] == ["out"], at
            assert not [path for path in out.iterdir() if "making" in path.name], at
            if finished:
                break
        else:
            pytest.fail("never came to an end")
    assert seen == {True, False}
    assert at > 15


KILLED = """
import os, signal, sys
sys.path.insert(0, {here!r})
from pathlib import Path
from test_output_folder import NEW, OLD, STEPS, files_in
from labelgen.rendering import folder_exchange
from labelgen.rendering.output_folder import write_folder

theirs = {theirs!r}
os.fsync = lambda _: None
seen = set()
for at in range(1, 200):
    out = Path({folder!r}) / str(at) / "out"
    out.parent.mkdir(parents=True)
    write_folder(out, OLD)
    for name, content in theirs.items():
        (out / name).write_bytes(content)
    child = os.fork()
    if not child:
        calls = 0
        def counted(real):
            def call(*args, **options):
                global calls
                calls += 1
                if calls == at:
                    os.kill(os.getpid(), signal.SIGKILL)
                return real(*args, **options)
            return call
        for name in STEPS:
            setattr(os, name, counted(getattr(os, name)))
        folder_exchange.exchange = counted(folder_exchange.exchange)
        write_folder(out, NEW)
        os._exit(0)
    _, status = os.waitpid(child, 0)
    if theirs:  # files of others in the folder: the next run, whatever it makes, completes or undoes
        assert write_folder(out, {{}}, whole=False) == []
    content = files_in(out)
    assert content in (OLD | theirs, NEW | theirs), (at, content)
    seen.add(content == NEW | theirs)
    assert write_folder(out, NEW) == []
    assert files_in(out) == NEW | theirs, at
    assert [path.name for path in out.parent.iterdir()] == ["out"], at
    assert not [path for path in out.iterdir() if "making" in path.name], at
    if status == 0:
        break
assert seen == {{True, False}}
print(at)
"""


@pytest.mark.parametrize("theirs", [{}, {"mine.txt": b"mine"}])
def test_a_kill_at_any_step_leaves_the_old_or_the_new(tmp_path: Path, theirs: dict[str, bytes]) -> None:
    program = KILLED.format(here=str(Path(__file__).parent), folder=str(tmp_path), theirs=theirs)
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr
    assert int(done.stdout) > 15


ENDLESS = """
import sys
from pathlib import Path
from labelgen.rendering.output_folder import write_folder
print("ready", flush=True)
n = 0
while True:
    n += 1
    assert write_folder(Path({folder!r}), {{f"{{i}}/part.txt": str(n).encode() * 999 for i in range(9)}}) == []
"""


def test_a_kill_at_any_time_leaves_one_whole_run(tmp_path: Path) -> None:
    out = tmp_path / "out"
    chance = random.Random(8)
    for _ in range(8):
        program = [sys.executable, "-c", ENDLESS.format(folder=str(out))]
        with subprocess.Popen(program, stdout=subprocess.PIPE) as run:
            assert run.stdout is not None
            run.stdout.readline()
            with pytest.raises(subprocess.TimeoutExpired):
                run.wait(0.02 + chance.random() * 0.1)
            run.kill()
        if out.exists():
            assert len(set(files_in(out).values())) == 1
            assert len(files_in(out)) == 9
    assert write_folder(out, OLD) == []
    assert files_in(out) == OLD
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


BOTH = """
import sys
from pathlib import Path
from labelgen.rendering.output_folder import write_folder
for n in range(6):
    assert write_folder(Path({folder!r}), {{f"{{i}}/part.txt": f"{who} {{n}}".encode() for i in range(9)}}) == []
"""


@pytest.mark.parametrize("foreign", [False, True])
def test_two_runs_at_once_do_not_mix(tmp_path: Path, foreign: bool) -> None:
    out = tmp_path / "out"
    if foreign:
        out.mkdir()
        (out / "mine.txt").write_bytes(b"mine")
    runs = [
        subprocess.Popen([sys.executable, "-c", BOTH.format(folder=str(out), who=who)], stderr=subprocess.PIPE)
        for who in "AB"
    ]
    for run in runs:
        _, errors = run.communicate(timeout=60)
        assert run.returncode == 0, errors
    content = files_in(out)
    assert content.pop("mine.txt", b"mine") == b"mine"
    assert len(content) == 9
    assert len(set(content.values())) == 1
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def no_lock(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: int) -> None:
        raise OSError(errno.ENOLCK, "no locks here")

    monkeypatch.setattr("fcntl.flock", refuse)


def a_dead_process() -> int:
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    return gone.pid


def test_without_locks_only_what_dead_runs_left_is_cleared(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    no_lock(monkeypatch)
    dead, living = tmp_path / f".out.making-{a_dead_process()}", tmp_path / f".out.making-{os.getppid()}"
    for staging in (dead, living):
        staging.mkdir()
    (tmp_path / ".out.making-of").mkdir()
    assert write_folder(tmp_path / "out", OLD) == []
    assert write_folder(tmp_path / "out", NEW) == []
    assert files_in(tmp_path / "out") == NEW
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted([living.name, ".out.making-of", "out"])


def test_without_locks_a_living_run_inside_the_folder_is_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    no_lock(monkeypatch)
    write_folder(tmp_path / "out", OLD)
    (tmp_path / "out" / f"{folder_journal.PREFIX}{os.getppid()}").mkdir()
    (problem,) = write_folder(tmp_path / "out", NEW)
    assert "another run" in problem.message


def test_a_parent_that_cannot_be_opened_is_no_hindrance(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> int:
        raise PermissionError(errno.EACCES, "not to be listed")

    monkeypatch.setattr(os, "open", refuse)
    assert write_folder(tmp_path / "out", OLD) == []
    assert files_in(tmp_path / "out") == OLD


@pytest.mark.parametrize("killed_again", [False, True])
def test_what_was_being_put_back_is_put_back_by_the_next_run(tmp_path: Path, killed_again: bool) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    journal = out / f"{folder_journal.PREFIX}{a_dead_process()}"
    journal.mkdir()
    folder_journal._stage(journal, out, {**NEW, MADE_LIST: list_of(NEW)}, ("gone.pdf",))
    folder_journal._forward(out, journal)
    assert files_in(out) == NEW
    (journal / "back").write_bytes(b"")
    if killed_again:
        folder_journal._back(out, journal)
    assert write_folder(out, {}, whole=False) == []
    assert files_in(out) == OLD
    assert made_in(out).keys() == OLD.keys()


def test_a_process_of_somebody_else_is_alive(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: int) -> None:
        raise PermissionError

    monkeypatch.setattr(os, "kill", refuse)
    assert output_folder._is_alive(Path(".out.making-1"))


def test_a_folder_that_cannot_be_listed_has_nothing_left_behind(tmp_path: Path) -> None:
    assert output_folder._of_other_runs(tmp_path / "none", "x") == []


@pytest.mark.parametrize("number", [errno.ENOSYS, errno.EBUSY])
def test_where_folders_cannot_be_exchanged_files_are(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: int
) -> None:
    def refuse(*_: Path) -> None:
        raise OSError(number, "not here")

    write_folder(tmp_path / "out", OLD)
    monkeypatch.setattr(folder_exchange, "exchange", refuse)
    before = (tmp_path / "out").stat().st_ino
    assert write_folder(tmp_path / "out", NEW) == []
    assert files_in(tmp_path / "out") == NEW
    assert (tmp_path / "out").stat().st_ino == before


def test_an_exchange_that_fails_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(FileNotFoundError):
        folder_exchange.exchange(tmp_path / "a", tmp_path / "b")
    monkeypatch.setattr(sys, "platform", "other")
    with pytest.raises(OSError, match=os.strerror(errno.ENOSYS)):
        folder_exchange.exchange(tmp_path / "a", tmp_path / "b")


def test_a_folder_of_another_owner_keeps_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_folder(tmp_path / "out", OLD)
    monkeypatch.setattr(folder_exchange, "_take_owner_and_mode", lambda *_: False)
    before = (tmp_path / "out").stat().st_ino
    assert write_folder(tmp_path / "out", NEW) == []
    assert (tmp_path / "out").stat().st_ino == before


def test_another_owner_is_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    class Stat:
        st_uid, st_gid, st_mode = 1, 2, 0o755

    (tmp_path / "a").mkdir()
    real = Path.stat
    monkeypatch.setattr(Path, "stat", lambda self: Stat() if self.name == "b" else real(self))
    assert not folder_exchange._take_owner_and_mode(tmp_path / "a", tmp_path / "b")


def test_the_folder_that_we_stand_in_stays_itself(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_folder(tmp_path / "out", OLD)
    monkeypatch.chdir(tmp_path / "out")
    assert write_folder(Path(), NEW) == []
    assert files_in(Path.cwd()) == NEW


def test_a_current_folder_that_is_gone_does_not_matter(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def gone() -> Path:
        raise FileNotFoundError

    write_folder(tmp_path / "out", OLD)
    monkeypatch.setattr(Path, "cwd", gone)
    assert write_folder(tmp_path / "out", NEW) == []


def test_what_was_put_into_the_old_folder_at_the_last_instant_goes_over(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    real = folder_exchange.exchange

    def late(one: Path, other: Path) -> None:
        (out / "late.txt").write_bytes(b"late")
        (out / "schedule" / "A1" / "late.txt").write_bytes(b"late too")
        (out / "schedule" / "B").mkdir()
        (out / "schedule" / "B" / "index.html").write_bytes(b"no place for this")
        real(one, other)

    monkeypatch.setattr(folder_exchange, "exchange", late)
    assert write_folder(out, NEW) == []
    assert files_in(out) == NEW | {"late.txt": b"late", "schedule/A1/late.txt": b"late too"}
    (kept,) = (path for path in tmp_path.iterdir() if path.name != "out")
    assert files_in(kept) == {"schedule/B/index.html": b"no place for this"}


def test_what_cannot_be_linked_is_copied(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise OSError(errno.EPERM, "no links here")

    write_folder(tmp_path / "out", OLD)
    monkeypatch.setattr(os, "link", refuse)
    assert write_folder(tmp_path / "out", {"flags.pdf": b"x"}, whole=False) == []
    assert files_in(tmp_path / "out") == OLD | {"flags.pdf": b"x"}


def test_a_builders_file_with_an_old_name_is_not_removed_when_completing(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    journal = out / f"{folder_journal.PREFIX}{a_dead_process()}"
    journal.mkdir()
    folder_journal._stage(journal, out, {**NEW, MADE_LIST: list_of(NEW)}, ("gone.pdf",))
    (journal / "go").write_bytes(b"")
    (out / "gone.pdf").unlink()
    (out / "gone.pdf").write_bytes(b"the builder's")
    assert write_folder(out, NEW) == []
    assert files_in(out) == NEW | {"gone.pdf": b"the builder's"}


def test_a_builders_file_that_came_between_is_not_overwritten_when_completing(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, OLD)
    journal = out / f"{folder_journal.PREFIX}{a_dead_process()}"
    journal.mkdir()
    content = {**NEW, MADE_LIST: list_of(NEW)}
    folder_journal._stage(journal, out, content, ("gone.pdf",))
    (journal / "go").write_bytes(b"")
    (out / "schedule" / "B").mkdir()
    (out / "schedule" / "B" / "index.html").write_bytes(b"the builder's")
    assert codes(write_folder(out, NEW)) == ["not-our-file"]
    assert files_in(out) == OLD | {"schedule/B/index.html": b"the builder's"}


def a_planted_journal(out: Path, plan: bytes | None, mark: str = "go") -> Path:
    journal = out / f"{folder_journal.PREFIX}{a_dead_process()}"
    for name in ("new", "old"):
        (journal / name).mkdir(parents=True)
    (journal / mark).write_bytes(b"")
    if plan is not None:
        (journal / "plan.json").write_bytes(plan)
    return journal


NO_PLANS = [
    None,
    b"",
    b"{",
    b"\xff",
    b"[" * 100_000,
    b"[]",
    b"{}",
    b'{"new": [], "gone": 1}',
    b'{"new": [1], "gone": []}',
    b'{"new": ["a\\ud800"], "gone": []}',
    b'{"new": ["../precious.txt"], "gone": []}',
    b'{"new": [], "gone": ["../precious.txt"]}',
    b'{"new": [".labelgen-making-1/go"], "gone": []}',
]


@pytest.mark.parametrize("mark", ["go", "back"])
@pytest.mark.parametrize("plan", NO_PLANS)
def test_a_journal_that_is_none_of_ours_is_cleared_and_does_nothing(
    tmp_path: Path, plan: bytes | None, mark: str
) -> None:
    """It may have come with the folder, from somebody else."""
    out = tmp_path / "out"
    write_folder(out, OLD)
    (tmp_path / "precious.txt").write_bytes(b"precious")
    journal = a_planted_journal(out, plan, mark)
    (journal / "precious.txt").write_bytes(b"evil")  # new/../precious.txt, and old/../precious.txt
    assert write_folder(out, NEW) == []
    assert (tmp_path / "precious.txt").read_bytes() == b"precious"
    assert files_in(out) == NEW
    assert not journal.exists()


@pytest.mark.parametrize(
    ("link", "mark"),
    [("new", "go"), ("old", "back"), ("new/sub", "go"), ("plan.json", "go"), ("target", "go"), ("target", "back")],
)
def test_a_journal_with_links_is_not_followed(tmp_path: Path, link: str, mark: str) -> None:
    out, elsewhere = tmp_path / "out", tmp_path / "elsewhere"
    write_folder(out, OLD)
    elsewhere.mkdir()
    (elsewhere / "sub").mkdir()
    for precious in (elsewhere / "x", elsewhere / "sub" / "x"):
        precious.write_bytes(b"precious")
    plan = b'{"new": ["sub/x"], "gone": []}'
    (elsewhere / "plan.json").write_bytes(plan)
    journal = a_planted_journal(out, None if link == "plan.json" else plan, mark)
    place = out / "sub" if link == "target" else journal / link
    if link in ("target", "plan.json"):
        for name in ("new", "old") if mark == "back" else ("new",):
            (journal / name / "sub").mkdir()
            (journal / name / "sub" / "x").write_bytes(b"evil")
    elif link in ("new", "old"):
        place.rmdir()
    place.symlink_to(elsewhere / link if link == "plan.json" else elsewhere)
    write_folder(out, NEW)
    assert files_in(out) == NEW
    assert files_in(elsewhere) == {"x": b"precious", "sub/x": b"precious", "plan.json": plan}
    assert not journal.exists()
