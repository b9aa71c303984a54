"""A teacher with a plain editor: each slip is told where it stands, once, and nothing else is.

Every case is the good lesson with one thing written in another way.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from formsheet.lesson.shelves import Shelves
from formsheet.problems.drawing import drawn, hint_texts
from formsheet.problems.problem import Severity
from formsheet.stages import examine_file
from tests.helpers import examined, only_problem, problems_of, slugs_of
from tests.problems.test_many import GOOD

CREEK = "  q 4b 5b 6b 5b\n"
TEMPO = "tempo  96\n"
PLAY = GOOD[GOOD.index("play\n") :]
PLACED = "  bars 1-4   porch x4\n"


def instead(right: str, wrong: str) -> str:
    assert GOOD.count(right) == 1, right
    return GOOD.replace(right, wrong)


def creek(music: str) -> str:
    return instead(CREEK, f"  {music}\n")


def fact(line: str) -> str:
    return instead(TEMPO, f"{TEMPO}{line}\n")


def own_form(bars: str) -> str:
    return instead("form   12-bar standard\n", f'form "Own"\n{bars}\n')


def one_lick(first_line: str) -> str:
    return instead("lick porch on I", first_line)


def timed(rhythm: str) -> str:
    """The lick on I in the rhythm `steps`."""
    music = "lick porch on I\n  q 2d e 3d' 3d q 4d 2d\n"
    return instead(music, f"{rhythm}\nlick porch on I in steps\n  2d 3d' 3d 4d\n")


def placed(line: str) -> str:
    return instead(PLACED, f"  {line}\n")


def home(on: str, bars: str = "11-12") -> str:
    """A turnaround of two bars besides."""
    lick = f"turnaround home on {on}\n  q 2d 3d 4d 2d | q 1d 4d 4b 1d\n\n"
    return GOOD.replace("play\n", f"{lick}play\n") + f"  bars {bars} home\n"


# ---- What is read as it is meant -------------------------------------------------------------

FINE = {
    "curly quotes": one_lick("lick porch “Front porch” on I"),
    "quotes that do not match": one_lick('lick porch “Front porch" on I'),
    "German quotes": one_lick("lick porch „Front porch“ on I"),
    "French quotes": one_lick("lick porch «\u00a0Front porch\u00a0» on I"),
    "Danish quotes": one_lick("lick porch »Front porch« on I"),
    "Swedish quotes": one_lick("lick porch ”Front porch” on I"),
    "a syllable as a word processor quotes it": creek("q 4b”ka” 5b„la“ 6b«ti» 5b"),
    "hyphens that keep a line together": placed("bars 1\u20114 porch").replace(
        "12-bar", "12\u2011bar"
    ),
    "a hyphen of its own for a rest": creek("q 4b 5b \u2010 5b"),
    "spaces of no width": GOOD.replace(" ", "\u200b \u2060").replace("porch", "por\ufeffch"),
    "soft hyphens": GOOD.replace("porch", "por\u00adch").replace("bars", "ba\u00adrs"),
    "joiners behind a mark": GOOD.replace(" 4d", " 4d\u200d").replace(" 2d", " 2\u200cd"),
    "a hard space in last time": GOOD + "  last\u00a0time ending I\n",
    "curly ticks": instead("3d' 3d", "3d’ 3d"),
    "a curly syllable": creek("q 4b“ka” 5b 6b 5b"),
    "an en dash for a rest": creek("q 4b 5b – 5b"),
    "an en dash in a range": placed("bars 1–4 porch"),
    "other capitals in a form": instead("12-bar standard", "12-Bar Standard"),
    "no space after a comma": one_lick("lick porch on I,VI"),
    "a space before the count": creek("[q 4b 5b] x2"),
    "a bar line at the end": creek("q 4b 5b 6b 5b |"),
    "a bar line at the head": creek("| q 4b 5b 6b 5b"),
    "music on two lines": creek("q 4b 5b\n\n  6b 5b"),
    "tabs": GOOD.replace("  ", "\t"),
    "no indent": GOOD.replace("\n  ", "\n"),
    "hard spaces": GOOD.replace("  ", "\u00a0\u00a0"),
    "windows lines": GOOD.replace("\n", "\r\n"),
    "no line end at the end": GOOD.rstrip("\n"),
    "a comment without a space": creek("q 4b 5b 6b 5b #so"),
    "a comment right behind a bar line": creek("q 4b 5b 6b 5b |#so"),
    "a comment right behind a bracket": creek("[q 4b 4b]x1 [#so\n 5b 5b ]x1"),
    "a number sign inside a title": instead("Ten Slips", "Slips in X#2 #so"),
    "a rhythm that is called by a letter": timed("rhythm q  q x x x x\nrhythm steps q x x x x"),
    "a lick called on": GOOD.replace("porch", "on"),
    "a position without its ending": fact("position 2"),
    "play twice": GOOD + PLAY + "  last time ending I\n",
}


@pytest.mark.parametrize("case", FINE)
def test_is_read_as_it_is_meant(case: str) -> None:
    assert slugs_of(FINE[case]) == []


def test_notes_of_one_hole_are_no_chord() -> None:
    (hint,) = hint_texts(only_problem(creek("q 4b4b 6b 5b")))
    assert "44" not in hint


def test_holes_of_a_chord_are_offered_from_low_to_high() -> None:
    assert "`45b`" in hint_texts(only_problem(creek("q 5b4b 6b 5b")))[1]


@pytest.mark.parametrize("line_end", [b"\r", b"\r\n", b"\n"])
def test_line_ends_of_other_machines(tmp_path: Path, line_end: bytes) -> None:
    path = tmp_path / "a.lesson"
    path.write_bytes(GOOD.encode().replace(b"\n", line_end))
    assert examine_file(path, "a.lesson", Shelves(tmp_path)).problems == ()


# ---- One slip, one problem -------------------------------------------------------------------

#: The text, and what is told: slug, line, the words marked, a word of the first hint or "".
SLIPS: list[tuple[str, str, int, str, str]] = [
    # quotes, dashes, brackets
    (one_lick("lick porch “Front porch on I"), "quote-open", 6, "“Front porch on I", '`"`'),
    (one_lick("lick porch „Front porch on I"), "quote-open", 6, "„Front porch on I", '`"`'),
    (creek("q 4b”ka 5b 6b 5b"), "note-breath", 10, "4b”ka", ""),
    (one_lick("lick porch 'Front porch' on I"), "word-unexpected", 6, "'Front", '"Front porch"'),
    (one_lick("lick porch Front porch on I"), "word-unexpected", 6, "Front", '"Front porch"'),
    (creek('q 3d" 5b 6b 5b'), "quote-open", 10, '"', "`3d''`"),
    (creek("q 4b 5b — 5b"), "mark-unknown", 10, "—", "`-`"),
    (creek("q 4b 5b ~ 5b"), "mark-unknown", 10, "~", "`=`"),
    (creek("q 4b 5b ] 5b 5b"), "bracket-not-open", 10, "]", "`[`"),
    (creek("[q 4b 5b"), "bracket-not-closed", 10, "[", "`]x2`"),
    (creek("[q 4b 5b]2"), "bracket-no-count", 10, "]", "`]x2`"),
    (creek("[q 4b 5b]*2"), "bracket-no-count", 10, "]", "`]x2`"),
    (creek("[q 4b 5b]X2"), "bracket-no-count", 10, "]", "`]x2`"),
    (creek("[q 4b 5b]x2again"), "mark-unknown", 10, "again", "notes"),
    (creek("q 4b{wah 5b 6b 5b"), "brace-open", 10, "{wah", "`{wah}`"),
    (creek("q 4b{} 5b 6b 5b"), "technique-unknown", 10, "{}", "`wah`"),
    # notes and values
    (creek("q 4B 5b 6b 5b"), "note-capital", 10, "4B", "`4b`"),
    (creek("q b4 5b 6b 5b"), "mark-unknown", 10, "b4", "`4b`"),
    (creek("q 4b 5b 6b -5"), "mark-unknown", 10, "-5", "`5d`"),
    (creek("q 4b 5b 6b +5"), "mark-unknown", 10, "+5", "`5b`"),
    (creek("q 4b 5b 6b 5"), "note-breath", 10, "5", "`5b` or `5d`"),
    (creek("q 4'd 5b 6b 5b"), "note-breath", 10, "4'd", "`4d'`"),
    (creek("q 4d´ 5b 6b 5b"), "note-quote", 10, "4d´", "`4d'`"),
    (creek("q 4b(wah) 5b 6b 5b"), "brackets-round", 10, "4b(wah)", "`4b{wah}`"),
    (creek("q 4b, 5b 6b 5b"), "note-tail", 10, "4b,", "`4b`"),
    (creek("q 4b 5b 6b 3d”"), "note-quote", 10, "3d”", "`3d''`"),
    (creek('q 4b 5b 6b 6D"'), "note-capital", 10, '6D"', "`6d''`"),
    (creek("q 4b 5b 6b 6D'"), "note-capital", 10, "6D'", "`6d'`"),
    (creek("q 4b 5b 6b 3d''~"), "note-held", 10, "3d''~", "`3d'' =`"),
    (creek("q 4b 5b 6b 3d ''"), "ticks-apart", 10, "3d ''", "`3d''`"),
    (creek("q 4b 5b 6b 1-2-3d"), "holes-parted", 10, "1-2-3d", "`123d`"),
    (creek("q 4b 5b 6b 3db"), "note-accidental", 10, "3db", "`3d'`"),
    (creek("q 4b 5b 6b 3d'b"), "note-accidental", 10, "3d'b", "`3d'`"),
    (creek("q 4b 5b 6b 5#d"), "note-accidental", 10, "5#d", "`5d`"),
    (creek("q 4b 5b 6b 4b(low)"), "brackets-round", 10, "4b(low)", '`4b"low"`'),
    (creek("q 11b 5b 6b 5b"), "note-hole", 10, "11b", "hole"),
    (creek("q 4b4b 6b 5b"), "marks-together", 10, "4b4b", "`4b 4b`"),
    # number signs inside a word
    (creek("q 4d e 4d 5d# q 4d -"), "note-accidental", 10, "5d#", "`5d`"),
    (creek("q 4b 5b 6b 4d#"), "note-accidental", 10, "4d#", "`4d`"),
    (creek("q 4b 5b 6b 5b#slow now"), "comment-joined", 10, "5b#slow", "`5b #slow`"),
    (creek("q 4b 5b 6b 5b# slow now"), "comment-joined", 10, "5b#", "`5b #`"),
    (creek("h 4b -# stop"), "comment-joined", 10, "-#", "`- #`"),
    (creek("h 4b -# 4b"), "comment-joined", 10, "-#", "`-`"),
    (creek("q# 4b 5b 6b 5b"), "comment-joined", 10, "q#", "`q`"),
    (creek('q 4b 5b 6b 5b"ka"#so'), "comment-joined", 10, "#so", "` #so`"),
    (creek("[q 4b 5b]x2#so"), "comment-joined", 10, "#so", "` #so`"),
    (one_lick("lick porch on I#so"), "comment-joined", 6, "I#so", "`I #so`"),
    (one_lick("lick porch on I#"), "word-unexpected", 6, "I#", "on I"),
    (placed("bars 1-4 porch x4#so"), "comment-joined", 19, "x4#so", "`x4 #so`"),
    (creek("q 4b5b 6b 5b"), "marks-together", 10, "4b5b", "`4b 5b`"),
    (creek("q 4b,5b,6b,5b"), "marks-together", 10, "4b,5b,6b,5b", "`4b 5b 6b 5b`"),
    (creek("q4b 5b 6b 5b"), "marks-together", 10, "q4b", "`q 4b`"),
    (creek("q 4b5d 6b 5b"), "note-mixed", 10, "4b5d", "`4b 5d`"),
    (creek("Q 4b 5b 6b 5b"), "value-unknown", 10, "Q", "`q`"),
    (creek("q... 4b 5b 6b 5b"), "value-unknown", 10, "q...", "`w`"),
    (creek("4b 5b 6b 5b"), "value-missing", 10, "4b", "`q`"),
    (creek("q x x x x"), "place-in-lick", 10, "x", "`creek`"),
    (creek("q 4b 5b 6b 5b // as on the tape"), "mark-unknown", 10, "// as on the tape", "notes"),
    (creek("q 4b 5b 6b 5b ; slow"), "mark-unknown", 10, "; slow", "notes"),
    # bars
    (creek("q 4b 5b 6b 5b | |"), "bar-empty", 10, "|", "bar line"),
    (creek("| | q 4b 5b 6b 5b"), "bar-empty", 10, "|", "bar line"),
    (creek("|"), "bar-empty", 10, "|", "bar line"),
    # the first line of a lick
    (one_lick("lick porch I"), "word-unexpected", 6, "I", "on I"),
    (one_lick("lick porch"), "line-unfinished", 6, "", "on I"),
    (one_lick("lick porch # to do"), "line-unfinished", 6, "", "on I"),
    (one_lick("lick porch on"), "line-unfinished", 6, "", "on I"),
    (one_lick("lick front porch on I"), "name-of-words", 6, "front porch", "`front-porch`"),
    (one_lick("lick 1porch on I"), "word-unexpected", 6, "1porch", "on I"),
    (one_lick("lick porch on G7"), "word-unexpected", 6, "G7", "`I7`"),
    (one_lick("lick porch on I | | V"), "word-unexpected", 6, "|", "on I"),
    (one_lick("lick porch on I and IV"), "word-unexpected", 6, "and", "on I, IV"),
    (one_lick('lick "Porch" on I'), "name-missing", 6, 'lick "Porch"', '`lick porch "Porch"`'),
    (one_lick("lick “My Ré-do” on I"), "name-missing", 6, "lick “My Ré-do”",
     "`lick my-ré-do “My Ré-do”`"),
    (one_lick('lick "7 | 2" on I'), "name-missing", 6, 'lick "7 | 2"', '`lick porch "7 | 2"`'),
    (one_lick('lick "V" on I'), "name-missing", 6, 'lick "V"', '`lick v-lick "V"`'),
    (one_lick('lick "Gate" on I'), "name-missing", 6, 'lick "Gate"', '`lick gate-2 "Gate"`'),
    (one_lick(f'lick "{"Po " * 30}" on I'), "name-missing", 6, "lick", "`lick po-po-"),
    (one_lick('turnaround "Porch" on I'), "name-missing", 6, 'turnaround "Porch"',
     '`turnaround porch "Porch"`'),
    (one_lick("lick on I"), "name-missing", 6, "lick", "`lick porch`"),
    (one_lick("turnaround on I, VI"), "name-missing", 6, "turnaround",
     "`turnaround porch`"),
    (timed("rhythm q x e x x"), "name-missing", 6, "rhythm q", "`rhythm steps q`"),
    (timed("rhythm q e e"), "name-missing", 6, "rhythm q", "`rhythm steps q`"),
    (timed("rhythm h. x q x"), "name-missing", 6, "rhythm h", "`rhythm steps h`"),
    (timed('rhythm "Steps" h. x q x'), "name-missing", 6, 'rhythm "Steps"', "`rhythm steps`"),
    (one_lick("Lick porch on I"), "word-unknown", 6, "Lick", "`lick`"),
    (one_lick("lick: porch on I"), "word-unknown", 6, "lick:", "`lick`"),
    (one_lick("riff porch on I"), "word-unknown", 6, "riff", "`#`"),
    (one_lick("turn around porch on I"), "word-unknown", 6, "turn around", "`turnaround`"),
    (home("I V"), "bar-line-missing", 15, "I V", "`on I | V`"),
    (home("I, VI V, V7"), "bar-line-missing", 15, "I, VI V, V7", "`on I, VI | V, V7`"),
    (home("I IV V"), "bar-chords", 15, "I IV V", "`I | IV | V`"),
    # facts
    (instead("harp   C", "harp   H"), "harp-unknown", 2, "H", "`B`"),
    (instead("harp   C", "harp   c"), "harp-unknown", 2, "c", "`C`"),
    (instead("harp   C", "harp   B flat"), "harp-unknown", 2, "B flat", "`Bb`"),
    (instead("harp   C", "harp   Bflat"), "harp-unknown", 2, "Bflat", "`Bb`"),
    (instead("harp   C", "harp   low B flat"), "harp-unknown", 2, "low B flat", "`low Bb`"),
    (instead("harp   C", "harp   low H"), "harp-unknown", 2, "H", "`B`"),
    (instead("harp   C", "harp   C low"), "harp-unknown", 2, "C low", "`low C`"),
    (instead("harp   C", "harp   C major"), "harp-unknown", 2, "C major", "`C`"),
    (instead("harp   C", "harp   F sharp"), "harp-unknown", 2, "F sharp", "`F#`"),
    (instead("harp   C", "harp   A minor"), "harp-unknown", 2, "A minor", "harps come in"),
    (fact("position cross"), "position-unknown", 5, "cross", "cross is 2nd position: write `2nd`"),
    (fact("position straight"), "position-unknown", 5, "straight", "`1st`"),
    (fact("position slant harp"), "position-unknown", 5, "slant harp", "`3rd`"),
    (fact("position second"), "position-unknown", 5, "second", "`2nd`"),
    (fact("position 2nd position"), "position-unknown", 5, "2nd position", "`2nd`"),
    (fact("position 3rd (cross)"), "position-unknown", 5, "3rd (cross)", "`1st`, `2nd`"),
    (fact("position thirteenth"), "position-unknown", 5, "thirteenth", "`1st`, `2nd`"),
    (instead("harp   C", "harp:  C"), "word-unknown", 2, "harp:", "`harp`"),
    (instead("12-bar standard", "12 bar standard"), "form-unknown", 3, "12 bar standard",
     "`12-bar standard`"),
    (instead("12-bar standard", "12-bar"), "form-unknown", 3, "12-bar", "`12-bar standard`"),
    (instead("12-bar standard", "12 bar"), "form-unknown", 3, "12 bar", "`12-bar standard`"),
    (instead("12-bar standard", "12 bar blues"), "form-unknown", 3, "12 bar blues",
     "`12-bar standard`"),
    (instead("12-bar standard", "8 bars"), "form-unknown", 3, "8 bars", "`8-bar`"),
    (instead("12-bar standard", "16bar"), "form-unknown", 3, "16bar", "`16-bar`"),
    (instead("12-bar standard", "12-bar blues"), "form-unknown", 3, "12-bar blues",
     "`12-bar standard`"),
    (instead("tempo  96", "Tempo 96"), "word-unknown", 4, "Tempo", "`tempo`"),
    (instead("tempo  96", "tempo 96 bpm"), "tempo-unknown", 4, "96 bpm", "`tempo 100`"),
    (instead("title  Ten Slips", "title # later"), "line-unfinished", 1, "", "title"),
    (fact("This is for Tuesday."), "word-unknown", 5, "This", "`#`"),
    (fact("== Licks =="), "word-unknown", 5, "==", "`#`"),
    (fact("-----"), "word-unknown", 5, "-----", "`#`"),
    (fact("q 4d 5d"), "music-misplaced", 5, "q 4d 5d", "lick"),
    (fact("tip Let it ring"), "line-misplaced", 5, "tip", "`lick`"),
    (fact("feel Swing"), "feel-unknown", 5, "Swing", "`swing`"),
    (GOOD + "harp D\n", "fact-twice", 20, "harp", "keep"),
    # forms of one's own
    (own_form("  | C7 | F7 | C7 | G7 |"), "chord-unknown", 4, "C7 | F7 | C7 | G7",
     "`IV7 | bVII7 | IV7 | I7`"),
    (own_form("  || I7 | IV7 | I7 | V7 ||"), "word-unexpected", 4, "|", "| I7 |"),
    (own_form("  | I7 | | IV7 | V7 |"), "word-unexpected", 4, "|", "| I7 |"),
    (own_form("  | I7 IV7 V7 | I7 |"), "bar-chords", 4, "I7 IV7 V7", "`|`"),
    # play
    (instead("play\n", "Play\n"), "word-unknown", 15, "Play", "`play`"),
    (instead("play\n", "play:\n"), "word-unknown", 15, "play:", "`play`"),
    (instead("play\n", "play 2\n"), "word-unexpected", 15, "2", "x2"),
    (instead("every IV ", "each IV "), "word-unknown", 17, "each", "`#`"),
    (instead("every IV ", "Every IV "), "word-unknown", 17, "Every", "`every`"),
    (instead("every IV   creek", "every IV"), "line-unfinished", 17, "", "every"),
    (placed("Bars 1-4 porch"), "word-unknown", 19, "Bars", "`bars`"),
    (placed("bars 1—4 porch"), "word-unexpected", 19, "1—4", "bars 1-4"),
    (placed("bars 1 - 4 porch"), "word-unexpected", 19, "-", "bars 1-4"),
    (placed("bars 7, 8 porch"), "word-unexpected", 19, "7,", "bars 1-4"),
    (placed("bars 1-4 x4porch"), "lick-unknown", 19, "x4porch", "`porch`"),
    (placed("bars 1-4 porch X4"), "word-unexpected", 19, "X4", "x4"),
    (placed("bars 1-4 porch x2, poarch x2"), "lick-unknown", 19, "poarch", "`porch`"),
    (placed("bar 12 Rest"), "lick-unknown", 19, "Rest", "`rest`"),
    (instead("  every V    gate\n", ""), "bar-without-lick", 15, "play", "`every V7 gate`"),
    (instead("play\n", ""), "play-forgotten", 15, "every", "`play`"),
    (instead("play\n", "").replace(PLACED, "").replace("  every I ", f"{PLACED}  every I "),
     "play-forgotten", 15, "bars", "`play`"),
    (GOOD.replace(PLAY, f"{PLAY[5:]}play\n"), "line-misplaced", 15, "every", "`play`"),
    (instead("play\n", "").replace("lick gate", "play\n\nlick gate"), "line-misplaced", 17, "every",
     "`play`"),
    (GOOD.replace(PLAY, ""), "play-missing", 13, "", "`play`"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "slug", "line", "marked", "hint"), SLIPS)
def test_one_slip_is_one_problem(text: str, slug: str, line: int, marked: str, hint: str) -> None:
    problem = only_problem(text)
    assert (problem.code, problem.span.line, problem.span.text) == (slug, line, marked)
    assert hint in "".join(hint_texts(problem)[:1])


def test_two_chords_of_a_bar_over_other_bars_are_no_forgotten_bar_line() -> None:
    assert set(slugs_of(home("I V", "5-6"))) == {"lick-wrong-chord"}


def test_forgotten_bar_line_is_told_once_for_all_choruses() -> None:
    again = f"{PLAY}  bars 11-12 home\n"
    assert slugs_of(home("I V") + again) == ["bar-line-missing"]


def twice(lines: str) -> str:
    """Two choruses of the good lesson, and a turnaround of two bars."""
    return home("I | V").replace("play\n", "play x2\n").replace("  bars 11-12 home\n", lines)


#: Lines that are right, but would not be so if the slip above them were not one.
RIGHT_AFTER_A_SLIP = {
    "bars that end on a lost ending": twice("  last ending I\n  last time bars 11-12 porch\n"),
    "a last bar on a lost ending": twice("  last ending I\n  last time bar 12 porch\n"),
    "a run that lost bars cut short": twice("  last time: bars 11-12 home\n").replace(
        "every I    porch", "every I    strut"
    ).replace("  bars 1-4   porch x4\n", "").replace(
        "play x2", "lick strut on I\n  q 2d 3d 4d 2d | q 2d 3d 4d 2d\n\nplay x2"
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", RIGHT_AFTER_A_SLIP)
def test_right_line_is_not_blamed_for_a_lost_one(case: str) -> None:
    errors = [p.code for p in problems_of(RIGHT_AFTER_A_SLIP[case]) if p.severity is Severity.ERROR]
    assert errors == ["word-unknown"]


def test_bars_outside_are_told_once_though_the_last_time_ends_otherwise() -> None:
    lines = "  bars 12-13 home\n  last time ending I\n"
    problem = only_problem(twice(lines))
    assert problem.code == "bars-outside"
    assert "`12-bar standard`" in problem.message()


def test_wrong_chord_of_the_last_time_alone_says_so() -> None:
    problem = only_problem(twice("  bar 12 gate\n  last time ending I\n"))
    assert problem.code == "lick-wrong-last"
    assert "add `last time bar 12 porch`" in hint_texts(problem)[0]
    own = only_problem(twice("  last time bar 12 gate\n  last time ending I\n"))
    assert own.code == "lick-wrong-chord"
    assert "bar 12 the last time is I7" in own.message()


def test_bar_that_is_empty_the_last_time_alone_says_so() -> None:
    text = twice("  bars 5-11 rest\n  last time ending I\n").replace("  every I    porch\n", "")
    problem = only_problem(text)
    assert problem.code == "bar-without-lick"
    assert "bar 12 (I7) has no lick the last time" in problem.message()


def test_chord_that_is_empty_every_time_is_told_once() -> None:
    text = twice("  last time ending I\n").replace("  every I    porch\n", "")
    assert slugs_of(text) == ["bar-without-lick"]


MINOR = GOOD.replace("standard", "minor").replace("every V ", "bar 9 rest\n  every V ")
MINOR = MINOR.replace("porch on I", "porch on i").replace("creek on IV", "creek on iv")
MINOR = MINOR.replace("every IV ", "every iv ").replace("every I ", "every i ")


@pytest.mark.parametrize(
    ("text", "marked", "meant"),
    [
        (instead("creek on IV", "creek on iv"), "iv", "on IV"),
        (instead("creek on IV", "creek on iv7, ii"), "iv7, ii", "on IV7, ii"),
        (instead("creek on IV", "creek on iv").replace(
            "every IV   creek", "bars 5-6 creek\n  bar 10 creek"), "iv", "on IV"),
        (home("i | v"), "i | v", "on I | V"),
        (MINOR.replace("porch on i", "porch on I"), "I", "on i"),
        (MINOR.replace("creek on iv", "creek on IV7"), "IV7", "on iv7"),
    ],
)  # fmt: skip
def test_minor_numeral_over_a_major_chord_is_told_once(text: str, marked: str, meant: str) -> None:
    problem = only_problem(text)
    assert (problem.code, problem.span.text) == ("third-unlike", marked)
    assert f"write `{meant}`" in hint_texts(problem)[0]


def test_minor_numeral_explains_nothing_where_the_lick_is_on_other_chords_too() -> None:
    text = instead("creek on IV", "creek on iv").replace("every V    gate", "every V    creek")
    assert slugs_of(text) == ["lick-wrong-chord"] * 2


def test_chord_of_a_minor_form_is_near() -> None:
    problem = only_problem(MINOR.replace("every i ", "every I "))
    assert (problem.code, problem.span.text, problem.fields["near"]) == ("every-nowhere", "I", "i7")


LETTERS = [
    (instead("creek on IV", "creek on C7"), "C7", "IV7"),
    (instead("creek on IV", "creek on C"), "C", "IV"),
    (instead("creek on IV", "creek on C7, Am7, A#13"), "C7, Am7, A#13", "IV7, ii7, bIII13"),
    (home("G7 | D7"), "G7 | D7", "I7 | V7"),
    (instead("every IV ", "every C7 "), "C7", "IV7"),
    (instead("12-bar standard", "12-bar standard ending D7"), "D7", "V7"),
    (own_form("  | G7 | Ebdim7 D7 | G7 | D7 |"), "G7 | Ebdim7 D7 | G7 | D7",
     "I7 | bVIdim7 V7 | I7 | V7"),
    (instead("creek on IV", "creek on F").replace(TEMPO, f"{TEMPO}position 1st\n"), "F", "IV"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "marked", "numerals"), LETTERS)
def test_chord_in_letters_is_told_as_a_numeral(text: str, marked: str, numerals: str) -> None:
    problem = only_problem(text)
    assert problem.span.text == marked
    assert f"write `{numerals}`" in hint_texts(problem)[0]


@pytest.mark.parametrize(
    "text",
    [
        one_lick("lick porch B on I"),  # no chord is wanted there
        instead("creek on IV", "creek on H7"),
        instead("creek on IV", "creek on C7").replace("harp   C", "harp   Q"),
        instead("creek on IV", "creek on C7").replace("harp   C\n", ""),
        instead("creek on IV", "creek on C7").replace(TEMPO, f"{TEMPO}position 13th\n"),
    ],
)
def test_letters_are_no_numerals_where_no_key_or_no_chord_is_known(text: str) -> None:
    assert "numerals" not in {fact for problem in problems_of(text) for fact in problem.fields}


@pytest.mark.parametrize(("text", "marked", "numerals"), LETTERS)
def test_its_numerals_can_be_read(text: str, marked: str, numerals: str) -> None:
    kinds = set(slugs_of(text.replace(marked, numerals)))
    assert not kinds & {"word-unexpected", "chord-unknown"}


# ---- Slips in more than one place ------------------------------------------------------------


@pytest.mark.parametrize("text", ["", "\n", "# only\n\n# comments", "   \n\t\n"])
def test_empty_lesson_lacks_everything(text: str) -> None:
    assert set(slugs_of(text)) == {
        "title-missing", "harp-missing", "form-missing", "tempo-missing", "play-missing",
    }  # fmt: skip


def test_two_licks_whose_first_lines_are_broken_are_no_twins() -> None:
    text = GOOD.replace("lick porch", "lick front porch").replace("lick gate", "lick front gate")
    assert slugs_of(text) == ["name-of-words", "name-of-words"]


def test_broken_lick_among_several_spoils_no_count() -> None:
    text = creek("q 4b 5b 6b 5g").replace(PLACED, "  bars 5-6 porch x1, creek x1\n")
    assert slugs_of(text) == ["note-breath"]


@pytest.mark.parametrize(
    ("music", "slugs"),
    [
        ("q 4b 4d'' 6b", ["bar-too-short", "bend-too-deep"]),
        ("q 4b 5b 6b 5b 4d''", ["bar-too-long", "bend-too-deep"]),
        ("e3 4b 4d'' q 6b h 5b", ["triplet-broken", "bend-too-deep"]),
    ],
)
def test_bar_that_does_not_come_out_hides_no_bend(music: str, slugs: list[str]) -> None:
    assert sorted(slugs_of(creek(music))) == sorted(slugs)


def test_lines_of_a_forgotten_play_are_still_judged() -> None:
    text = instead("play\n", "").replace("IV   creek", "IV   creak")
    assert slugs_of(text) == ["play-forgotten", "lick-unknown"]


def test_forgotten_play_with_a_lick_among_its_lines_is_told_once() -> None:
    text = instead("play\n", "") + "\nlick late on I\n  w 2d\n\n  bar 12 late\n"
    assert slugs_of(text).count("play-forgotten") == 1


def test_each_run_of_lines_above_the_play_is_told_once() -> None:
    run = "  every I    porch\n  every IV   creek\n"
    text = GOOD.replace("lick gate", f"{run}\nlick gate").replace(PLAY, f"{run}play\n")
    assert slugs_of(text).count("line-misplaced") == 2


def test_play_without_lines_lacks_each_chord_once() -> None:
    assert slugs_of(GOOD.replace(PLAY, "play\n")) == ["bar-without-lick"] * 3


@pytest.mark.parametrize(
    ("lines", "slug"),
    [("Tuning ferry town\n  blow C E\n  draw D G", "word-unknown"),
     ("Rhythm\n  q x x x x", "word-unknown"),
     ("lick\n  q 4d 5d", "line-unfinished")],
)  # fmt: skip
def test_lines_below_a_broken_line_are_not_blamed(lines: str, slug: str) -> None:
    assert slugs_of(fact(lines)) == [slug]


def test_form_line_that_is_broken_keeps_its_chords() -> None:
    text = instead("form   12-bar standard", "Form\n  | I7 | IV7 | I7 | V7 |")
    assert slugs_of(text) == ["word-unknown"]


@pytest.mark.parametrize(
    "shown", ["\x00", "\x1b[31m", "\u200b", "\ufeff", "é", "漢", "🎵", "\u2028x"]
)
@pytest.mark.parametrize("line", range(GOOD.count("\n")))
def test_odd_character_anywhere(shown: str, line: int) -> None:
    """At the head and at the end of each line: never an exception, and it can be printed."""
    lines = GOOD.splitlines()
    for text in (f"{shown}{lines[line]}", f"{lines[line]}{shown}"):
        problems = examined("\n".join([*lines[:line], text, *lines[line + 1 :]])).problems
        assert "\x1b" not in "".join(map(drawn, problems))


# ---- Shelves ---------------------------------------------------------------------------------

USING = instead(TEMPO, f"{TEMPO}use home from turnarounds\n") + "  bars 11-12 home\n"
SHELF = "position 2nd\n\nturnaround home on I | V\n  q 2d 3d 4d 2d | q 1d 4d 4b 1d\n"


RHYTHM = "rhythm trot q x x x x\n"
USING_RHYTHM = one_lick("lick porch on I in trot").replace(
    "  q 2d e 3d' 3d q 4d 2d", "  2d 3d 4d 2d"
)


def slugs_with_shelf(folder: Path, shelf: bytes, lesson: str = USING) -> list[str]:
    (folder / "turnarounds.licks").write_bytes(shelf)
    (folder / "a.lesson").write_text(lesson, encoding="utf-8")
    found = examine_file(folder / "a.lesson", "a.lesson", Shelves(folder))
    return [problem.code for problem in found.problems]


def test_good_shelf(tmp_path: Path) -> None:
    assert slugs_with_shelf(tmp_path, SHELF.encode()) == []


@pytest.mark.parametrize(
    ("shelf", "slug"),
    [
        (b"\xff" + SHELF.encode(), "file-not-utf8"),
        (SHELF.replace("home on", "home").encode(), "word-unexpected"),
        (SHELF.replace("turnaround home", "turnaround long home").encode(), "name-of-words"),
        (SHELF.replace("turnaround", "Turnaround").encode(), "word-unknown"),
        (SHELF.replace("4b 1d", "4b 1g").encode(), "note-breath"),
        (SHELF.replace("2nd", "second").encode(), "position-unknown"),
    ],
)
def test_slip_in_a_shelf_is_not_blamed_on_the_lesson(
    tmp_path: Path, shelf: bytes, slug: str
) -> None:
    assert slugs_with_shelf(tmp_path, shelf) == [slug]


def test_lines_of_a_play_on_a_shelf_are_told_once(tmp_path: Path) -> None:
    shelf = f"{SHELF}\nevery I home\nbar 9 home\n"
    assert slugs_with_shelf(tmp_path, shelf.encode()) == ["line-misplaced"]


def test_unreadable_shelf_is_not_held_against_the_position(tmp_path: Path) -> None:
    third = USING.replace(TEMPO, f"{TEMPO}position 3rd\n")
    assert slugs_with_shelf(tmp_path, b"\xff", third) == ["file-not-utf8"]


def test_name_of_a_shelf_beyond_what_a_disk_takes(tmp_path: Path) -> None:
    lesson = USING.replace("turnarounds", "t" * 300)
    assert slugs_with_shelf(tmp_path, SHELF.encode(), lesson) == ["shelf-unknown"]


@pytest.mark.parametrize(
    ("line", "slug"),
    [
        ("use hoame from turnarounds", "lick-not-on-shelf"),
        ("use hoame as home from turnarounds", "lick-not-on-shelf"),
        ("use home from turnaround", "shelf-unknown"),
        ("use home in turnarounds", "word-unexpected"),
        ("Use home from turnarounds", "word-unknown"),
    ],
)
def test_slip_in_a_use_line_is_told_once(tmp_path: Path, line: str, slug: str) -> None:
    lesson = USING.replace("use home from turnarounds", line)
    assert slugs_with_shelf(tmp_path, SHELF.encode(), lesson) == [slug]
    rhythm = USING_RHYTHM.replace(TEMPO, f"{TEMPO}{line.replace('ho', 'tr').replace('me', 't')}\n")
    assert slugs_with_shelf(tmp_path, RHYTHM.encode(), rhythm) == [slug]


FORGOTTEN = USING.replace("use home from turnarounds\n", "")


@pytest.mark.parametrize("shelf", [SHELF, f"use home from old\n{SHELF[:13]}"])
def test_forgotten_use_line_is_offered(tmp_path: Path, shelf: str) -> None:
    (tmp_path / "old.licks").write_text(SHELF.replace("2nd", "3rd"), encoding="utf-8")
    (tmp_path / "older.licks").write_text(SHELF.replace("home", "away"), encoding="utf-8")
    if "old" in shelf:
        (tmp_path / "old.licks").write_text(SHELF.replace("|", "|  "), encoding="utf-8")
    (tmp_path / "turnarounds.licks").write_text(shelf, encoding="utf-8")
    (tmp_path / "a.lesson").write_text(FORGOTTEN, encoding="utf-8")
    (problem,) = examine_file(tmp_path / "a.lesson", "a.lesson", Shelves(tmp_path)).problems
    assert problem.code == "lick-unknown"
    line = re.findall("`(use [^`]*)`", hint_texts(problem)[0])[0]
    mended = FORGOTTEN.replace(TEMPO, f"{TEMPO}{line}\n")
    assert slugs_with_shelf(tmp_path, shelf.encode(), mended) == []


def test_shelf_of_another_position_offers_nothing(tmp_path: Path) -> None:
    (tmp_path / "old.licks").write_text(SHELF.replace("2nd", "3rd"), encoding="utf-8")
    (tmp_path / "a.lesson").write_text(FORGOTTEN, encoding="utf-8")
    (problem,) = examine_file(tmp_path / "a.lesson", "a.lesson", Shelves(tmp_path)).problems
    assert problem.fields["shelf"] is None


def test_slip_in_the_use_line_of_a_shelf_is_told_there_alone(tmp_path: Path) -> None:
    (tmp_path / "old.licks").write_text(SHELF, encoding="utf-8")
    shelf = b"position 2nd\nuse hoame from old\n"
    assert slugs_with_shelf(tmp_path, shelf) == ["lick-not-on-shelf"]


@pytest.mark.parametrize(
    ("line", "slug"),
    [("rhythm slow trot q x x x x", "mark-unknown"), ("groove trot q x x x x", "word-unknown")],
)
def test_rhythm_that_is_lost_is_told_once(line: str, slug: str) -> None:
    assert slugs_of(USING_RHYTHM.replace("lick porch", f"{line}\n\nlick porch")) == [slug]
