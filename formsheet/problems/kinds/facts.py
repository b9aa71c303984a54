"""The facts at the top of a lesson, its form and its tuning."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.listing import listed
from formsheet.problems.problem import ERROR, REMARK, WARNING, Edit, Hint, Problem
from formsheet.problems.words import (
    bar_count,
    code,
    did_you_mean,
    number,
    one_of,
    write,
)


class TextEmpty(Problem):
    """TODO text-empty."""

    code = "text-empty"
    severity = ERROR

    fact: str

    def message(self) -> str:
        return f"{code(self.fact)} has nothing between its quotes"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write the text after {code(self.fact)}")


class LanguageUnknown(Problem):
    """What follows `language` is not a version of the lesson language, such as `1.1`."""

    code = "language-unknown"
    severity = ERROR

    found: str
    newest: str

    def message(self) -> str:
        return f"{code(self.found)} is not a version of the lesson language"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write {code(f'language {self.newest}')}, or leave the line out")


class LanguageNewer(Problem):
    """The file is written for a newer version of the lesson language than this formsheet reads.

    Nothing else in it is checked: it may hold lines that only the newer version knows.
    """

    code = "language-newer"
    severity = ERROR

    found: str
    newest: str

    def message(self) -> str:
        return (
            f"this file is written for version {self.found} of the lesson language; this "
            f"formsheet reads versions up to {self.newest}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("install a newer formsheet")


class LinkWords(Problem):
    """A link is a title in quotes and one address, in this order."""

    code = "link-words"
    severity = ERROR

    guess: str | None  # with quotes around the title
    usage: str

    def message(self) -> str:
        return "a link is a title in quotes, then one address"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            yield write(self.guess, self.span)
        yield Hint(f"write it like this: {code(self.usage)}")


class LinkAddress(Problem):
    """The address of a link is not the whole address of a web page, http or https.

    Other kinds of address (`javascript:`, `data:`, `file:`), and one that names a user before its
    host, are never put into a handout.
    """

    code = "link-address"
    severity = ERROR

    found: str
    near: str | None

    def message(self) -> str:
        return f"{code(self.found)} is not the address of a web page"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint(
            "copy the whole address from the browser; it begins with `https://` or `http://`, and "
            "has no spaces"
        )


class LearnAboveTempo(Problem):
    """TODO learn-above-tempo."""

    code = "learn-above-tempo"
    severity = WARNING

    learn: Fraction
    tempo: Fraction

    def message(self) -> str:
        learn, tempo = number(self.learn), number(self.tempo)
        return f"students would start at {learn}, above the tempo of the tune, {tempo}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("give `learn` a lower number than `tempo`")


class TitleMissing(Problem):
    """TODO title-missing."""

    code = "title-missing"
    severity = ERROR

    def message(self) -> str:
        return "the lesson has no title"

    def hints(self) -> Iterator[Hint]:
        yield Hint("add a line such as `title Kitchen Shuffle`")


class HarpMissing(Problem):
    """TODO harp-missing."""

    code = "harp-missing"
    severity = ERROR

    def message(self) -> str:
        return "the lesson does not say for which harp it is"

    def hints(self) -> Iterator[Hint]:
        yield Hint("add a line such as `harp C`, `harp Bb` or `harp low F`")


class FormMissing(Problem):
    """TODO form-missing."""

    code = "form-missing"
    severity = ERROR

    def message(self) -> str:
        return "the lesson does not say which form it follows"

    def hints(self) -> Iterator[Hint]:
        yield Hint("add a line such as `form 12-bar standard`")


class TempoMissing(Problem):
    """TODO tempo-missing."""

    code = "tempo-missing"
    severity = ERROR

    def message(self) -> str:
        return "the lesson has no tempo"

    def hints(self) -> Iterator[Hint]:
        yield Hint("add a line such as `tempo 104`: beats a minute")


class HarpUnknown(Problem):
    """TODO harp-unknown."""

    code = "harp-unknown"
    severity = ERROR

    found: str
    near: str | None
    german: str | None

    def message(self) -> str:
        return f"no harp is stamped {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        if self.german and self.near:
            yield Hint(f"{code(self.german)} is {code(self.near)} here")
        yield Hint("harps come in C, Db, D, Eb, E, F, F#, G, Ab, A, Bb and B")


class HarpRegister(Problem):
    """TODO harp-register."""

    code = "harp-register"
    severity = ERROR

    found: str
    key: str
    near: str | None

    def message(self) -> str:
        return f"a harp is `low` or `high`, not {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint(
            f"write {code(f'low {self.key}')} or {code(f'high {self.key}')}, or "
            f"{code(self.key)} alone"
        )


class PositionUnknown(Problem):
    """TODO position-unknown."""

    code = "position-unknown"
    severity = ERROR

    found: str
    nickname: str | None
    meant: str | None
    plain: str | None

    def message(self) -> str:
        return f"{code(self.found)} is no position"

    def hints(self) -> Iterator[Hint]:
        if self.nickname and self.meant:
            words = f"{self.nickname} is {self.meant} position: write {code(self.meant)}"
            yield Hint(words, Edit(self.span, self.meant))
        if self.plain:
            yield write(self.plain, self.span)
        yield Hint("write `1st`, `2nd`, `3rd` and so on up to `12th`")


class MeterUnknown(Problem):
    """TODO meter-unknown."""

    code = "meter-unknown"
    severity = ERROR

    found: str
    known: Sequence[str]

    def message(self) -> str:
        return f"{code(self.found)} is no meter that the sheet can count"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write {one_of(self.known)}")


class TempoUnknown(Problem):
    """TODO tempo-unknown."""

    code = "tempo-unknown"
    severity = ERROR

    found: str
    slowest: int
    fastest: int
    fact: str

    def message(self) -> str:
        return f"{code(self.found)} is no tempo"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            f"write beats a minute, from {self.slowest} to {self.fastest}, such as "
            f"{code(f'{self.fact} 100')}"
        )


class FeelUnknown(Problem):
    """TODO feel-unknown."""

    code = "feel-unknown"
    severity = ERROR

    found: str
    near: str | None

    def message(self) -> str:
        return f"{code(self.found)} is no feel"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint("write `swing` or `straight`")


class FeelRatio(Problem):
    """TODO feel-ratio."""

    code = "feel-ratio"
    severity = ERROR

    found: str

    def message(self) -> str:
        return f"{code(self.found)} does not say how a pair of eighths divides"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "write `swing`, `swing 3:2` or `swing 60%`: the first note takes half the beat or more"
        )


class LevelUnknown(Problem):
    """TODO level-unknown."""

    code = "level-unknown"
    severity = ERROR

    found: str
    near: str | None
    known: Sequence[str]

    def message(self) -> str:
        return f"{code(self.found)} is no level of a student"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint(f"write {one_of(self.known)}")


class CountInUnknown(Problem):
    """TODO count-in-unknown."""

    code = "count-in-unknown"
    severity = ERROR

    found: str
    most: int

    def message(self) -> str:
        return f"{code(self.found)} is no count-in"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write how many bars are counted, 0 to {self.most}")


class FormUnknown(Problem):
    """TODO form-unknown."""

    code = "form-unknown"
    severity = ERROR

    found: str
    near: str | None
    known: Sequence[str]
    own: bool  # whether one's own could be written here

    def message(self) -> str:
        return f"there is no form called {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint(f"the built-in forms are {one_of(self.known)}")
        if self.own:
            yield Hint(
                "or write your own: its chords on the lines below, such as `| I7 | IV7 | I7 | V7 |`"
            )


class FormEmpty(Problem):
    """TODO form-empty."""

    code = "form-empty"
    severity = ERROR

    def message(self) -> str:
        return "this form has neither a name nor chords"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "write `form 12-bar standard`, or chord lines such as `| I7 | IV7 | I7 | V7 |` below"
        )


class FormOwnChords(Problem):
    """TODO form-own-chords."""

    code = "form-own-chords"
    severity = REMARK

    found: str

    def message(self) -> str:
        return (
            f"{code(self.found)} is a form that is known by this name; the chords below take "
            "its place"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("take the chord lines out, or give your own form a name of its own")


class FormPlainTriads(Problem):
    """A form of one's own has plain triads alone, and the tune plays blue notes of its key."""

    code = "form-plain-triads"
    severity = REMARK

    degrees: Sequence[str]
    sevenths: str

    def message(self) -> str:
        blue = listed(self.degrees, "and")
        return (
            f"these chords are plain triads, and the tune plays the {blue} of its key, as blues do"
        )

    def hints(self) -> Iterator[Hint]:
        words = "if it is a blues, write the sevenths: `I7`, `IV7`, `V7`"
        yield Hint(words, Edit(self.span, self.sevenths, certain=False))


class FormTooLong(Problem):
    """TODO form-too-long."""

    code = "form-too-long"
    severity = ERROR

    length: int
    most: int

    def message(self) -> str:
        return f"this form has {self.length} bars; {self.most} is the most"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write one chorus only, and say at `play` how often it is played: `play x2`")


class EndingTooLong(Problem):
    """An ending replaces the last bars of a form, as many as it names; the form has fewer."""

    code = "ending-too-long"
    severity = ERROR

    length: int
    form: str
    form_bars: int

    def message(self) -> str:
        named = bar_count(self.length)
        return f"this ending names {named}; the form {code(self.form)} has {self.form_bars}"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"name {bar_count(self.form_bars)} at most: the last bars of a chorus")


class EndingTwice(Problem):
    """TODO ending-twice."""

    code = "ending-twice"
    severity = ERROR

    def message(self) -> str:
        return "these choruses end in two ways"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "take one of the two lines out, or write `last time` before the one for the last chorus"
        )


class BarChords(Problem):
    """TODO bar-chords."""

    code = "bar-chords"
    severity = ERROR

    count: int
    apart: str

    def message(self) -> str:
        return f"{self.count} chords share this bar; a bar holds one, or two that change halfway"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"put `|` between the bars: {code(self.apart)}")


class ChordUnknown(Problem):
    """TODO chord-unknown."""

    code = "chord-unknown"
    severity = ERROR

    found: str
    numerals: str | None = None
    key: str | None = None

    def message(self) -> str:
        return f"{code(self.found)} is no chord that the tool knows"

    def hints(self) -> Iterator[Hint]:
        if self.numerals and self.key:
            yield Hint(
                f"write {code(self.numerals)}: that is what it is in {self.key}, the key of "
                "this lesson"
            )
        yield Hint(
            "chords are numerals, small letters for minor, such as `I7`, `IV7`, `V7`, "
            "`ii7` or `bVI7`"
        )


class TuningUnknown(Problem):
    """TODO tuning-unknown."""

    code = "tuning-unknown"
    severity = ERROR

    found: str
    near: str | None
    known: Sequence[str]
    own: bool  # whether one's own could be written here

    def message(self) -> str:
        return f"there is no tuning called {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint(f"the built-in tunings are {one_of(self.known)}")
        if self.own:
            yield Hint(
                "or define it: a `blow` line and a `draw` line below, with its notes on a C harp"
            )


class TuningRowMissing(Problem):
    """TODO tuning-row-missing."""

    code = "tuning-row-missing"
    severity = ERROR

    name: str
    row: str

    def message(self) -> str:
        return f"the tuning {code(self.name)} has no {code(self.row)} line"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "give both rows, `blow` and `draw`, each with the notes of ten holes on a C harp"
        )


class TuningRowTwice(Problem):
    """TODO tuning-row-twice."""

    code = "tuning-row-twice"
    severity = ERROR

    row: str

    def message(self) -> str:
        return f"this tuning has two {code(self.row)} lines"

    def hints(self) -> Iterator[Hint]:
        yield Hint("keep one of them")


class TuningHoles(Problem):
    """TODO tuning-holes."""

    code = "tuning-holes"
    severity = ERROR

    row: str
    count: int
    holes: int
    usage: str

    def message(self) -> str:
        return f"this {self.row} row has {self.count} notes; a harp has {self.holes} holes"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write it like this: {code(self.usage)}")


class TuningNote(Problem):
    """TODO tuning-note."""

    code = "tuning-note"
    severity = ERROR

    found: str
    near: str | None

    def message(self) -> str:
        return f"{code(self.found)} is no note"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint("write `C`, `Bb`, `F#`, or with octave `C5`")


class TuningRange(Problem):
    """TODO tuning-range."""

    code = "tuning-range"
    severity = ERROR

    found: str

    def message(self) -> str:
        return f"{code(self.found)} lies outside the range of a C harp"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "notes rise from hole to hole; check the one before, or give the octave, such as `C5`"
        )
