"""The lines of the bench: each says what is measured, against what, and which ratio is wanted.

The targets are those of the project's own list of wants for speed.
"""

from __future__ import annotations

import gc
import json
import re
import shutil
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from formsheet.engine.plan import plan
from formsheet.engine.tool import Tool
from formsheet.lesson.shelves import Shelves
from formsheet.sheet.fetcher import OwnFiles
from formsheet.sheet.make_view import make_view
from formsheet.sheet.options import Options
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.pdf.setting import IDENTIFIER, set_pdf
from formsheet.sheet.style import fixed_files
from formsheet.sheet.typeset import HOME, sheet_html, sheet_pdf
from formsheet.sheet.view import Sheet
from formsheet.stages import examine_file
from tests.bench.drawings import inlined, path_a_stroke, text_a_mark
from tests.bench.lessons import long_lesson, many
from tests.bench.measure import PYTHON, Row, best_of, run
from tests.lessons import LESSONS, NAMES, demo

LARK = [PYTHON, "-c", "import lark"]
SHEET = LESSONS / "back-step-shuffle.lesson"


def command(*words: object) -> list[str]:
    return [PYTHON, "-m", "formsheet", *map(str, words)]


def cheap(*words: object) -> list[str]:
    return [PYTHON, "-m", "tests.cheap", *map(str, words)]


def check_cold(room: Path, scale: float) -> Iterator[Row]:
    """`check` on one lesson in a process of its own."""
    run(command("check", SHEET))  # compiles the modules
    ours, lark = best_of(9, command("check", SHEET), LARK)
    yield Row("check, one lesson, cold", f"{ours.cpu:.3f} s", f"import lark {lark.cpu:.3f} s",
              ours.cpu / lark.cpu, 2.0, "processor time")  # fmt: skip


def render_warm(room: Path, scale: float) -> Iterator[Row]:
    """The drawing style: what each lever gives."""
    view = _view("back-step-shuffle")
    forms, drawn = Drawings(), Drawings(as_svg=True)
    ours, linked = (sheet_html(view, forms, linked=each) for each in (False, True))
    html = sheet_html(view, drawn)
    strokes, texts, both = (
        _changed(drawn.files, *changes)
        for changes in ((path_a_stroke,), (text_a_mark,), (path_a_stroke, text_a_mark))
    )
    took = _fastest(
        {
            "as it is": lambda: set_pdf(ours, forms, HOME),
            "style read anew": lambda: _set_bare(linked, forms.files, forms),
            "drawn by the setter, from images": lambda: _set_bare(html, drawn.files),
            "the same, a path a stroke": lambda: _set_bare(html, strokes),
            "the same, a text a mark": lambda: _set_bare(html, texts),
            "the same, inline": lambda: _set_bare(inlined(html, drawn.files), {}),
            "inline SVG a bar, a text a mark": lambda: _set_bare(inlined(html, both), {}),
        },
        rounds=5,
    )
    *levers, whole = took
    yield Row("sheet, warm render", f"{took['as it is']:.3f} s", f"{whole} {took[whole]:.3f} s",
              took["as it is"] / took[whole], 0.40, "processor time")  # fmt: skip
    for name in levers[1:]:
        yield Row(f"  {name}", f"{took[name]:.3f} s", "the same", took[name] / took[whole])


def _view(name: str) -> Sheet:
    each = demo(name)
    assert each.tune
    return make_view(each.tune, each.fits, each.file_name)


def _changed(files: dict[str, bytes], *changes: Callable[[str], str]) -> dict[str, bytes]:
    found = {}
    for name, data in files.items():
        svg = data.decode()
        for change in changes:
            svg = change(svg)
        found[name] = svg.encode()
    return found


def _set_bare(html: str, files: dict[str, bytes], forms: Drawings | None = None) -> None:
    """Set by WeasyPrint alone, which reads style sheet and faces anew."""
    from weasyprint import HTML

    own = {HOME + name: data for name, data in (fixed_files() | files).items()}
    HTML(string=html, base_url=HOME, url_fetcher=OwnFiles(own)).write_pdf(
        pdf_variant="pdf/ua-1", pdf_identifier=IDENTIFIER,
        finisher=forms.finish if forms else None,
    )  # fmt: skip


def _fastest(ways: dict[str, Callable[[], object]], rounds: int) -> dict[str, float]:
    took = dict.fromkeys(ways, float("inf"))
    for _ in range(rounds):
        for name, way in ways.items():
            gc.collect()
            began = time.process_time()
            way()
            took[name] = min(took[name], time.process_time() - began)
    return took


def build_cold(room: Path, scale: float) -> Iterator[Row]:
    """One sheet against a browser that prints the same page."""
    browser = shutil.which("chromium") or shutil.which("chromium-browser")
    if browser is None:
        yield Row("build of one sheet, cold", "", "no chromium here: not measured", None)
        return
    drawn = Drawings(as_svg=True)
    html = sheet_html(_view("back-step-shuffle"), drawn)
    page = room / "page.html"
    for name, data in (fixed_files() | drawn.files).items():
        (room / name).write_bytes(data.replace(b"formsheet:/", b""))
    page.write_text(html.replace(HOME, ""), encoding="utf-8")
    build = command("build", SHEET, "--only", "sheet", "--again", "--out", room / "cold")
    browse = [browser, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
              f"--user-data-dir={room / 'profile'}", f"--print-to-pdf={room / 'page.pdf'}",
              page.as_uri()]  # fmt: skip
    run(build), run(browse)
    ours, theirs = best_of(3, build, browse, memory=True)
    yield Row("build of one sheet, cold: time", f"{ours.wall:.2f} s",
              f"browser {theirs.wall:.2f} s", ours.wall / theirs.wall, 1.0)  # fmt: skip
    yield Row("build of one sheet, cold: memory", f"{ours.memory:.0f} MB",
              f"browser {theirs.memory:.0f} MB", ours.memory / theirs.memory, 1 / 3)  # fmt: skip


def sheets_warm(room: Path, scale: float) -> Iterator[Row]:
    """All that we do besides setting: language, assembly, judgement, templates, drawing."""
    ours = bare = 0.0
    count = max(8, int(100 * scale))
    for number in range(count):
        path = LESSONS / f"{NAMES[number % len(NAMES)]}.lesson"
        began = time.process_time()
        each = examine_file(path, path.name, Shelves(LESSONS))
        assert each.tune
        view = make_view(each.tune, each.fits, each.file_name)
        sheet_pdf(view)
        ours += time.process_time() - began
        drawn = Drawings(as_svg=True)
        html = sheet_html(view, drawn)
        began = time.process_time()
        _set_bare(html, drawn.files)
        bare += time.process_time() - began
    yield Row(f"{count} sheets in one process", f"{ours:.1f} s", f"bare WeasyPrint {bare:.1f} s",
              ours / bare, 1.10, "processor time")  # fmt: skip


def cores(room: Path, scale: float) -> Iterator[Row]:
    """Two processes at work against one."""
    count = max(8, int(100 * scale))
    lessons = many(room / "cores", count)
    build = command("build", lessons, "--only", "sheet", "--again", "--out", room / "o", "--jobs")
    two, one = run([*build, "2"]), run([*build, "1"])
    yield Row(f"{count} sheets on two cores", f"{two.wall:.1f} s", f"on one {one.wall:.1f} s",
              two.wall / one.wall, 1 / 1.8)  # fmt: skip


def nothing_changed(room: Path, scale: float) -> Iterator[Row]:
    """500 lessons looked at."""
    lessons = many(room / "many", 500)
    look = cheap("build", lessons, "--out", room / "handouts")
    run(look), run(look)
    ours, lark = best_of(7, look, LARK)
    yield Row("nothing changed, 500 lessons", f"{ours.cpu:.3f} s", f"import lark {lark.cpu:.3f} s",
              ours.cpu / lark.cpu, 3.0, "processor time")  # fmt: skip


def shelf_lick_changed(room: Path, scale: float) -> Iterator[Row]:
    """Which lessons are stale once a lick of a shelf has changed: those that take it."""
    from formsheet.commands.build import targets
    from formsheet.commands.files import jobs
    from tests.cheap import CHEAP

    lessons, out = room / "many", room / "handouts"
    shelf = lessons / "shelf" / "turnarounds.licks"
    uses = re.compile(r"^use .*\blow-lane\b.* from turnarounds$", re.MULTILINE)
    users = sum(bool(uses.search(p.read_text())) for p in lessons.glob("*.lesson"))
    work = targets(jobs([str(lessons)], (".lesson",)), out, tuple(CHEAP), Options())
    shelf.write_text(shelf.read_text().replace("2d'   1d", "2d'   2d", 1))
    began = time.process_time()
    stale = plan(work, Tool()).stale
    took = time.process_time() - began
    yield Row("one lick changed: lessons to make", f"{len(stale)}", f"that take it {users}",
              len(stale) / users, 1.0, f"found in {took:.3f} s")  # fmt: skip


def check_many(room: Path, scale: float) -> Iterator[Row]:
    """A thousand lessons against the bare parse of them; memory; how the cost grows."""
    sizes = [100, 300, 1000]
    folders = {size: many(room / f"check{size}", size) for size in sizes}
    begin = (
        "import sys, pathlib; from formsheet.language.tables import make_parser;"
        "p = make_parser(); files = sorted(pathlib.Path(sys.argv[1]).glob('*.lesson'));"
    )
    parse = [PYTHON, "-c", begin + "assert all(p.parse(f.read_text()) for f in files)"]
    kept = [PYTHON, "-c", begin + "trees = [p.parse(f.read_text()) for f in files]"]
    whole = command("check", folders[1000])
    ours, bare = best_of(3, whole, [*parse, str(folders[1000])])
    yield Row("check, 1000 lessons", f"{ours.wall:.1f} s", f"bare parse {bare.wall:.1f} s",
              ours.wall / bare.wall, 2.0, "by the clock, all cores")  # fmt: skip
    alone = {size: run(command("check", folders[size]), one_core=True) for size in sizes}
    keeps = run([*kept, str(folders[1000])])
    for name, other, most in (
        ("that keeps no tree", bare, 4.4), ("that keeps its trees", keeps, None),
    ):  # fmt: skip
        yield Row("  on one core", f"{alone[1000].cpu:.1f} s", f"parse {name} {other.cpu:.1f} s",
                  alone[1000].cpu / other.cpu, most, "processor time")  # fmt: skip
    found = run(command("check", many(room / "remarked", 1000, remarked=True)), one_core=True)
    yield Row("  with remarks, on one core", f"{found.cpu:.1f} s",
              f"parse that keeps no tree {bare.cpu:.1f} s", found.cpu / bare.cpu, None,
              "processor time")  # fmt: skip
    few, all_of_them = (run(command("check", folders[n]), memory=True) for n in (100, 1000))
    yield Row("check, memory of 1000 lessons", f"{all_of_them.memory:.0f} MB",
              f"of 100 {few.memory:.0f} MB", all_of_them.memory / few.memory, 1.1)  # fmt: skip
    start = run(command("check", SHEET)).cpu
    for size in sizes:
        yield Row(f"  {size} lessons on one core", f"{alone[size].cpu:.2f} s",
                  f"{1000 * (alone[size].cpu - start) / size:.1f} ms a lesson", None)  # fmt: skip
    for choruses in (1, 4, 16):
        path = long_lesson(room / f"long{choruses}.lesson", choruses)
        cost = run(command("check", path)).cpu - start
        notes = choruses * 12 * 8
        yield Row(f"  a lesson of {notes} notes", f"{cost:.2f} s more than a short one",
                  f"{1000 * cost / notes:.2f} ms a note", None)  # fmt: skip


def memory_of_many(room: Path, scale: float) -> Iterator[Row]:
    """Packs by the hundred."""
    count = max(20, int(500 * scale))
    few, all_of_them = (
        run(command("build", many(room / f"packs{n}", n), "--out", room / f"p{n}"), memory=True)
        for n in (5, count)
    )
    yield Row(f"memory of building {count} packs", f"{all_of_them.memory:.0f} MB",
              f"of 5 {few.memory:.0f} MB", all_of_them.memory / few.memory, 1.5)  # fmt: skip


CASES = (
    check_cold, render_warm, build_cold, sheets_warm, cores, nothing_changed, shelf_lick_changed,
    check_many, memory_of_many,
)  # fmt: skip


def machine() -> str:
    """Where this was measured, and with what."""
    import platform
    from importlib.metadata import version
    from os import cpu_count, getloadavg

    names = ("weasyprint", "lark", "jinja2", "filelock")
    libraries = ", ".join(f"{name} {version(name)}" for name in names)
    model = next(
        (line.partition(":")[2].strip() for line in Path("/proc/cpuinfo").read_text().splitlines()
         if line.startswith("model name")), platform.machine(),
    )  # fmt: skip
    load = json.dumps([round(each, 1) for each in getloadavg()])
    return (
        f"{model}, {cpu_count()} cores, load {load}; Python {sys.version.split()[0]}, {libraries}"
    )
