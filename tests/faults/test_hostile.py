"""Lessons that mean harm: text that would be markup, files that are not theirs to read."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from formsheet.lesson.shelves import Shelves
from formsheet.sheet.fetcher import OwnFiles
from formsheet.sheet.make_view import make_view
from formsheet.sheet.pdf.drawings import Drawings
from formsheet.sheet.typeset import sheet_html, sheet_pdf
from formsheet.sheet.view import Sheet
from formsheet.source import Source
from formsheet.stages import Examined, examine, examine_file
from tests.helpers import examined, lesson_text, over, own_form

#: Each is markup, a style, a template, or a line of XML for somebody.
HARM = (
    "<img src=file:///etc/hostname>",
    "</style><script>alert(1)</script>",
    "<link rel=stylesheet href=//a.example/x.css>",
    "&lt;b&gt; &amp; ]]> <!-- --> <?xml?>",
    "{{ 7 * 7 }} {% include 'x' %} ${7}",
    "url(file:///etc/hostname) } body { display: none",
    "</text></svg><image href='file:///etc/hostname'/>",
)


def hostile_text(text: str) -> str:
    """A lesson that says it wherever a text may stand."""
    quoted = text.replace('"', "'")
    body = (
        f'lick run "{quoted}" on I\n  h 2d"{"".join(quoted.split())[:12]}" 3d\n  tip {quoted}\n'
        f'play "{quoted}"\n  every I run'
    )
    form = own_form("I").replace('"Own"', f'"{quoted}"')
    return lesson_text(body, title=quoted, teacher=quoted, rights=quoted, date=quoted, say=quoted,
                       form=form)  # fmt: skip


def hostile(text: str) -> Examined:
    """That lesson, read and judged."""
    return examined(hostile_text(text))


def sheet_of(each: Examined) -> Sheet:
    assert each.tune, [problem.code for problem in each.problems]
    return make_view(each.tune, each.fits, f"{each.file_name}<b>")


@pytest.mark.parametrize("text", HARM)
def test_text_of_a_lesson_is_text_on_the_sheet(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    fetched: list[str] = []
    fetch = OwnFiles.fetch

    def watched(self: OwnFiles, url: str, headers: object = None) -> object:
        fetched.append(url)
        return fetch(self, url)

    monkeypatch.setattr(OwnFiles, "fetch", watched)
    sheet = sheet_of(hostile(text))
    reader = PdfReader(io.BytesIO(sheet_pdf(sheet)))
    printed = "".join("".join(page.extract_text().split()) for page in reader.pages)
    assert "".join(text.split()) in printed.replace("’", "'")
    assert reader.metadata
    assert reader.metadata.title == text.replace('"', "'")
    assert {url.partition("/")[0] for url in fetched} == {"formsheet:"}


def test_characters_that_no_page_can_hold(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    """Control characters and non-characters: a terminal obeys them, XML has none of them."""
    path = tmp_path / "a.lesson"
    text = over("I", 'w 2d"X"', title="X").replace("X", "a\0b\x01c\x0bd\x1be\ufffef\x9fg")
    path.write_text(text, encoding="utf-8")
    each = examine_file(path, "a.lesson", Shelves(tmp_path))
    assert each.lesson
    assert each.lesson.facts.title == "a�b�c�d�e�f�g"
    assert sheet_pdf(sheet_of(each)).startswith(b"%PDF-")
    assert "Failed to load" not in caplog.text


def test_nothing_of_it_is_markup() -> None:
    plain, harmed = (sheet_html(sheet_of(hostile(text)), Drawings()) for text in ("Plain", HARM[0]))
    assert plain.count("<img") == harmed.count("<img")
    assert "<img src=file" not in harmed


@pytest.mark.parametrize(
    "url", ["file:///etc/hostname", "http://127.0.0.1/", "data:text/plain,x", "formsheet:/../x",
            "formsheet:/etc/hostname", "sheet.css", ""],
)  # fmt: skip
def test_fetcher_serves_nothing_but_its_own(url: str) -> None:
    with pytest.raises(ValueError, match="not a file of this sheet"):
        OwnFiles({"formsheet:/sheet.css": b""}).fetch(url)


@pytest.mark.parametrize(
    "name",
    ["../secret", "/etc/hostname", "..", "sub/secret", "secret.licks/../../x", "link", "linked/x"],
)
def test_shelves_outside_the_lessons_folder_are_not_read(name: str, tmp_path: Path) -> None:
    home = tmp_path / "lessons"
    (home / "shelf").mkdir(parents=True)
    secret = tmp_path / "secret.licks"
    secret.write_text("lick a on I\n  w 2d\n")
    (home / "shelf" / "link.licks").symlink_to(secret)
    (home / "shelf" / "linked").symlink_to(tmp_path)
    text = lesson_text(f"use a from {name}\nplay\n  every I a", form=own_form("I"))
    source = Source("a.lesson", text, home / "a.lesson")
    each = examine(source, Shelves(home))
    assert each.tune is None
    assert {p.code for p in each.problems} & {"shelf-outside", "shelf-unknown", "word-unknown",
                                               "line-unfinished"}  # fmt: skip


@pytest.mark.parametrize(
    "music",
    ["[ " * 3000 + "q 2d " + "]x2 " * 3000, "[[[[ q 2d ]x64 ]x64 ]x64 ]x64", "[ q 2d ]x9999",
     "q " + "2d " * 30_000, "q 2d" + "'" * 50_000, "1" * 90_000, "[ q 2d ]x" + "9" * 90_000],
)  # fmt: skip
def test_lesson_that_multiplies_itself_ends_at_once(music: str) -> None:
    each = examined(lesson_text(f"lick run on I\n  {music}\nplay\n  every I run"))
    assert not each.in_order


def test_licks_that_multiply_together_are_told() -> None:
    licks = "".join(f"lick a{n} on I\n  [ [ s 2d ]x16 | ]x40\n" for n in range(100))
    slugs = [p.code for p in examined(lesson_text(f"{licks}play\n  every I a0")).problems]
    assert slugs.count("file-too-long") == 1


@pytest.mark.parametrize("fact", ["tempo", "learn", "count_in", "position", "feel", "meter"])
def test_numbers_without_end(fact: str) -> None:
    for number in (
        "9" * 5000,
        "1" * 20_000 + ".5",
        "1/" + "9" * 5000,
        "swing " + "9" * 5000 + ":1",
    ):
        assert not examined(lesson_text("play\n  bars 1-12 rest", **{fact: number})).in_order
