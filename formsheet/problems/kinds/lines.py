"""Files and lines: what can be wrong before a line is understood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from formsheet.problems.problem import ERROR, REMARK, Edit, Hint, Problem, Severity
from formsheet.problems.words import (
    any_of,
    code,
    did_you_mean,
    write,
)
from formsheet.source import Span


class FileMissing(Problem):
    """TODO file-missing."""

    code = "file-missing"
    severity = ERROR

    file: str

    def message(self) -> str:
        return f"there is no file {code(self.file)}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("check its name, and the folder it is in")


class FileTooLong(Problem):
    """TODO file-too-long."""

    code = "file-too-long"
    severity = ERROR

    most: int

    def message(self) -> str:
        return f"the licks of this file come to more than {self.most} marks, repeats written out"

    def hints(self) -> Iterator[Hint]:
        yield Hint("put some of them into a file of their own")


class FileTooLarge(Problem):
    """TODO file-too-large."""

    code = "file-too-large"
    severity = ERROR

    file: str
    most: int

    def message(self) -> str:
        return f"{code(self.file)} is larger than any lesson: {self.most} bytes at most"

    def hints(self) -> Iterator[Hint]:
        yield Hint("check that it is a lesson")


class FileUnreadable(Problem):
    """TODO file-unreadable."""

    code = "file-unreadable"
    severity = ERROR

    file: str
    reason: str

    def message(self) -> str:
        return f"{code(self.file)} cannot be read: {self.reason}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("check who may read this file")


class FileNotUtf8(Problem):
    """TODO file-not-utf8."""

    code = "file-not-utf8"
    severity = ERROR

    file: str

    def message(self) -> str:
        return f"{code(self.file)} is not UTF-8 text from here on"

    def hints(self) -> Iterator[Hint]:
        yield Hint("save it again from your editor with the encoding UTF-8")


class FileNotPlain(Problem):
    """TODO file-not-plain."""

    code = "file-not-plain"
    severity = ERROR

    file: str

    def message(self) -> str:
        return f"{code(self.file)} is a word processor's file, not plain text"

    def hints(self) -> Iterator[Hint]:
        yield Hint("save it as plain text (.txt, UTF-8), and end its name in `.lesson`")


class ProblemsLeft(Problem):
    """TODO problems-left."""

    code = "problems-left"

    count: int
    gravest: Severity

    @property
    def severity(self) -> Severity:
        return self.gravest

    def message(self) -> str:
        return f"the rest is not told here: {self.count} more"

    def hints(self) -> Iterator[Hint]:
        yield Hint("mend what is told, then check again")


class WordUnknown(Problem):
    """TODO word-unknown."""

    code = "word-unknown"
    severity = ERROR

    found: str
    near: str | None
    meant: str | None
    text_line: str | None
    plain: str | None

    def message(self) -> str:
        return f"{code(self.found)} begins no line of a lesson, and is no mark of music"

    def hints(self) -> Iterator[Hint]:
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
            yield Hint(f"if {code(self.plain)} begins a remark of your own, write `#` before it")


class WordUnexpected(Problem):
    """TODO word-unexpected."""

    code = "word-unexpected"
    severity = ERROR

    found: str
    wanted: Sequence[str]
    chord_expected: bool
    numerals: str | None = None
    key: str | None = None
    usage: str | None = None

    def message(self) -> str:
        return f"{code(self.found)} cannot stand here; expected {any_of(self.wanted)}"

    def hints(self) -> Iterator[Hint]:
        if self.numerals and self.key:
            yield Hint(
                f"write {code(self.numerals)}: that is what it is in {self.key}, the key of "
                "this lesson"
            )
        if self.usage:
            yield Hint(f"write it like this: {code(self.usage)}")


class LineUnfinished(Problem):
    """TODO line-unfinished."""

    code = "line-unfinished"
    severity = ERROR

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
    """TODO text-cut."""

    code = "text-cut"
    severity = REMARK

    found: str

    def message(self) -> str:
        return f"from {code(self.found)} on this is a comment and is not printed"

    def hints(self) -> Iterator[Hint]:
        yield Hint("put the whole text in quotes to print it")


class NameMissing(Problem):
    """TODO name-missing."""

    code = "name-missing"
    severity = ERROR

    keyword: str
    before: str
    guess: str

    def message(self) -> str:
        return f"a {self.keyword} needs a name, one word before {self.before}"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class CommentJoined(Problem):
    """TODO comment-joined."""

    code = "comment-joined"
    severity = ERROR

    found: str
    guess: str | None
    plain: str | None = None

    def message(self) -> str:
        return f"{code(self.found)}: a `#` begins a remark of your own only at the start of a word"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            words = f"write {code(self.guess)}, with a space before the `#`"
            yield Hint(words, Edit(self.span, self.guess))
        if self.plain:
            yield write(self.plain, self.span)


class QuoteOpen(Problem):
    """TODO quote-open."""

    code = "quote-open"
    severity = ERROR

    bend: str | None = None

    def message(self) -> str:
        return "the quote that opens here is not closed on this line"

    def hints(self) -> Iterator[Hint]:
        if self.bend:
            yield Hint(f"for a bend of a whole step, write two ticks: {code(self.bend)}")
        yield Hint('put a `"` at the end of the quoted words, or take this one out')


class BraceOpen(Problem):
    """TODO brace-open."""

    code = "brace-open"
    severity = ERROR

    guess: str

    def message(self) -> str:
        return "the brace that opens here is not closed; a technique stands in braces"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class LineMisplaced(Problem):
    """TODO line-misplaced."""

    code = "line-misplaced"
    severity = ERROR

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
    """TODO chords-misplaced."""

    code = "chords-misplaced"
    severity = ERROR

    def message(self) -> str:
        return "chords stand here, but no `form` line is above them"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `form` and a name in quotes on the line before")


class MusicMisplaced(Problem):
    """TODO music-misplaced."""

    code = "music-misplaced"
    severity = ERROR

    def message(self) -> str:
        return "music stands here, but no `lick`, `turnaround` or `rhythm` line is above it"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write a first line for it, such as `lick porch on I`")


class FactLate(Problem):
    """TODO fact-late."""

    code = "fact-late"
    severity = ERROR

    fact: str

    def message(self) -> str:
        return f"{code(self.fact)} stands after the first lick"

    def hints(self) -> Iterator[Hint]:
        yield Hint("move this line to the top, before the first lick")


class FactTwice(Problem):
    """TODO fact-twice."""

    code = "fact-twice"
    severity = ERROR

    fact: str

    def message(self) -> str:
        return f"{code(self.fact)} is given twice"

    def hints(self) -> Iterator[Hint]:
        yield Hint("keep one of the two lines")


class TitleForName(Problem):
    """Words in quotes stand where a lick is placed. Licks are placed by name, not by title."""

    code = "title-for-name"
    severity = ERROR

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
    """A lick's first line under `play`, where licks are placed by the bars they are played in."""

    code = "lick-in-play"
    severity = ERROR

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
    """A name of several words. Names of licks and rhythms are one word; hyphens may join parts."""

    code = "name-of-words"
    severity = ERROR

    keyword: str
    guess: str

    def message(self) -> str:
        return f"{code(self.span.text)}: the name of a {self.keyword} is one word"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class FactsOnALine(Problem):
    """Two facts on one line. Each fact has a line of its own."""

    code = "facts-on-a-line"
    severity = ERROR

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
        yield Hint(words, Edit(gap, "\n"))
