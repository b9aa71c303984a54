"""Slips as teachers make them: what is printed, and that what it says mends the lesson."""

from __future__ import annotations

import pytest

from formsheet.language.parse import parse
from formsheet.problems import kinds
from formsheet.problems.problem import has_errors
from formsheet.source import Source
from tests.language.slips import FOLDER, NAMES, edits_of, mended, output_of, problems_of, text_of
from tests.language.trees import spots_of

#: Slips of which one edit alone mends each mistake: it may be made without a question.
CERTAIN = {
    "arrows-for-breath",
    "bullets-in-the-play",
    "chord-in-brackets",
    "dot-behind-a-space",
    "form-and-tempo-on-a-line",
    "german-note-names",
    "group-in-round-brackets",
    "marks-round-a-copied-text",
    "marks-run-together",
    "name-of-two-words",
    "new-line-for-a-bar-line",
    "placed-by-two-words",
    "quoted-name",
    "slash-for-a-bar-line",
    "tie-over-a-bar-line",
    "tilde-for-a-hold",
    "time-for-meter",
    "title-for-a-name",
    "titles-in-the-play",
    "triplet-the-other-way",
    "turnaround-in-two-words",
    "turnaround-under-play",
    "two-facts-on-a-line",
    "values-as-fractions",
    "values-behind-notes",
    "wah-in-round-brackets",
}
#: Slips that are read as what they look like.
READ = {"non-breaking-hyphen", "quotes-of-other-languages", "space-of-no-width"}
#: Slips of which the message says what to write, where no edit can be worked out.
TOLD = {"lick-under-play", "quotes-in-the-wrong-place"}
#: Slips that may be mended in more than one way, or not without a change to the bar.
SEVERAL = {
    "title-without-a-name",
    "bend-on-the-other-breath",
    "bent-note-in-a-chord",
    "chord-with-a-plus",
    "comma-for-a-bar-line",
    "ending-with-a-comma",
    "ending-without-a-bar-line",
    "form-without-hyphens",
    "german-breath",
    "half-beat-short-in-a-rhythm",
    "notes-in-round-brackets",
    "number-sign-in-a-title",
    "repeat-signs",
    "split-one-hole-off",
    "turnaround-a-bar-early",
    "two-chords-a-bar-with-a-comma",
    "two-chords-a-bar-without-a-bar-line",
    "two-breaths-at-once",
    "value-that-still-holds",
}
#: Of these the ones whose first edit leaves something to mend.
UNMENDED = {"bent-note-in-a-chord", "two-breaths-at-once"}
#: Slips that are reported at all their places at once; each edit asks.
AT_ONCE = {"small-numerals"}


def test_every_slip_is_in_one_group() -> None:
    groups = (CERTAIN, READ, TOLD, SEVERAL, AT_ONCE)
    assert sorted(name for group in groups for name in group) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_what_is_printed(name: str) -> None:
    assert output_of(name) == (FOLDER / f"{name}.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted(CERTAIN))
def test_its_edit_mends_it(name: str) -> None:
    assert problems_of(text_of(name), name)
    assert len(edits_of(name)) == len(problems_of(text_of(name), name))
    assert all(edit.certain for edit in edits_of(name))
    assert not has_errors(problems_of(mended(name), name))


@pytest.mark.parametrize("name", sorted(READ))
def test_it_is_read(name: str) -> None:
    assert problems_of(text_of(name), name) == ()


@pytest.mark.parametrize("name", sorted(TOLD))
def test_it_offers_no_edit(name: str) -> None:
    assert edits_of(name) == []


@pytest.mark.parametrize("name", sorted(SEVERAL))
def test_its_edit_asks(name: str) -> None:
    assert [edit.certain for edit in edits_of(name)] == [False]


@pytest.mark.parametrize("name", sorted(SEVERAL - UNMENDED))
def test_its_first_edit_mends_it(name: str) -> None:
    assert problems_of(text_of(name), name)
    assert not has_errors(problems_of(mended(name), name))


@pytest.mark.parametrize("name", sorted(AT_ONCE))
def test_all_its_edits_mend_it(name: str) -> None:
    assert len(edits_of(name)) == len(problems_of(text_of(name), name)) > 1
    assert not any(edit.certain for edit in edits_of(name))
    assert problems_of(mended(name), name) == ()


# ---- What looks like a slip, and is none or another ----------------------------------------


@pytest.mark.parametrize(
    ("music", "spots"),
    [
        ("q 4b 5b she said", [("mark-unknown", "she said")]),
        ("q 4b 5b we", [("mark-unknown", "we")]),
        ("q 4b e4b5b", [("marks-together", "e4b5b")]),
        ("q4b -x", [("marks-together", "q4b -x")]),
        ("q 4b 1/32 5b", [("value-fraction", "1/32")]),
        ("3/8 4b ¼ 5b", [("value-fraction", "3/8"), ("value-fraction", "¼")]),
        ("q 4b (as on the tape) 5b", [("mark-unknown", "(as on the tape)")]),
        ("q (4b 5b", [("mark-unknown", "(4b")]),
        ("q (4b, 5b) 6b", [("notes-at-once", "(4b, 5b)")]),
        ("q 4b+5b+6b", [("notes-at-once", "4b+5b+6b")]),
        ("q 4b~~ 5b_", [("note-held", "4b~~"), ("note-held", "5b_")]),
        ("q ↑4 4⬇'", [("mark-unknown", "↑4"), ("note-breath", "4⬇'")]),
        ("q 3d” 4d” 5d", [("note-quote", "3d”"), ("note-quote", "4d”")]),
    ],
)
def test_words_in_music(music: str, spots: list[tuple[str, str]]) -> None:
    assert spots_of(f"lick a on I\n {music}\n") == spots


@pytest.mark.parametrize(
    ("line", "spots"),
    [
        ("harp C position 2nd feel swing", [("facts-on-a-line", "position"),
                                            ("facts-on-a-line", "feel")]),
        ("harp C title Kettle Creek", [("facts-on-a-line", "title")]),
        ("tuning natural minor level beginner", [("facts-on-a-line", "level")]),
        ("form Road feel", []),
        ("form Late tempo", []),
        ('form "Road tempo 96"', []),
        ("title The harp C position 2nd", []),
        ("say feel swing", []),
        ("tempo 96 bpm", []),
    ],
)  # fmt: skip
def test_facts_on_a_line(line: str, spots: list[tuple[str, str]]) -> None:
    assert spots_of(f"{line}\n") == spots


def test_the_facts_of_a_line_are_both_read() -> None:
    tree, _ = parse(
        Source("test.lesson", "harp C position 2nd # so\nform 12-bar standard tempo 9\n")
    )
    assert [(f.keyword.text, [w.text for w in f.words]) for f in tree.facts] == [
        ("harp", ["C"]), ("position", ["2nd"]), ("tempo", ["9"]),
    ]  # fmt: skip
    assert tree.forms[0].line.name
    assert tree.forms[0].line.name.text == "12-bar standard"


@pytest.mark.parametrize(
    ("line", "spot"),
    [
        ('every I "Nowhere"', ("title-for-name", '"Nowhere"')),
        ("every I “Front porch” x2", ("title-for-name", "“Front porch”")),
        ('every I "Front porch', ("quote-open", '"Front porch')),
        ("every I front porch x2", ("title-for-name", "front porch")),
        ("every I Front Porch, porch", ("title-for-name", "Front Porch")),
        ("every I back porch x2", ("name-of-words", "back porch")),
        ("every I back porch, porch", ("name-of-words", "back porch")),
        ("every I Back Porch", ("word-unexpected", "Porch")),
        ("turnaround porch x2", ("lick-in-play", "turnaround porch x2")),
        ("turnaround porch on I", None),
    ],
)
def test_lines_of_a_play(line: str, spot: tuple[str, str] | None) -> None:
    text = f'lick porch "Front porch" on I\n w 2d\nplay\n {line}\n'
    assert spots_of(text) == ([spot] if spot else [])


def test_a_title_that_two_licks_have_offers_no_name() -> None:
    licks = 'lick a "Porch" on I\n w 2d\nlick b "Porch" on I\n w 2d\n'
    (problem,) = parse(Source("test.lesson", f'{licks}play\n every I "Porch"\n'))[1]
    assert [hint for hint in problem.hints() if hint.edit] == []


def test_several_licks_placed_so_are_all_reported() -> None:
    text = "lick a on I\n w 2d\nplay\n lick a\n  turnaround a x2\nlick b\n"
    assert [code for code, _ in spots_of(text)] == ["lick-in-play"] * 3


def test_a_lick_without_its_chords_above_the_play_is_unfinished() -> None:
    assert [code for code, _ in spots_of("lick a\n w 2d\nplay\n")] == ["line-unfinished"]


@pytest.mark.parametrize(
    ("form", "on", "bars"),
    [
        ("12-bar standard", "I | V", "bars 11-12"),
        ("8-bar", "I | V", "bars 7-8"),
        ("16-bar", "I | V | I | I", "bars 13-16"),
        ("12-bar standard", "I", None),  # on one chord, of any length
        ('"Own"', "I | V", None),
        ("12-bar standard", " | ".join(["I"] * 13), None),
    ],
)
def test_the_bars_that_a_turnaround_is_for(form: str, on: str, bars: str | None) -> None:
    text = f"form {form}\nturnaround home on {on}\n w 2d\nplay\n turnaround home\n"
    (problem,) = parse(Source("test.lesson", text))[1]
    assert isinstance(problem, kinds.LickInPlay)
    assert problem.bars == bars


# Our own choice: round brackets are looked at for 300 characters, the spaces counted.
@pytest.mark.limit("language.strays._LONGEST_ROUND")
@pytest.mark.parametrize(("spaces", "code"), [(294, "notes-at-once"), (295, "mark-unknown")])
def test_round_brackets_of_any_length(spaces: int, code: str) -> None:
    assert spots_of(f"lick a on I\n q (4b{' ' * spaces}5b)\n")[0][0] == code


# Our own choice: the lick of repeat signs is looked for in the 2000 letters above them. The first
# line is 12 letters long with its line end, the spaces before the signs make up the rest.
@pytest.mark.limit("language.strays._LONGEST_LICK")
@pytest.mark.parametrize(("spaces", "placed"), [(1986, "every I a"), (1987, None)])
def test_the_lick_of_repeat_signs_is_looked_for_near_them(spaces: int, placed: str | None) -> None:
    text = f"\nlick a on I\n{' ' * spaces}q |: 4b :|\nplay\n  every I a\n"
    (problem,) = [p for p in parse(Source("a.lesson", text))[1] if p.code == "repeat-signs"]
    assert problem.fields["placed"] == placed
