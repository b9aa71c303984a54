"""What a lick is written for, told alike by every command, on the card and in the file."""

from __future__ import annotations

from pathlib import Path

import pytest

from formsheet.cli import main
from formsheet.judge.fit import judge_fit
from formsheet.lesson.asked import lick_asked_words
from formsheet.lesson.writing import lick_text
from formsheet.sheet.make_view import make_view
from tests.helpers import lesson_text, lick_of, only_problem, own_form, tune_of

ROWS = [
    ("I", "I", "w 2d"),
    ("I", "I", "w 2d | w 2d"),
    ("I | I", "I", "w 2d | w 2d"),
    ("I | V", "I | V", "w 2d | w 1d"),
    ("I | V | I", "I | V | I", "w 2d | w 1d | w 2d"),
    ("I V | I V", "I V", "h 2d 1d | h 2d 1d"),
    ("I, IV | I", "I, IV | I", "w 2d | w 2d"),
]


@pytest.mark.parametrize(("on", "words", "music"), ROWS)
def test_words(
    on: str, words: str, music: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bars = music.count("|") + 1
    chords = [bar.split(",")[0] for bar in on.split(" | ")]
    form = own_form(" | ".join(chords * (bars // len(chords))))
    text = lesson_text(f"lick run on {on}\n{music}\nplay\n  bars 1-{bars} run", form=form)
    lick = lick_of(text)
    assert lick_asked_words(lick) == words
    assert lick_text(lick).splitlines()[0].split() == f"lick run on {words}".split()
    tune = tune_of(text)
    assert make_view(tune, judge_fit(tune), "a.lesson").cards[0].on == f"on {words}"
    path = tmp_path / "a.lesson"
    path.write_text(text, encoding="utf-8")
    assert main(["fit", str(path)]) == 0
    assert f"written on {words};" in capsys.readouterr().out
    assert main(["uses", str(path), "--all"]) == 0
    assert f"  run   {words}  " in capsys.readouterr().out


@pytest.mark.parametrize(
    ("on", "music", "wider"),
    [
        ("I", "w 2d | w 2d | w 2d", "I, IV"),
        ("I | V | I", "w 2d | w 1d | w 2d", "I | V, IV | I"),
    ],
)
def test_the_offer_to_widen_is_told_so_too(on: str, music: str, wider: str) -> None:
    body = f"lick run on {on}\n{music}\nplay\n  bars 1-3 run"
    problem = only_problem(lesson_text(body, form=own_form("I | IV | I")))
    assert (problem.code, problem.fields["both"]) == ("lick-wrong-chord", wider)
