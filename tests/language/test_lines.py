"""Every kind of line: facts, forms, tunings, shelves, rhythms, licks, what is played."""

from __future__ import annotations

import pytest

from formsheet.language import tree as t
from formsheet.language.written import chords_text
from formsheet.vocabulary.quotes import DOUBLE
from tests.helpers import lesson_text, problems_of
from tests.language.trees import asked, placed, slugs_of, spots_of, texts, tree_of


@pytest.mark.parametrize("fact", ["title", "teacher", "rights", "date", "say"])
@pytest.mark.parametrize(
    ("written", "text"),
    [
        ("Kettle Creek", "Kettle Creek"),
        ("lick on in rest 4d | [x2", "lick on in rest 4d | [x2"),
        ("Creek   # a comment", "Creek"),
        ("Take#2", "Take#2"),
        ('"Take # 2"', "Take # 2"),
        ("“Take # 2”", "Take # 2"),
        ('He says "take # 2" here # so', 'He says "take # 2" here'),
        ("He says “take # 2” here # so", "He says “take # 2” here"),
        ('A 6" rule # a comment', 'A 6" rule'),
        ("Don't, she said", "Don't, she said"),
    ],
)
def test_text_fact(fact: str, written: str, text: str) -> None:
    (line,) = tree_of(f"{fact}   {written}  \n").facts
    assert (line.keyword.text, texts(line.words)) == (fact, [text])


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("harp C", ["C"]),
        ("harp low F", ["low", "F"]),
        ("harp F#", ["F#"]),
        ("harp B♭ # flat", ["B♭"]),
        ("position 2nd", ["2nd"]),
        ("meter 12/8", ["12/8"]),
        ("tempo 104", ["104"]),
        ("learn 60", ["60"]),
        ("feel swing", ["swing"]),
        ("feel straight", ["straight"]),
        ("feel swing 3:2", ["swing", "3:2"]),
        ("feel swing 60%", ["swing", "60%"]),
        ("count-in 2", ["2"]),
    ],
)
def test_fact_of_words(line: str, words: list[str]) -> None:
    (fact,) = tree_of(line).facts
    assert (fact.keyword.text, texts(fact.words)) == (line.split(maxsplit=1)[0], words)


def test_value_of_a_fact_spans_all_its_words() -> None:
    assert tree_of("harp  low   F  # mine").facts[0].value.text == "low   F"


@pytest.mark.parametrize(
    ("line", "name", "ending"),
    [
        ("form 12-bar standard", "12-bar standard", ""),
        ("form  12-bar   quick-change", "12-bar quick-change", ""),
        ("form 8-bar ending I", "8-bar", "I"),
        ("form 8-bar ending I IV | I V", "8-bar", "I IV | I V"),
        ("form 8-bar ending | I  VI7|ii7 V7 |", "8-bar", "I VI7 | ii7 V7"),
        ('form "The never ending road" ending I', "The never ending road", "I"),
        ("form 12-bar standard ending V", "12-bar standard", "V"),
        ('form "Late tram"', "Late tram", ""),
        ("form “Late tram” ending I", "Late tram", "I"),
        ("form", None, ""),
    ],
)
def test_form_line(line: str, name: str | None, ending: str) -> None:
    form = tree_of(line).forms[0].line
    assert (form.name and form.name.text, chords_text(form.ending)) == (name, ending)


@pytest.mark.parametrize(
    ("line", "ending", "last_time"),
    [
        ("ending V", "V", False),
        ("ending I IV | I V", "I IV | I V", False),
        ("last  time ending I VI7|ii7 V7", "I VI7 | ii7 V7", True),
        ("ending | I | IV | I V |  # turn", "I | IV | I V", False),
    ],
)
def test_ending_line(line: str, ending: str, last_time: bool) -> None:
    found = tree_of(f"play\n{line}").plays[0].endings[0]
    assert (chords_text(found.bars), found.last_time) == (ending, last_time)


@pytest.mark.parametrize(
    ("line", "bars"),
    [
        ("| I7 | IV7 |", [["I7"], ["IV7"]]),
        ("I7 | IV7", [["I7"], ["IV7"]]),
        ("|I7|IV7|", [["I7"], ["IV7"]]),
        ("| I7 IV7 | V |", [["I7", "IV7"], ["V"]]),
        ("| ii7 | bVI7 | #ivdim7 | V7#9 |", [["ii7"], ["bVI7"], ["#ivdim7"], ["V7#9"]]),
        ("| i | iv # minor", [["i"], ["iv"]]),
    ],
)
def test_chord_line(line: str, bars: list[list[str]]) -> None:
    (row,) = tree_of(f"form\n  {line}\n").forms[0].rows
    assert [texts(bar) for bar in row.bars] == bars


def test_chord_lines_belong_to_the_form_above() -> None:
    assert len(tree_of("form\n | I |\n\n# the bridge\n | IV |\ntempo 60").forms[0].rows) == 2


@pytest.mark.parametrize(
    ("line", "name"),
    [("tuning richter", "richter"), ("tuning natural  minor", "natural minor"),
     ('tuning "ferry town"', "ferry town")],
)  # fmt: skip
def test_tuning_line(line: str, name: str) -> None:
    assert tree_of(line).tunings[0].line.name.text == name


def test_rows_of_an_own_tuning() -> None:
    block = tree_of("tuning camp\n blow C E Gb4\n draw D F# B♭\n").tunings[0]
    assert [(row.keyword.text, texts(row.notes)) for row in block.reeds] == [
        ("blow", ["C", "E", "Gb4"]),
        ("draw", ["D", "F#", "B♭"]),
    ]


@pytest.mark.parametrize(
    ("line", "items", "shelf"),
    [
        ("use home from corner", [("home", None)], "corner"),
        ("use home, walk from corner", [("home", None), ("walk", None)], "corner"),
        (
            "use home, walk as stroll from turnarounds",
            [("home", None), ("walk", "stroll")],
            "turnarounds",
        ),
        ("use home as a,walk from corner # mine", [("home", "a"), ("walk", None)], "corner"),
        ('use home from "old corner"', [("home", None)], "old corner"),
        ("use home from ../corner", [("home", None)], "../corner"),
    ],
)
def test_use_line(line: str, items: list[tuple[str, str | None]], shelf: str) -> None:
    (use,) = tree_of(line).uses
    found = [(item.name.text, item.alias and item.alias.text) for item in use.items]
    assert (found, use.shelf.text) == (items, shelf)


@pytest.mark.parametrize(
    ("text", "marks"),
    [
        ("rhythm trot q x e x x", ["q", "x", "e", "x", "x"]),
        ("rhythm trot\n  q x - = |\n  swing e x", ["q", "x", "-", "=", "|", "swing", "e", "x"]),
        ("rhythm trot q x # one\n  h x", ["q", "x", "h", "x"]),
        ("rhythm trot [q x]x2", ["[", "q", "x", "]x2"]),
    ],
)
def test_rhythm(text: str, marks: list[str]) -> None:
    (rhythm,) = tree_of(text).rhythms
    assert (rhythm.name.text, [mark.span.text for mark in rhythm.marks]) == ("trot", marks)


@pytest.mark.parametrize(
    ("line", "title", "chords", "rhythm"),
    [
        ("lick porch on I", None, "I", None),
        ('lick porch "Front porch" on I', "Front porch", "I", None),
        ("lick porch “Front porch” on I in trot", "Front porch", "I", "trot"),
        ('lick porch "Take # 2" on I # so', "Take # 2", "I", None),
        ("turnaround porch on I | V", None, "I | V", None),
        ("lick porch on I IV | I V", None, "I IV | I V", None),
        ("lick porch on I, IV", None, "I,IV", None),
        ("lick porch on I,IV V | ii7, iv7", None, "I,IV V | ii7,iv7", None),
    ],
)
def test_lick_line(line: str, title: str | None, chords: str, rhythm: str | None) -> None:
    found = tree_of(line).licks[0].line
    assert found is not None
    assert (found.keyword.text, found.name.text) == (line.split(maxsplit=1)[0], "porch")
    assert (found.title and found.title.text, asked(found.on)) == (title, chords)
    assert (found.rhythm and found.rhythm.text) == rhythm


@pytest.mark.parametrize("name", ["porch", "front-porch", "can't", "can’t", "höhle", "a2", "onward",
                                  "resting", "infield", "x-road", "Iris", "swinging"])  # fmt: skip
def test_name_of_a_lick(name: str) -> None:
    tree = tree_of(f"lick {name} on I\n w 2d\nplay\n every I {name}\n")
    assert tree.licks[0].name.text == name
    assert placed(tree.plays[0].every[0].placed) == name


def test_tips_of_a_lick() -> None:
    block = tree_of('lick a on I\n w 2d\n tip Let it ring; "so". # or not\n tip Two').licks[0]
    assert [tip.text.text for tip in block.tips] == ['Let it ring; "so".', "Two"]


@pytest.mark.parametrize(
    ("line", "title", "count"),
    [("play", None, None), ("play x3", None, "x3"), ('play "Second" x2', "Second", "x2"),
     ("play “Second”", "Second", None)],
)  # fmt: skip
def test_play_line(line: str, title: str | None, count: str | None) -> None:
    play = tree_of(line).plays[0].line
    assert [word and word.text for word in (play.title, play.times)] == [title, count]


@pytest.mark.parametrize(
    ("line", "chords", "what"),
    [
        ("every I porch", "I", "porch"),
        ("every IV7 porch x2", "IV7", "porch x2"),
        ("every I, IV porch, rest", "I,IV", "porch, REST"),
        ("every I V half x2,rest x2, porch", "I V", "half x2, REST x2, porch"),
        ("every iv rest # quiet", "iv", "REST"),
        ("every I resting", "I", "resting"),
    ],
)
def test_every_line(line: str, chords: str, what: str) -> None:
    (found,) = tree_of(f"play\n  {line}\n").plays[0].every
    assert (asked((found.on,)), placed(found.placed)) == (chords, what)


@pytest.mark.parametrize(
    ("line", "bars", "what", "last_time"),
    [
        ("bar 9 gate", "9", "gate", False),
        ("bars 9 gate", "9", "gate", False),
        ("bars 1-4 porch x2, creek x2", "1-4", "porch x2, creek x2", False),
        ("bars 1–4 porch", "1–4", "porch", False),
        ("bars 11-12 rest", "11-12", "REST", False),
        ("bars 11-12 rest, home", "11-12", "REST, home", False),
        ("last time bars 11-12 home", "11-12", "home", True),
        ("last  time bar 12 home x1", "12", "home x1", True),
    ],
)
def test_bars_line(line: str, bars: str, what: str, last_time: bool) -> None:
    (found,) = tree_of(f"play\n  {line}\n").plays[0].bars
    assert (found.range.text, placed(found.placed), found.last_time) == (bars, what, last_time)


def test_span_of_what_is_placed_has_its_count() -> None:
    item = tree_of("play\n every I porch x2, rest").plays[0].every[0].placed[0]
    assert item.span.text == "porch x2"


# ---- Lines that cannot be read, or stand where they cannot belong ------------------------


@pytest.mark.parametrize(
    ("text", "spot"),
    [
        ("lick porch", ("line-unfinished", "")),
        ("lick on I", ("name-missing", "lick")),
        ("lick porch on IX", ("word-unexpected", "IX")),
        ("tempo", ("line-unfinished", "")),
        ("use home", ("line-unfinished", "")),
        ("play\n every porch", ("word-unexpected", "porch")),
        ("play\n bars porch", ("word-unexpected", "porch")),
        ('lick porch "Front on I', ("quote-open", '"Front on I')),
        ("tempi 104", ("word-unknown", "tempi")),
        ("tip Let it ring", ("line-misplaced", "tip")),
        ("pickup e 1d", ("line-misplaced", "pickup")),
        ("every I porch", ("play-forgotten", "every")),
        ("every I porch\nplay", ("line-misplaced", "every")),
        ("bar 9 porch", ("play-forgotten", "bar")),
        ("blow C E G", ("line-misplaced", "blow")),
        ("| I7 | IV7 |", ("chords-misplaced", "I7 | IV7")),
        ("q 4d 5d", ("music-misplaced", "q 4d 5d")),
        ("lick a on I\n w 2d\ntempo 60", ("fact-late", "tempo")),
    ],
)
def test_line_that_is_wrong(text: str, spot: tuple[str, str]) -> None:
    assert spots_of(text) == [spot]


def test_a_broken_line_costs_no_other_line() -> None:
    text = "title A\ntempo\nlick porch on I\n  q 4x 5d\nplay\n  every porch\n  bar 9 porch\n"
    assert slugs_of(text) == ["line-unfinished", "word-unexpected", "note-breath"]


@pytest.mark.parametrize("fact", ["tempi 104", "tempo"])
def test_a_fact_that_cannot_be_read_is_not_missed_again(fact: str) -> None:
    from formsheet.language.parse import parse
    from formsheet.source import Source

    tree, _ = parse(Source("test.lesson", f"title A\n{fact}\nharp C\n"))
    assert tree.unread.facts == {"tempo"}


def test_a_lick_whose_first_line_is_broken_keeps_its_name() -> None:
    from formsheet.language.parse import parse
    from formsheet.language.recovery import LINE
    from formsheet.source import Source

    tree, _ = parse(Source("test.lesson", "lick porch no I\n  w 2d\n"))
    block: t.LickBlock = tree.licks[0]
    assert (block.name.text, block.line, block.unread) == ("porch", None, LINE)


# ---- How much is looked at -------------------------------------------------------------------


# Our own choice: a third word of a line that cannot be read may be the name, a fourth is not.
@pytest.mark.limit("language.parse._FIRST_WORDS")
@pytest.mark.parametrize(
    ("line", "slugs"),
    [
        ("lick front porch on I", ["name-of-words"]),
        ("lick the front porch on I", ["name-of-words", "lick-unknown"]),
        ("lick 2 porch on I", ["word-unexpected"]),
        ("lick 2 3 porch on I", ["word-unexpected", "lick-unknown"]),
    ],
)
def test_a_name_is_looked_for_in_three_words(line: str, slugs: list[str]) -> None:
    text = lesson_text(f"{line}\n  w 2d\nplay\n  bar 1 porch\n  bars 2-12 rest")
    assert [problem.code for problem in problems_of(text)] == slugs


# Our own choice: a title is kept up to 59 characters with its quotes.
@pytest.mark.limit("language.nameless._LONGEST")
@pytest.mark.parametrize(("letters", "kept"), [(57, True), (58, False)])
def test_a_long_title_is_left_out_of_what_to_write(letters: int, kept: bool) -> None:
    title = "a" * letters
    text = lesson_text(f'lick "{title}" on I\n  w 2d\nplay\n  bars 1-12 rest')
    (problem,) = [each for each in problems_of(text) if each.code == "name-missing"]
    assert problem.fields["guess"] == f"lick {title}" + (f' "{title}"' if kept else "")


# Our own choice: a note is looked for 30 characters back, the spaces counted.
@pytest.mark.limit("language.strays._LONGEST_NOTE")
@pytest.mark.parametrize(("spaces", "slug"), [(28, "ticks-apart"), (29, "mark-unknown")])
def test_ticks_far_from_their_note(spaces: int, slug: str) -> None:
    text = lesson_text(f"lick a on I\n  w 3d{' ' * spaces}''\nplay\n  bars 1-12 rest")
    assert slug in [problem.code for problem in problems_of(text)]


@pytest.mark.parametrize("name", ["once", "take", "link", "language"])
def test_newer_words_of_the_language_still_name_licks_and_rhythms(name: str) -> None:
    tree = tree_of(
        f"use {name}, home as {name} from corner\nrhythm {name} q x x\n"
        f"lick {name} on I in {name}\n  pickup once e 1d\n  2d 3d\n"
        f"play\n  every I {name} x2, {name}\n  bars 1-2 {name}\n"
    )
    assert [item.name.text for item in tree.uses[0].items] == [name, "home"]
    assert (tree.rhythms[0].name.text, tree.licks[0].name.text) == (name, name)
    assert [placed.name.text for placed in tree.plays[0].every[0].placed] == [name, name]


@pytest.mark.parametrize("opening", DOUBLE)
@pytest.mark.parametrize("closing", DOUBLE)
def test_double_quotes_of_any_language(opening: str, closing: str) -> None:
    title = f"{opening}Front porch{closing}"
    tree = tree_of(f"title {title} # so\nform {title}\nlick porch {title} on I\n  q 2d{title}\n")
    lick = tree.licks[0]
    assert tree.facts[0].words[0].text == "Front porch"
    assert tree.forms[0].line.name
    assert tree.forms[0].line.name.text == "Front porch"
    assert lick.line
    assert lick.line.title
    assert lick.line.title.text == "Front porch"
    assert isinstance(lick.marks[1], t.NoteMark)
    assert lick.marks[1].syllable
    assert lick.marks[1].syllable.text == "Front porch"


@pytest.mark.parametrize(
    ("written", "text"),
    [
        ("«\u00a0Front porch\u00a0»", "Front porch"),
        ("„He said “go” twice“", "„He said “go” twice“"),
        ("„Say 'yes'“", "Say 'yes'"),
        ('"The “old” porch"', "The “old” porch"),
        ("“The „old“ porch”", "The „old“ porch"),
        ("”Front” and ”back”", "”Front” and ”back”"),
        ("‚Front‘", "‚Front‘"),
        ("‘Front’", "‘Front’"),
        ("‹Front›", "‹Front›"),
        ('"The 5” rule"', "The 5” rule"),
        ('"The 5” rule" and “so on”', '"The 5” rule" and “so on”'),
        ('“The "old" porch”', 'The "old" porch'),
        ("A 6” rule # not 7”", "A 6” rule"),
    ],
)
def test_quotes_round_a_text(written: str, text: str) -> None:
    assert tree_of(f"title {written}\n").facts[0].words[0].text == text


def test_single_curly_quotes_are_ticks() -> None:
    marks = tree_of("lick a on I\n q 3d’ 3d’’ 3d′′\n").licks[0].marks[1:]
    assert [isinstance(mark, t.NoteMark) and mark.ticks for mark in marks] == [1, 2, 2]
