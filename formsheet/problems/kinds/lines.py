"""Files and lines: what can be wrong before a line is understood."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from formsheet.problems.edits import line_end, moved_up
from formsheet.problems.problem import ERROR, WARNING, Edit, Hint, Problem, Sample, Severity
from formsheet.problems.words import (
    any_of,
    code,
    did_you_mean,
    in_key,
    write,
)
from formsheet.source import Span


class FileMissing(Problem):
    """No file has the name that was given.

    A slip in the name, or another folder than the one you are in.
    """

    code = "file-missing"
    severity = ERROR
    bad = Sample(
        None, name="kitchn.lesson", beside=(("kitchen.lesson", "title Kitchen Shuffle\n"),)
    )
    good = Sample("title Kitchen Shuffle", name="kitchen.lesson")

    file: str

    def message(self) -> str:
        return f"there is no file {code(self.file)}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("check its name, and the folder it is in")


class FileTooLong(Problem):
    """All licks of the file together are longer than any handout could be.

    A bracket with a high count multiplies quickly: two inside each other already make hundreds of
    notes. The limit keeps a slip from stopping the computer.
    """

    code = "file-too-long"
    severity = ERROR
    bad = "".join(f"lick walk-{n} on I\n  [[s 2d 4d 2d 4d]x4 |]x90\n" for n in range(11))
    good = """
        lick walk on I
          [s 2d 4d 2d 4d]x3 q -
        bar 1 walk
        """

    most: int

    def message(self) -> str:
        return f"the licks of this file have more than {self.most} marks, repeats included"

    def hints(self) -> Iterator[Hint]:
        yield Hint("put some of them into a file of their own")


class FileTooLarge(Problem):
    """The file holds far more text than any lesson does.

    Most often it is something else, such as a recording, that was given the name of a lesson.
    """

    code = "file-too-large"
    severity = ERROR
    bad = Sample(b"# a remark of my own\n" * 5000)
    good = "# a remark of my own"

    file: str
    most: int

    def message(self) -> str:
        return f"{code(self.file)} is larger than any lesson: {self.most} bytes at most"

    def hints(self) -> Iterator[Hint]:
        yield Hint("check that it is a lesson")


class FileUnreadable(Problem):
    """The computer does not let you read this file.

    It may belong to somebody else, or lie on a drive that is not there at the moment.
    """

    code = "file-unreadable"
    severity = ERROR
    bad = Sample("title Kitchen Shuffle", locked=True)
    good = "title Kitchen Shuffle"

    file: str
    reason: str

    def message(self) -> str:
        return f"{code(self.file)} cannot be read: {self.reason}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("check the permissions of this file")


class FileNotUtf8(Problem):
    """The file's letters are stored in a way that cannot be read safely.

    Lessons are stored as UTF-8, the usual choice of today's editors. An older encoding turns
    accents and umlauts into other signs, and they would be printed wrong.
    """

    code = "file-not-utf8"
    severity = ERROR
    bad = Sample(b"title  Caf\xe9 Shuffle\n")
    good = "title  Café Shuffle"

    file: str

    def message(self) -> str:
        return f"{code(self.file)} is not UTF-8 text from here on"

    def hints(self) -> Iterator[Hint]:
        yield Hint("save it again, and choose UTF-8 as the encoding (not ANSI, not Unicode)")


class FileNotPlain(Problem):
    """The file was saved by a word processor in its own format.

    Fonts and margins are stored between the words there. A lesson is plain text: save it as such,
    or copy the text into a plain text editor.
    """

    code = "file-not-plain"
    severity = ERROR
    bad = Sample(rb"{\rtf1\ansi title Kitchen Shuffle}")
    good = "title Kitchen Shuffle"

    file: str

    def message(self) -> str:
        return f"{code(self.file)} is a word processor's file, not plain text"

    def hints(self) -> Iterator[Hint]:
        yield Hint("save it as plain text (.txt, UTF-8), and end its name in `.lesson`")


class ProblemsLeft(Problem):
    """The file has more problems than are printed at once.

    The gravest are printed first. Mend those: often one of them is the cause of many others.
    """

    code = "problems-left"
    bad = "lick creek on IV\n  q" + " 4bb" * 201
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    count: int
    gravest: Severity

    @property
    def severity(self) -> Severity:
        return self.gravest

    def message(self) -> str:
        return f"{self.count} more problem{'s' if self.count > 1 else ''} not shown"

    def hints(self) -> Iterator[Hint]:
        yield Hint("fix these first, then check again")


class WordUnknown(Problem):
    """A line begins with a word that means nothing at the beginning of a line.

    It is a slip of the pen, or a remark of your own that needs a `#` before it.
    """

    code = "word-unknown"
    severity = ERROR
    bad = Sample("temppo 100", without=("tempo",))
    good = "tempo 100"

    found: str
    near: str | None
    meant: str | None
    text_line: str | None
    plain: str | None
    synonym: str | None = None  # the keyword for which it is another word

    def message(self) -> str:
        return f"{code(self.found)} is an unknown word: neither a keyword nor a note"

    def hints(self) -> Iterator[Hint]:
        if self.synonym:
            yield write(self.synonym, self.span)
        if self.near:
            yield did_you_mean(self.near, self.span)
        if self.meant:
            yield Hint(self.meant)
        if self.text_line:
            yield Hint(
                f"a text is one line long: go on with {code(self.text_line)} on this line, or "
                "join the two"
            )
        if self.plain:
            yield Hint(f"if {code(self.plain)} begins a comment of yours, write `#` before it")


class LineDecorated(Problem):
    """A line begins with a bullet or a number, or it is one of the marks round a copied text.

    Each line of a lesson begins with its first word or its first mark of music.
    """

    code = "line-decorated"
    severity = ERROR
    bad = """
        play
          • every I   porch
          every IV  creek
          every V   gate
        """
    good = """
        play
          every I   porch
          every IV  creek
          every V   gate
        """

    alone: bool  # nothing else is on the line

    def message(self) -> str:
        if self.alone:
            return "these signs belong to the page that the lesson was copied from"
        return f"{code(self.span.text)} means nothing here; a line begins with its first word"

    def hints(self) -> Iterator[Hint]:
        source, end = self.span.source, self.span.end
        if self.alone:
            yield Hint("remove this line", Edit(self.span, ""))
            return
        gap = re.match(r"[ \t]*", source.text[end:])
        after = end + (gap.end() if gap else 0)
        yield Hint(f"remove {code(self.span.text)}", Edit(self.span._replace(end=after), ""))


class WordUnexpected(Problem):
    """A word is in a place where a line of this kind has something else.

    Each kind of line has its order: a lick, for example, has its name, its title in quotes, then
    `on` and its chords.
    """

    code = "word-unexpected"
    severity = ERROR
    bad = """
        lick creek IV
          q 4b 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    found: str
    wanted: Sequence[str]
    chord_expected: bool
    numerals: str | None = None
    key: str | None = None
    usage: str | None = None

    def message(self) -> str:
        return f"{code(self.found)} does not belong here; expected {any_of(self.wanted)}"

    def hints(self) -> Iterator[Hint]:
        if self.numerals and self.key:
            yield in_key(self.numerals, self.key, self.span)
        elif self.usage:
            yield Hint(f"write it like this: {code(self.usage)}")


class LineUnfinished(Problem):
    """A line stops before all its parts are there."""

    code = "line-unfinished"
    severity = ERROR
    bad = """
        play
          every I   porch
          every IV
          every V   gate
        """
    good = """
        play
          every I   porch
          every IV  creek
          every V   gate
        """

    last: str
    wanted: Sequence[str]
    chord_expected: bool
    usage: str | None = None

    def message(self) -> str:
        return f"the line ends too soon after {code(self.last)}; expected {any_of(self.wanted)}"

    def hints(self) -> Iterator[Hint]:
        if self.usage:
            yield Hint(f"write it like this: {code(self.usage)}")


class TextCut(Problem):
    """Part of a text would not be printed, because a `#` begins a comment of yours.

    Text in quotes may hold the sign.
    """

    code = "text-cut"
    severity = WARNING
    bad = "say Tap your #1 foot on all four beats."
    good = 'say "Tap your #1 foot on all four beats."'

    found: str
    text: Span  # that is printed

    def message(self) -> str:
        return f"from {code(self.found)} on this is a comment and is not printed"

    def hints(self) -> Iterator[Hint]:
        line = self.span.source.text[self.text.start :].partition("\n")[0].rstrip()
        whole = self.text._replace(end=self.text.start + len(line))
        edit = None if '"' in line else Edit(whole, f'"{line}"', certain=False)
        yield Hint("put the whole text in quotes to print it", edit)


class NameMissing(Problem):
    """A lick or a rhythm has a title but no name.

    The title is printed for the student; the name, one word, is what `play` calls it by.
    """

    code = "name-missing"
    severity = ERROR
    bad = Sample(
        """
        lick "Down the creek" on IV
          q 4b 5b 6b 4b
        play
          every I   porch
          every IV  down-the-creek
          every V   gate
        """,
        without=("lick creek",),
    )
    good = """
        lick creek "Down the creek" on IV
          q 4b 5b 6b 4b
        """

    keyword: str
    before: str
    guess: str

    def message(self) -> str:
        return f"a {self.keyword} needs a name, one word before {self.before}"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span, certain=False)


class CommentJoined(Problem):
    """A `#` is written directly after a word, so that it could be part of it.

    A remark of your own begins with a `#` that has a space before it.
    """

    code = "comment-joined"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b 6b 4b#slow
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b  # slow
        """

    found: str
    guess: str | None
    plain: str | None = None

    def message(self) -> str:
        return f"{code(self.found)}: a `#` begins a comment only at the start of a word"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            words = f"write {code(self.guess)}, with a space before the `#`"
            yield Hint(words, Edit(self.span, self.guess, certain=not self.plain))
        if self.plain:
            yield write(self.plain, self.span, certain=not self.guess)


class QuoteOpen(Problem):
    """Quoted words begin but do not end on this line.

    Titles, syllables and texts in quotes need the sign on both sides.
    """

    code = "quote-open"
    severity = ERROR
    bad = """
        lick creek "Down the creek on IV
          q 4b 5b 6b 4b
        """
    good = """
        lick creek "Down the creek" on IV
          q 4b 5b 6b 4b
        """

    bend: str | None = None

    def message(self) -> str:
        return "the quote that opens here is not closed on this line"

    def hints(self) -> Iterator[Hint]:
        if self.bend:
            words = f"for a bend of a whole step, write two ticks: {code(self.bend)}"
            before = self.span.source.text[: self.span.start].rstrip(" \t")
            ticks = self.span._replace(start=len(before))
            yield Hint(words, Edit(ticks, "''"))
        yield Hint('put a `"` at the end of the quoted words, or remove this one')


class BraceOpen(Problem):
    """A technique in braces has no closing brace."""

    code = "brace-open"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b{wah 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b{wah} 5b 6b 4b
        """

    guess: str

    def message(self) -> str:
        return "the brace that opens here is not closed; a technique is written in braces"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class LineMisplaced(Problem):
    """A line that belongs to a lick, a form or a tuning is not below one.

    A tip, for example, is printed on the card of the lick above it.
    """

    code = "line-misplaced"
    severity = ERROR
    bad = "tip Breathe low and easy."
    good = """
        lick porch on I
          q 2d 3d 4d 2d
          tip Breathe low and easy.
        """

    found: str
    owner: str

    def message(self) -> str:
        return (
            f"{code(self.found)} belongs under a {code(self.owner)} line, and there is none "
            "above it"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"move this line below the {code(self.owner)} line that it belongs to")


class ChordsMisplaced(Problem):
    """A row of chords is not below a `form` line."""

    code = "chords-misplaced"
    severity = ERROR
    bad = """
        tempo 100
          | I7 | IV7 | I7 | V7 |
        """
    good = """
        form "Pump house"
          | I7 | IV7 | I7 | V7 |
        """

    def message(self) -> str:
        return "chords without a `form` line above them"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `form` and a name in quotes on the line before")


class MusicMisplaced(Problem):
    """Notes are written where no lick or rhythm has begun.

    Every line of music belongs to the lick or rhythm above it.
    """

    code = "music-misplaced"
    severity = ERROR
    bad = "q 2d 3d 4d 2d"
    good = """
        lick porch on I
          q 2d 3d 4d 2d
        """

    def message(self) -> str:
        return "music without a `lick`, `turnaround` or `rhythm` line above it"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write a first line for it, such as `lick porch on I`")


class FactLate(Problem):
    """A fact about the whole lesson is written below a lick.

    Harp, tempo, form and the like come first, so that whoever reads the file knows them before the
    music.
    """

    code = "fact-late"
    severity = ERROR
    bad = """
        lick gate on V
          q 4d 5d 4d 1d
        learn 60
        """
    good = "learn 60"

    fact: str
    lick: Span | None  # of the first lick; None if lines below the fact belong to it

    def message(self) -> str:
        return f"{code(self.fact)} comes after the first lick"

    def hints(self) -> Iterator[Hint]:
        edit = moved_up(self.span, self.lick, certain=True) if self.lick else None
        yield Hint("move this line to the top, before the first lick", edit)


class FactTwice(Problem):
    """The same fact is written twice, and only one of the two can be meant."""

    code = "fact-twice"
    severity = ERROR
    bad = """
        harp C
        harp A
        """
    good = "harp C"

    fact: str

    def message(self) -> str:
        return f"{code(self.fact)} is given twice"

    def hints(self) -> Iterator[Hint]:
        yield Hint("keep one of the two lines")


class TitleForName(Problem):
    """A lick is placed by its title in quotes.

    The title is printed for the student. What places a lick is its name, the word behind `lick`.
    """

    code = "title-for-name"
    severity = ERROR
    bad = """
        lick creek "Down the creek" on IV
          q 4b 5b 6b 4b
        play
          every I   porch
          every IV  "Down the creek"
          every V   gate
        """
    good = """
        lick creek "Down the creek" on IV
          q 4b 5b 6b 4b
        play
          every I   porch
          every IV  creek
          every V   gate
        """

    found: str
    name: str | None

    def message(self) -> str:
        if self.name and self.found != self.name:
            return f"{code(self.found)} is the title of the lick {code(self.name)}; write its name"
        return "a lick is placed by its name, the word behind `lick`, without quotes"

    def hints(self) -> Iterator[Hint]:
        if self.name:
            yield write(self.name, self.span)


class LickInPlay(Problem):
    """The first line of a lick is below `play`, where licks are placed by their bars."""

    code = "lick-in-play"
    severity = ERROR
    bad = """
        turnaround home on I | V
          q 2d 3d 4d 2d | 4d 5d 4d 1d
        play
          every I   porch
          every IV  creek
          every V   gate
          turnaround home
        """
    good = """
        turnaround home on I | V
          q 2d 3d 4d 2d | 4d 5d 4d 1d
        play
          every I   porch
          every IV  creek
          every V   gate
          bars 11-12 home
        """

    keyword: str
    name: str
    bars: str | None
    guess: str

    def message(self) -> str:
        return (
            f"{code(self.keyword)} begins a new lick; under `play` a lick is placed by the bars "
            "that it is played in"
        )

    def hints(self) -> Iterator[Hint]:
        if self.bars:
            yield Hint(f"write {code(self.guess)}", Edit(self.span, self.guess))
        else:
            yield Hint(f"write the bars and its name, such as {code(self.guess)}")


class NameOfWords(Problem):
    """The name of a lick or a rhythm has several words.

    A name is one word, so that a count or a chord can follow it; hyphens may join its parts.
    """

    code = "name-of-words"
    severity = ERROR
    bad = """
        lick front porch on I
          q 2d 3d 4d 2d
        bar 1 front-porch
        """
    good = """
        lick front-porch on I
          q 2d 3d 4d 2d
        bar 1 front-porch
        """

    keyword: str
    guess: str

    def message(self) -> str:
        return f"{code(self.span.text)}: the name of a {self.keyword} is one word"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class FactsOnALine(Problem):
    """Two facts are on one line; each has a line of its own."""

    code = "facts-on-a-line"
    severity = ERROR
    bad = Sample("harp C position 2nd", without=("position",))
    good = """
        harp C
        position 2nd
        """

    first: str
    second: str
    at: int  # offset at which the second line begins

    def message(self) -> str:
        return (
            f"{code(self.first)} and {code(self.second)} are on one line; each fact has a line of "
            "its own"
        )

    def hints(self) -> Iterator[Hint]:
        words = f"begin a new line before {code(self.second)}"
        gap = Span(self.span.source, self.at, self.span.start)
        yield Hint(words, Edit(gap, line_end(gap.source)))
