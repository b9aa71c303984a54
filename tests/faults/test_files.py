"""Files that are not what they should be, names that are odd, disks that are full."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from pathlib import Path

import pytest

from tests.engine.conftest import files_below
from tests.helpers import over

ROOT = Path(__file__).parents[2]
GOOD = over("I", "w 2d")


def run(
    *words: str, cwd: Path, file_limit: int | None = None, **environment: str
) -> subprocess.CompletedProcess[str]:
    """The command line in a process of its own, with a pack that costs nothing.

    `file_limit` is the most bytes that it may write to one file: a disk that fills up.
    """

    def limit() -> None:
        if file_limit is not None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (file_limit, file_limit))

    return subprocess.run(
        [sys.executable, "-m", "tests.cheap", *words],
        cwd=cwd,
        env=os.environ | {"PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"} | environment,
        capture_output=True, text=True, errors="surrogateescape", preexec_fn=limit, timeout=60,
    )  # fmt: skip


def slug_of(data: bytes, tmp_path: Path) -> str:
    """The one thing that `check` has to say of a file that holds this."""
    (tmp_path / "a.lesson").write_bytes(data)
    done = run("check", "a.lesson", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (1, "")
    (slug,) = {
        line.rpartition("[")[2][:-1] for line in done.stdout.splitlines() if ": error: " in line
    }
    return slug


def test_not_utf8(tmp_path: Path) -> None:
    assert slug_of(GOOD.encode().replace(b"Test", b"T\xe9st"), tmp_path) == "file-not-utf8"


def test_file_of_50_megabytes(tmp_path: Path) -> None:
    assert slug_of(b"a" * 50_000_000, tmp_path) == "file-too-large"


def test_nul_bytes(tmp_path: Path) -> None:
    """In a mark they make it unknown; in a text they reach no terminal and no printer."""
    assert slug_of(GOOD.encode().replace(b"2d", b"2\0d"), tmp_path) == "note-breath"
    (tmp_path / "a.lesson").write_bytes(GOOD.encode().replace(b"Test", b"T\0st"))
    done = run("check", "a.lesson", cwd=tmp_path)
    assert "\0" not in done.stdout


@pytest.mark.parametrize(
    "name", ["-x", "--out", "a b", "it's \"so\"", "$(x) `y`", "ça 日本 🎵", "new\nline", "x" * 240,
             os.fsdecode(b"n\xff")],
)  # fmt: skip
def test_odd_names(name: str, tmp_path: Path) -> None:
    """In a folder, and by themselves."""
    lessons = tmp_path / "lessons"
    lessons.mkdir()
    (lessons / f"{name}.lesson").write_text(GOOD)
    done = run("build", "lessons", "--out", "out", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (0, "")
    assert {f"{name}/tune.txt", f"{name}/cards/run.txt"} < set(files_below(tmp_path / "out"))
    alone = run("check", "--", f"{name}.lesson", cwd=lessons)
    assert (alone.returncode, alone.stderr) == (0, "")
    assert "\x1b" not in alone.stdout


@pytest.mark.parametrize("name", ["..lesson", "...lesson", "sub/...lesson"])
def test_name_that_would_lead_out_of_the_handouts(name: str, tmp_path: Path) -> None:
    path = tmp_path / "lessons" / name
    path.parent.mkdir(parents=True)
    path.write_text(GOOD)
    done = run("build", f"lessons/{name}", "--out", "deep/out", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "no folder can have its name" in done.stderr
    assert not (tmp_path / "deep").exists()


def test_hidden_files_and_links_out_of_the_folder_are_left_alone(tmp_path: Path) -> None:
    lessons, outside = tmp_path / "lessons", tmp_path / "outside"
    (lessons / ".kept").mkdir(parents=True)
    outside.mkdir()
    untidy = GOOD.replace("lick run", "lick    run")
    for path in (lessons / "a.lesson", lessons / ".b.lesson", lessons / ".kept" / "c.lesson",
                 outside / "d.lesson"):  # fmt: skip
        path.write_text(untidy)
    (lessons / "e.lesson").symlink_to(outside / "d.lesson")
    (lessons / "f").symlink_to(outside)
    done = run("tidy", "lessons", cwd=tmp_path)
    assert done.returncode == 0
    same = [path for path in tmp_path.rglob("*.lesson") if path.read_text() == untidy]
    assert (lessons / "a.lesson") not in same
    assert len({path.resolve() for path in same}) == 3


def test_file_that_vanishes(tmp_path: Path) -> None:
    """Named, but a link to nothing; and one that goes while the folder is worked on."""
    (tmp_path / "a.lesson").symlink_to("gone.lesson")
    (tmp_path / "b.lesson").write_text(GOOD)
    done = run("build", "a.lesson", "b.lesson", cwd=tmp_path)
    assert (done.returncode, "a.lesson" in done.stderr) == (2, True)


def test_file_that_may_not_be_read(tmp_path: Path) -> None:
    """A folder of that name, which even the system's own user cannot read as a file."""
    (tmp_path / "shelf").mkdir()
    (tmp_path / "shelf" / "s.licks").mkdir()
    (tmp_path / "a.lesson").write_text(GOOD.replace("lick run", "use a from s\nlick run"))
    done = run("check", "a.lesson", cwd=tmp_path)
    assert (done.returncode, "[shelf-unknown]" in done.stdout) == (1, True)


def test_disk_that_fills_up_leaves_the_handout_as_it_was(tmp_path: Path) -> None:
    (tmp_path / "a.lesson").write_text(GOOD)
    assert run("build", "a.lesson", cwd=tmp_path).returncode == 0
    whole = files_below(tmp_path / "handouts")
    (tmp_path / "a.lesson").write_text(GOOD.replace("2d", "3d"))
    done = run("build", "a.lesson", cwd=tmp_path, file_limit=500)
    assert (done.returncode, "not built; " in done.stderr) == (2, True)
    assert files_below(tmp_path / "handouts") == whole
    assert not list(tmp_path.rglob("*.part"))
    assert run("build", "a.lesson", cwd=tmp_path).returncode == 0
    assert files_below(tmp_path / "handouts") != whole


def test_full_disk_under_the_report(tmp_path: Path) -> None:
    (tmp_path / "a.lesson").write_text(GOOD)
    with open("/dev/full", "w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "formsheet", "check", str(tmp_path)],
            cwd=ROOT, stdout=full, stderr=subprocess.PIPE, text=True,
        )  # fmt: skip
    said = "formsheet: the output cannot be written: No space left on device\n"
    assert (done.returncode, done.stderr) == (2, said)


def test_full_disk_under_a_new_file_names_its_folder(tmp_path: Path) -> None:
    """A write that fails says by itself neither where nor to what."""
    (tmp_path / "a.lesson").write_text(GOOD.replace("lick run", "lick    run"))
    done = run("tidy", "a.lesson", cwd=tmp_path, file_limit=10)
    assert (done.returncode, done.stderr) == (2, f"formsheet: {tmp_path}: File too large\n")
    assert os.listdir(tmp_path) == ["a.lesson"]
    new = run("new", "b", cwd=tmp_path, file_limit=10)
    assert (new.returncode, new.stderr) == (2, "formsheet: b.lesson: File too large\n")
    assert os.listdir(tmp_path) == ["a.lesson"]


def test_temporary_folder_in_which_processes_cannot_meet(tmp_path: Path) -> None:
    """The path of a socket has 107 bytes at most (unix(7)): all is made by one process, slower."""
    for name in "abcd":
        (tmp_path / f"{name}.lesson").write_text(GOOD)
    deep = tmp_path / ("x" * 120)
    deep.mkdir()
    done = run("build", ".", "--jobs", "2", cwd=tmp_path, TMPDIR=str(deep))
    assert done.stderr.splitlines()[0] == (
        f"only one core is used, since processes cannot share the folder {deep} (AF_UNIX path too "
        "long); to use all cores, set TMPDIR to a folder with a short path that you may write to"
    )
    assert (done.returncode, "Traceback" in done.stderr) == (0, False)
    assert {f"{name}/tune.txt" for name in "abcd"} < set(files_below(tmp_path / "handouts"))


@pytest.mark.parametrize("out", ["/proc/handouts", "a.lesson/handouts"])
def test_folder_that_may_not_be_written_to(out: str, tmp_path: Path) -> None:
    """Of the system's own user as well: a file system, and a file, in which nothing is made."""
    (tmp_path / "a.lesson").write_text(GOOD)
    done = run("build", "a.lesson", "--out", out, cwd=tmp_path)
    assert (done.returncode, "not built; " in done.stderr) == (2, True)
    assert "Traceback" not in done.stderr


def test_folder_with_a_folder_where_a_file_should_go(tmp_path: Path) -> None:
    (tmp_path / "a.lesson").write_text(GOOD)
    (tmp_path / "handouts/a/tune.txt/mine").mkdir(parents=True)
    done = run("build", "a.lesson", cwd=tmp_path)
    assert (done.returncode, "not built; " in done.stderr) == (2, True)
    assert (tmp_path / "handouts/a/tune.txt/mine").is_dir()
    assert not list(tmp_path.rglob("*.part"))


def test_handout_that_another_build_works_on_is_waited_for(tmp_path: Path) -> None:
    from filelock import FileLock

    from formsheet.engine.place import LOCK

    (tmp_path / "a.lesson").write_text(GOOD)
    folder = tmp_path / "handouts/a"
    folder.mkdir(parents=True)
    with FileLock(folder / LOCK), pytest.raises(subprocess.TimeoutExpired):
        subprocess.run(
            [sys.executable, "-m", "tests.cheap", "build", str(tmp_path), "--out",
             str(tmp_path / "handouts")], cwd=ROOT, timeout=2, capture_output=True,
        )  # fmt: skip
    assert files_below(folder) == {}
    assert run("build", "a.lesson", cwd=tmp_path).returncode == 0


def test_index_of_another_page_stays_and_is_told(tmp_path: Path) -> None:
    (tmp_path / "a.lesson").write_text(GOOD)
    (tmp_path / "index.html").write_text("mine")
    done = run("build", "a.lesson", "--out", ".", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (0, "")
    assert "index.html was not made by formsheet; left alone" in done.stderr
    assert (tmp_path / "index.html").read_text() == "mine"
