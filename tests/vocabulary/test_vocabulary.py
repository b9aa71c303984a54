"""The tables of words, held against the grammar, the model, and both places where words come in."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from formsheet.commands.files import UsageError
from formsheet.commands.named import named_key, read_option
from formsheet.language import tree as t
from formsheet.language.parse import parse
from formsheet.language.tables import read_grammar
from formsheet.lesson.facts import read_facts
from formsheet.lesson.model import Facts
from formsheet.lesson.writing_facts import fact_lines
from formsheet.problems.drawing import hint_texts
from formsheet.problems.problem import ERROR
from formsheet.resources import resource
from formsheet.source import Source
from formsheet.vocabulary import facts as table
from formsheet.vocabulary.facts import FACT_OF, FACTS, Fact, Shape
from formsheet.vocabulary.lines import KEYWORD_TERMINALS, KEYWORDS, USAGE
from tests.helpers import examined, lesson_of, lesson_text

MUSIC = "lick run on I\n  w -\nplay\n  bars 1-12 rest"

# ---- The table and the grammar -------------------------------------------------------------


def keyword_terminals() -> set[str]:
    """The terminals of the grammar that are words of letters alone."""
    plain = r'^([A-Z_]+)\.3:\s+(?:"[a-z-]+"|/\(\?:@\w+\)/|/bars\?/|/last\S+time/) \w*EDGE$'
    grammar = resource("grammar", "lesson.lark").read_text(encoding="utf-8")
    return set(re.findall(plain, grammar, re.MULTILINE))


def test_every_keyword_of_the_grammar_is_in_the_table_and_back() -> None:
    marks = {"HOLD", "PLACE"}  # `=` and `x` are signs
    assert keyword_terminals() - marks == set(KEYWORD_TERMINALS)


def test_the_words_of_facts_are_put_into_the_grammar() -> None:
    for shape in (Shape.TEXT, Shape.WORDS):
        (words,) = re.findall(rf"{shape.value.upper()}_FACT\.3:\s+/\(\?:(.*)\)/", read_grammar())
        assert words.split("|") == [fact.word for fact in FACTS if fact.shape is shape]


def test_every_row_is_in_the_table_once() -> None:
    rows = [value for value in vars(table).values() if isinstance(value, Fact)]
    assert sorted(fact.word for fact in rows) == sorted(fact.word for fact in FACTS)
    assert len(FACT_OF) == len(FACTS)
    assert not set(FACT_OF) & {keyword.word for keyword in KEYWORDS}


@pytest.mark.parametrize("line", USAGE.values())
def test_every_sample_is_a_line_of_the_language(line: str) -> None:
    above = "lick porch on I\n" if line.startswith(("pickup", "tip")) else ""
    above = "play\n" if line.startswith(("every", "bar", "last", "ending")) else above
    above = "tuning mine\n" if line.startswith(("blow", "draw")) else above
    above = "form mine\n" if line.startswith("|") else above
    assert parse(Source("a.lesson", above + line))[1] == []


# ---- The table and the model ---------------------------------------------------------------

LINE_FACTS = [fact for fact in FACTS if fact.shape is not Shape.BLOCK]


@pytest.mark.parametrize("fact", LINE_FACTS, ids=lambda fact: fact.word)
def test_a_fact_is_read_into_its_field_and_written_back(fact: Fact[Any]) -> None:
    tree, problems = parse(Source("a.licks", fact.sample))
    facts, more = read_facts(tree, lesson=False)
    assert problems + more == []
    value, default = getattr(facts, fact.field), getattr(Facts(), fact.field)
    assert (type(value) is tuple) == fact.repeats
    assert fact.write
    assert fact.always or value != default  # else nothing is written back here
    written = [
        " ".join((line.keyword.text, *(word.text for word in line.words)))
        for line in fact_lines(facts)
        if isinstance(line, t.Fact) and line.keyword.text == fact.word
    ]
    assert written == ([fact.sample] if fact.always or value != default else [])


@pytest.mark.parametrize("fact", LINE_FACTS, ids=lambda fact: fact.word)
def test_a_fact_is_given_once_unless_it_repeats(fact: Fact[Any]) -> None:
    tree, _ = parse(Source("a.licks", f"{fact.sample}\n{fact.sample}"))
    facts, problems = read_facts(tree, lesson=False)
    if fact.repeats:
        assert (len(getattr(facts, fact.field)), problems) == (2, [])
    else:
        assert [problem.code for problem in problems] == ["fact-twice"]


def test_every_field_of_the_model_has_a_fact() -> None:
    not_read = {"places", "unread", "form"}  # form has lines of its own
    assert set(Facts._fields) - not_read == {fact.field for fact in FACTS if fact.field}


@pytest.mark.parametrize("fact", [fact for fact in FACTS if fact.missing], ids=lambda f: f.word)
def test_a_required_fact_is_missed(fact: Fact[Any]) -> None:
    lines = lesson_text(MUSIC).splitlines()
    text = "\n".join(line for line in lines if line.split()[:1] != [fact.word])
    codes = [problem.code for problem in examined(text).problems if problem.severity is ERROR]
    assert codes == [f"{fact.word}-missing"]


@pytest.mark.parametrize("fact", [fact for fact in FACTS if fact.known], ids=lambda f: f.word)
def test_known_values_are_read(fact: Fact[Any]) -> None:
    for value in fact.known:
        assert examined(lesson_text(MUSIC, **{fact.word: value})).lesson
        if fact.value:
            read_option(fact, value)


# ---- What players say: the same words in a lesson and on the command line --------------------

SAID = [
    ("position", "cross", "cross is 2nd position: write `2nd`"),
    ("position", "slant harp", "slant is 3rd position: write `3rd`"),
    ("position", "second", "write `2nd`"),
    ("position", "third position", "write `3rd`"),
    ("position", "13th", "write `1st`, `2nd`, `3rd` and so on up to `12th`"),
    ("harp", "H", "the note `H` is written `B` here"),
    ("harp", "low Es", "the note `Es` is written `Eb` here"),
    ("harp", "Do", "the note `Do` is written `C` here"),
    ("harp", "fis", "did you mean `F#`?"),
    ("harp", "B flat", "did you mean `Bb`?"),
    ("harp", "C Richter", "did you mean `C`?"),
    ("harp", "lo F", "did you mean `low`?"),
    ("harp", "P", "harps come in C, Db, D, Eb, E, F, F#, G, Ab, A, Bb and B"),
    ("form", "minor blues", "did you mean `12-bar minor`?"),
    ("form", "12 bar", "did you mean `12-bar standard`?"),
    ("form", "16 bars", "did you mean `16-bar`?"),
    ("form", "quick change", "did you mean `12-bar quick-change`?"),
    ("tuning", "natral minor", "did you mean `natural minor`?"),
    ("meter", "5/4", "write `4/4`, `12/8`, `3/4` or `6/8`"),
    ("tempo", "fast", "write beats a minute, from 20 to 300, such as `tempo 100`"),
    ("feel", "shuffle", "did you mean `swing`?"),
    ("feel", "swing 9", "write `swing`, `swing 3:2` or `swing 60%`: the first note takes half the"
                        " beat or more"),
]  # fmt: skip


@pytest.mark.parametrize(("fact", "words", "hint"), SAID, ids=lambda value: str(value)[:12])
def test_lesson_and_option_give_the_same_hint(fact: str, words: str, hint: str) -> None:
    found = examined(lesson_text(MUSIC, **{fact: words})).problems
    (problem,) = (problem for problem in found if problem.severity is ERROR)
    assert hint in hint_texts(problem)
    with pytest.raises(UsageError) as caught:
        read_option(FACT_OF[fact], words)
    message, *hints = str(caught.value).split("\n  = ")
    assert message == problem.message()
    told = [each.replace(f"--{fact}", fact) for each in hints]
    assert hint in told
    own = [each for each in hint_texts(problem) if each not in told]  # its own form, its own reeds
    assert all(each.startswith("or ") and "below" in each for each in own)


@pytest.mark.parametrize(
    ("fact", "words", "same"),
    [
        ("position", "2ND", "2nd"), ("harp", "LOW b♭", "low Bb"), ("harp", "f#", "F#"),
        ("form", "12-Bar  Standard", "12-bar standard"),
        ("tuning", "Natural-Minor", "natural minor"),
        ("feel", "SWING", "swing"),
    ],
)  # fmt: skip
def test_capitals_are_no_matter_in_an_option(fact: str, words: str, same: str) -> None:
    assert read_option(FACT_OF[fact], words) == read_option(FACT_OF[fact], same)


@pytest.mark.parametrize(
    ("words", "right"),
    [("H", "B"), ("h-moll", '"B minor"'), ("B flat minor", '"Bb minor"'), ("C dur", "C"),
     ("es-moll", '"Eb minor"'), ("cis-moll", '"C# minor"'), ("la mineur", '"A minor"'),
     ("si bémol", "Bb"), ("Fa#", "F#"), ("P", 'G or "G minor"')],
)  # fmt: skip
def test_keys_of_a_song_as_players_say_them(words: str, right: str) -> None:
    with pytest.raises(UsageError, match=f"write {right}$"):
        named_key(words)


def test_the_defaults_hold_where_nothing_is_said() -> None:
    facts = lesson_of(lesson_text(MUSIC)).facts
    assert (facts.position, facts.meter.text, facts.count_in) == (2, "4/4", 1)


# ---- Half-done rows ------------------------------------------------------------------------


@pytest.mark.parametrize("fact", FACTS, ids=lambda fact: fact.word)
def test_a_fact_is_in_the_readme(fact: Fact[Any]) -> None:
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    assert f"`{fact.word} " in readme


WORDS_FACTS = [fact for fact in FACTS if fact.shape is Shape.WORDS]


@pytest.mark.parametrize("fact", WORDS_FACTS, ids=lambda fact: fact.word)
def test_a_fact_behind_another_on_its_line_is_recognised(fact: Fact[Any]) -> None:
    first = "harp C" if fact.word != "harp" else "tempo 90"
    problems = parse(Source("a.lesson", f"{first} {fact.sample}\n"))[1]
    assert [problem.code for problem in problems] == ["facts-on-a-line"]


@pytest.mark.parametrize(
    ("line", "codes"),
    [("tempo 90 harp low F", ["facts-on-a-line"]), ("tempo 90 harp very low F", ["tempo-unknown"])],
)
def test_a_second_fact_has_a_value_of_two_words_at_most(line: str, codes: list[str]) -> None:
    tree, problems = parse(Source("a.licks", f"{line}\n"))
    assert [problem.code for problem in (*problems, *read_facts(tree, lesson=False)[1])] == codes
