"""Marks of music, bars, licks and rhythms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from formsheet.problems.edits import inserted, removed
from formsheet.problems.problem import ERROR, REMARK, Edit, Hint, Problem
from formsheet.problems.words import (
    bar_count,
    code,
    did_you_mean,
    one_of,
    write,
)
from formsheet.source import Span

_STOPS = (",", ".", ";", ":")  # behind a note, out of habit
_MANY_MEANINGS = ("~", "_")  # signs that other hands use for holds, rests and shakes


class ForeignBreath(NamedTuple):
    """A letter for a breath in tab of another language."""

    breath: str  # as it is written here
    words: str  # what the letter is for: "draw (ziehen)"


class NoteBreath(Problem):
    """A note has no breath, or one that is written in another way.

    The hole alone does not name a note: every hole has one for blow and one for draw.
    """

    code = "note-breath"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    found: str
    guess: str | None
    holes: str | None
    foreign: ForeignBreath | None = None  # where the letter is that of a breath elsewhere

    def message(self) -> str:
        return (
            f"{code(self.found)} is not a note: after the holes comes the breath, `b` for blow "
            "or `d` for draw"
        )

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            yield write(self.guess, self.span)
        if self.foreign and self.holes:
            meant, letter = f"{self.holes}{self.foreign.breath}", self.found[-1]
            words = f"if {code(letter)} is for {self.foreign.words}, write {code(meant)}"
            yield Hint(words, Edit(self.span, meant, certain=False))
        elif self.holes:
            yield Hint(f"write {code(f'{self.holes}b')} or {code(f'{self.holes}d')}")


class NoteCapital(Problem):
    """The breath is written with a capital letter.

    Small letters are the breath, so that a `B` or `D` can never be taken for a note of that name.
    """

    code = "note-capital"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4B 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    found: str
    guess: str

    def message(self) -> str:
        return (
            f"{code(self.found)} has a capital letter; the breath is a small one, `b` for "
            "blow or `d` for draw"
        )

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class NoteQuote(Problem):
    """A bend is written with a quotation mark in place of ticks.

    Word processors turn two ticks into one such sign by themselves.
    """

    code = "note-quote"
    severity = ERROR
    bad = """
        lick porch on I
          q 2d” 3d 4d 2d
        """
    good = """
        lick porch on I
          q 2d'' 3d 4d 2d
        """

    found: str
    sign: str
    guess: str

    def message(self) -> str:
        return (
            f"{code(self.found)} is bent with a {code(self.sign)}; a bend is a tick `'` for "
            "each half step"
        )

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class TicksApart(Problem):
    """There is a space between a note and the ticks of its bend."""

    code = "ticks-apart"
    severity = ERROR
    bad = """
        lick porch on I
          q 2d '' 3d 4d 2d
        """
    good = """
        lick porch on I
          q 2d'' 3d 4d 2d
        """

    guess: str

    def message(self) -> str:
        return "the ticks of a bend follow their note without a space"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class NoteAccidental(Problem):
    """A note of the tab has a sharp or a flat.

    Tab names what the player does, not the pitch: a lower note on the same hole is a bend, one tick
    for each half step.
    """

    code = "note-accidental"
    severity = ERROR
    bad = """
        lick porch on I
          q 3db 3d 4d 2d
        """
    good = """
        lick porch on I
          q 3d' 3d 4d 2d
        """

    found: str
    sign: str
    bent: str | None
    plain: str

    def message(self) -> str:
        return (
            f"{code(self.found)} has a {self.sign}; a bend is written with a tick `'` for each "
            "half step"
        )

    def hints(self) -> Iterator[Hint]:
        if self.bent:
            words = f"write {code(self.bent)} for the bend"
            yield Hint(words, Edit(self.span, self.bent, certain=False))
        words = f"write {code(self.plain)} for the note without a {self.sign}"
        yield Hint(words, Edit(self.span, self.plain, certain=False))


class HolesParted(Problem):
    """The holes of a chord have a sign between them."""

    code = "holes-parted"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 4-5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 45b 6b 4b
        """

    found: str
    guess: str

    def message(self) -> str:
        if self.found.startswith("("):
            return (
                f"{code(self.found)} has brackets; write the holes of a chord together, and then "
                "the breath once"
            )
        return f"{code(self.found)} separates the holes of a chord; write them together"

    def hints(self) -> Iterator[Hint]:
        in_brackets = self.found.startswith("(")
        yield write(self.guess, self.span, certain=in_brackets)  # else notes in a row may be meant


class BracketsRound(Problem):
    """A word after a note is in round brackets.

    A technique is in braces; a word to say or to print under the note is in quotes.
    """

    code = "brackets-round"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b(wah) 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b{wah} 5b 6b 4b
        """

    found: str
    guess: str

    def message(self) -> str:
        return (
            f"{code(self.found)} has a word in round brackets; a technique is written in braces, "
            "a word to print under the note in quotes"
        )

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class NoteTail(Problem):
    """Something is written directly after a note that is no part of it."""

    code = "note-tail"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b, 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    found: str
    tail: str
    guess: str

    def message(self) -> str:
        return (
            f"{code(self.found)} has a {code(self.tail)} after the note; separate marks with spaces"
        )

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span, certain=self.tail in _STOPS)


class NoteMixed(Problem):
    """One chord has holes on both breaths.

    A player breathes in or out, never both at once.
    """

    code = "note-mixed"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b 6b5d
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 5d
        """

    found: str
    apart: str

    def message(self) -> str:
        return f"{code(self.found)} mixes two breaths; all holes of a chord sound on one"

    def hints(self) -> Iterator[Hint]:
        words = f"write the notes one after the other: {code(self.apart)}"
        yield Hint(words, Edit(self.span, self.apart, certain=False))


class MarksTogether(Problem):
    """Two notes or values have no space between them."""

    code = "marks-together"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    found: str
    apart: str
    chord: str | None

    def message(self) -> str:
        return f"{code(self.found)} runs marks together; separate them with spaces"

    def hints(self) -> Iterator[Hint]:
        alone = not self.chord and self.found[0].isalpha()  # a value; two notes may be a split
        yield write(self.apart, self.span, certain=alone)
        if self.chord:
            words = f"or, as one chord, {code(self.chord)}"
            yield Hint(words, Edit(self.span, self.chord, certain=False))


class NoteHole(Problem):
    """A note has a hole that the harp lacks."""

    code = "note-hole"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b 6b 11b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 10b
        """

    found: str
    hole: int

    def message(self) -> str:
        return f"{code(self.found)}: there is no hole {self.hole}; the holes are 1 to 10"

    def hints(self) -> Iterator[Hint]:
        if self.hole == 0 and self.found.startswith("0"):
            ten = f"1{self.found}"
            yield Hint(f"for hole 10 write {code(ten)}", Edit(self.span, ten))
        else:
            yield Hint("write the hole that is meant; hole 10 needs its 1, as in `10d`")


class NoteOrder(Problem):
    """The signs after a note are in another order than the one that is read.

    After the note comes `!` for a clash that is meant, then the technique in braces, then the word
    in quotes.
    """

    code = "note-order"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b"ka"! 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b!"ka" 5b 6b 4b
        """

    found: str
    ordered: Edit | None = None  # of the whole note, where its parts are known

    def message(self) -> str:
        return (
            f"{code(self.found)} is out of order: after a note come `!`, then the technique, "
            "then the syllable"
        )

    def hints(self) -> Iterator[Hint]:
        if self.ordered:
            yield Hint(f"write {code(self.ordered.text)}", self.ordered)
        else:
            yield Hint('write it like this: `4d!{wah}"ka"`')


class CountStray(Problem):
    """A count is written where no bracket has closed.

    Only a group in brackets is played several times.
    """

    code = "count-stray"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b x2
        """
    good = """
        lick creek on IV
          [q 4b 5b]x2
        """

    found: str

    def message(self) -> str:
        return f"{code(self.found)} has nothing to repeat here"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"a count follows a bracket: {code(f'[ 4d 5d ]{self.found}')}")


class ValueUnknown(Problem):
    """A word looks like a note value but is none that is read.

    Values are letters, from `w` for a whole note to `s` for a sixteenth; a dot lengthens them by
    half, a `3` puts them into a triplet.
    """

    code = "value-unknown"
    severity = ERROR
    bad = """
        lick creek on IV
          q... 4b e 5b h 6b
        """
    good = """
        lick creek on IV
          q. 4b e 5b h 6b
        """

    found: str
    guess: str | None
    certain: bool = True

    def message(self) -> str:
        return f"{code(self.found)} is not a note value"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            yield write(self.guess, self.span, certain=self.certain)
        yield Hint(
            "the values are `w`, `h`, `q`, `e` and `s`; `q.` is dotted, `e3` is in a triplet"
        )


class MarkUnknown(Problem):
    """A sign in a line of music is not one that is read."""

    code = "mark-unknown"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b ~ 4b
        """
    good = """
        lick creek on IV
          q 4b 5b = 4b
        """

    found: str
    guess: str | None
    words: str | None  # what may be a remark of the teacher's own
    last: bool = True  # no music follows on its line

    def message(self) -> str:
        return f"{code(self.found)} is not a mark of music"

    def hints(self) -> Iterator[Hint]:
        if self.guess == "|":
            yield Hint("a bar line is `|`", Edit(self.span, "|"))
            return
        if self.guess:
            yield write(self.guess, self.span, certain=self.found not in _MANY_MEANINGS)
        yield Hint("notes look like `4d`, values like `q`, a rest is `-`, a hold is `=`")
        if self.words and self.last:
            yield Hint(f"if {code(self.words)} is a comment of yours, write `#` before it")
        elif self.words:
            yield Hint(
                f"if {code(self.words)} is a comment of yours, move it to the end of the line, "
                "behind a `#`"
            )


class TechniqueUnknown(Problem):
    """The word in braces is not the name of a technique.

    The sheet prints a sign for each technique and the sound plays it, so both must know the word.
    """

    code = "technique-unknown"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b{wahh} 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b{wah} 5b 6b 4b
        """

    found: str
    near: str | None
    known: Sequence[str]

    def message(self) -> str:
        return f"{code(self.found)} is not a technique"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span, f"{{{self.near}}}")
        yield Hint(f"the techniques are {one_of(self.known)}")


class ValueCarriedRound(Problem):
    """A repeated group begins in one value the first time and in another each time after.

    A value is in force until the next one, so the last value of the group carries over into its
    next round. That can be meant.
    """

    code = "value-carried-round"
    severity = REMARK
    bad = """
        lick porch on I
          q [2d e 4d 2d]x2 -
        """
    good = """
        lick porch on I
          [q 2d e 4d 2d]x2
        """

    first: str
    last: str

    def message(self) -> str:
        return (
            f"the first round of this group begins in {code(self.first)}, the others in "
            f"{code(self.last)}, which is then in force"
        )

    def hints(self) -> Iterator[Hint]:
        words = f"if all rounds are meant alike, write {code(self.first)} after the `[`"
        bracket = self.related[0].span
        before = bracket.source.text[: bracket.start].rstrip(" \t")
        moved = before.endswith(f" {self.first}")  # before the bracket it would have no note
        start = len(before) - len(self.first) if moved else bracket.start
        yield Hint(words, Edit(bracket._replace(start=start), f"[{self.first} ", certain=False))


class ValueUnused(Problem):
    """A note value has no note, rest or hold after it."""

    code = "value-unused"
    severity = ERROR
    bad = """
        lick porch on I
          q e 2d 3d 4d 3d h 2d
        """
    good = """
        lick porch on I
          e 2d 3d 4d 3d h 2d
        """

    found: str

    def message(self) -> str:
        return f"{code(self.found)} has no note after it"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write the note, hold or rest that lasts so long, or remove the value")


class TripletBroken(Problem):
    """A triplet does not come out: three of its notes take the time of two."""

    code = "triplet-broken"
    severity = ERROR
    bad = """
        lick porch on I
          q 2d e3 3d 4d q 4d 2d
        """
    good = """
        lick porch on I
          q 2d e3 3d 4d 3d q 4d 2d
        """

    count: int
    guess: str | None
    value: str
    rests: str | None

    def message(self) -> str:
        return f"this triplet is not whole: {self.count} of three"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            words = f"write {code(self.guess)}, or a note in place of a rest"
            yield Hint(words, Edit(self.span, self.guess, certain=False))
        if self.rests:
            yield Hint(
                f"fill it up in its own value, {code(self.value)}, with notes or rests: "
                f"{code(self.rests)}"
            )


class ValueMissing(Problem):
    """A note comes before any value, so nobody can say how long it lasts."""

    code = "value-missing"
    severity = ERROR
    bad = """
        lick creek on IV
          4b 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    found: str

    def message(self) -> str:
        return f"{code(self.found)} has no length: there is no note value before it"

    def hints(self) -> Iterator[Hint]:
        yield Hint("begin with a value, such as `q` for quarters or `e` for eighths")


class HoldNothing(Problem):
    """A hold has no note before it to lengthen."""

    code = "hold-nothing"
    severity = ERROR
    bad = """
        lick creek on IV
          q = 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b = 6b 4b
        """

    def message(self) -> str:
        return "there is no note before this `=` to hold"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `-` for a rest, or a note", Edit(self.span, "-", certain=False))


class BracketNotOpen(Problem):
    """A bracket closes a group that has no beginning."""

    code = "bracket-not-open"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b ]x2
        """
    good = """
        lick creek on IV
          [q 4b 5b ]x2
        """

    def message(self) -> str:
        return "this bracket closes a group that was never opened"

    def hints(self) -> Iterator[Hint]:
        yield Hint("put `[` before the first mark of the group, or remove this bracket")


class BracketNotClosed(Problem):
    """A group of notes begins but has no end."""

    code = "bracket-not-closed"
    severity = ERROR
    bad = """
        lick creek on IV
          [q 4b 5b
        """
    good = """
        lick creek on IV
          [q 4b 5b]x2
        """

    def message(self) -> str:
        return "this bracket is not closed"

    def hints(self) -> Iterator[Hint]:
        yield Hint("close the group and say how often: `]x2`")


class BracketNoCount(Problem):
    """A group in brackets does not say how often it is played."""

    code = "bracket-no-count"
    severity = ERROR
    bad = """
        lick creek on IV
          [q 4b 5b]
        """
    good = """
        lick creek on IV
          [q 4b 5b]x2
        """

    def message(self) -> str:
        return "this group does not say how often it is played"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `]x2` to play it twice", Edit(self.span, "]x2", certain=False))


class BracketTimes(Problem):
    """A group is played not at all, or more often than anybody counts."""

    code = "bracket-times"
    severity = ERROR
    bad = """
        lick creek on IV
          [q 4b 5b]x0
        """
    good = """
        lick creek on IV
          [q 4b 5b]x2
        """

    most: int
    times: int

    def message(self) -> str:
        return f"a group is played 1 to {self.most} times, not {self.times}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `]x2` to play it twice", Edit(self.span, "]x2", certain=False))


class LickTooLong(Problem):
    """A lick is longer than a student can learn in one piece.

    A lick that is repeated is written once and placed several times at `play`.
    """

    code = "lick-too-long"
    severity = ERROR
    bad = """
        lick creek on IV
          [[q 4b 5b 6b 4b |]x99]x9
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    most: int

    def message(self) -> str:
        return f"with all its repeats this lick has more than {self.most} marks"

    def hints(self) -> Iterator[Hint]:
        yield Hint("repeat the lick in `play` instead, such as `porch x4`")


class BarTooLong(Problem):
    """A bar holds more beats than its meter has.

    The notes of the bar, the count below it and the chord above would no longer agree.
    """

    code = "bar-too-long"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b 6b 5b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b e 5b 4b
        """

    bar: int
    lick: str
    extra: str
    have: str
    meter: str
    want: str
    before: str | None
    full_at: Span | None  # the end of a line at which the bar is full
    whole_bars: bool  # with a bar line there, all is bars that are full

    def message(self) -> str:
        return (
            f"bar {self.bar} of {code(self.lick)} is {self.extra} too long: it holds "
            f"{self.have}; a bar of {self.meter} holds {self.want}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.full_at:
            words = f"a new line does not end a bar: end line {self.full_at.line} with `|`"
            yield Hint(words, Edit(self.full_at, " |", certain=self.whole_bars))
            return
        if self.before:
            words = f"a bar line `|` before {code(self.before)} would end the bar in time"
            yield Hint(words, inserted(self.span, "| "))
        yield Hint("shorten a value, or remove a mark")


class StillHolds(NamedTuple):
    """A value in force for marks that were meant to be longer."""

    value: str
    marks: Span  # the last ones of a bar
    meant: str


class BarTooShort(Problem):
    """A bar holds fewer beats than its meter has.

    Silence is written as a rest, so that the student counts through it.
    """

    code = "bar-too-short"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b 6b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b -
        """

    bar: int
    lick: str
    missing: str
    have: str
    meter: str
    want: str
    rest: str | None
    still: StillHolds | None

    def message(self) -> str:
        return (
            f"bar {self.bar} of {code(self.lick)} is {self.missing} too short: it holds "
            f"{self.have}; a bar of {self.meter} holds {self.want}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.still:
            value, marks, meant = self.still
            several = len(marks.text.split()) > 1
            first = code(marks.text.split()[0]) if several else "it"
            which = code(marks.text) if several else f"the last {code(marks.text)}"
            words = (
                f"{code(value)} still holds for {which}: with {code(meant)} before {first} the "
                "bar is full"
            )
            yield Hint(words, inserted(marks, f"{meant} "))
        if self.rest:
            words = f"lengthen a note, or fill the bar with rest: {code(self.rest)}"
            end = self.span._replace(start=self.span.end)
            yield Hint(words, inserted(end, f" {self.rest}"))


class BarEmpty(Problem):
    """There is nothing between two bar lines, or after the last one.

    A bar of silence is written as a rest.
    """

    code = "bar-empty"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b 6b 4b ||
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b |
        """

    bar: int
    lick: str
    meter: str
    want: str

    def message(self) -> str:
        return (
            f"bar {self.bar} of {code(self.lick)} is empty; a bar of {self.meter} holds {self.want}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("remove this bar line, or write a rest before it")


class PickupBarLine(Problem):
    """A pick-up has a bar line, but it is played before the first bar of its lick."""

    code = "pickup-bar-line"
    severity = ERROR
    bad = """
        lick creek on IV
          pickup e 4b | 5b
          q 4b 5b 6b -
        lick porch on I
          q 2d 3d 4d -
        lick gate on V
          q 4d 5d 4d -
        """
    good = """
        lick creek on IV
          pickup e 4b 5b
          q 4b 5b 6b -
        lick porch on I
          q 2d 3d 4d -
        lick gate on V
          q 4d 5d 4d -
        """

    def message(self) -> str:
        return "a pick-up has no bar line: it leads into the lick's first bar"

    def hints(self) -> Iterator[Hint]:
        yield Hint("remove this bar line", removed(self.span, certain=True))


class PickupTooLong(Problem):
    """A pick-up is as long as a whole bar or longer.

    A pick-up leads into the first beat from the end of the bar before. What fills a bar is a bar of
    the lick.
    """

    code = "pickup-too-long"
    severity = ERROR
    bad = """
        lick creek on IV
          pickup q 4b 5b 6b 4b
          q 4b 5b 6b 4b
        """
    good = """
        lick creek on IV
          pickup e 4b 5b
          q 4b 5b 6b -
        lick porch on I
          q 2d 3d 4d -
        lick gate on V
          q 4d 5d 4d -
        """

    lick: str
    have: str
    want: str

    def message(self) -> str:
        return (
            f"the pick-up of {code(self.lick)} lasts {self.have}; it must be shorter than a "
            f"bar of {self.want}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("write the part that fills bars as music of the lick")


class PickupTwice(Problem):
    """A lick has two pick-ups, and only one can lead into it."""

    code = "pickup-twice"
    severity = ERROR
    bad = """
        lick creek on IV
          pickup e 5b
          pickup e 6b
          q 4b 5b 6b 4b
        """
    good = """
        lick creek on IV
          pickup e 5b
          q 4b 5b 6b -
        lick porch on I
          q 2d 3d 4d -
        lick gate on V
          q 4d 5d 4d -
        """

    lick: str

    def message(self) -> str:
        return f"{code(self.lick)} has two pick-ups"

    def hints(self) -> Iterator[Hint]:
        yield Hint("keep one of the two lines")


class LickTwice(Problem):
    """Two licks of the file have the same name, so `play` could mean either."""

    code = "lick-twice"
    severity = ERROR
    bad = """
        lick porch on I
          q 2d 3d 4d 2d
        lick porch on I
          w 2d
        """
    good = """
        lick porch on I
          q 2d 3d 4d 2d
        lick yard on I
          w 2d
        bar 4 yard
        """

    name: str

    def message(self) -> str:
        return f"there are two licks called {code(self.name)}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("give one of them another name")


class LickNamedRest(Problem):
    """A lick has the name `rest`, which at `play` means silence."""

    code = "lick-named-rest"
    severity = ERROR
    bad = """
        lick rest on V
          q 4d 5d 4d 1d
        """
    good = """
        lick gate on V
          q 4d 5d 4d 1d
        """

    def message(self) -> str:
        return "a lick cannot be called `rest`: in `play`, `rest` leaves a bar silent"

    def hints(self) -> Iterator[Hint]:
        yield Hint("give it another name")


class RhythmTwice(Problem):
    """Two rhythms of the file have the same name, so a lick could mean either."""

    code = "rhythm-twice"
    severity = ERROR
    bad = """
        rhythm trot q x x x x
        rhythm trot e x x q x h x
        """
    good = """
        rhythm trot q x x x x
        rhythm amble e x x q x h x
        """

    name: str

    def message(self) -> str:
        return f"there are two rhythms called {code(self.name)}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("give one of them another name")


class LickWithoutMusic(Problem):
    """A lick has a first line but no notes."""

    code = "lick-without-music"
    severity = ERROR
    bad = """
        lick creek on IV
          tip Let it ring.
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
          tip Let it ring.
        """

    lick: str

    def message(self) -> str:
        return f"{code(self.lick)} has no music"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write its notes on the lines below, such as `q 4d 5d 4d 2d`")


class RhythmWithoutMusic(Problem):
    """A rhythm has a name but no values."""

    code = "rhythm-without-music"
    severity = ERROR
    bad = "rhythm trot"
    good = "rhythm trot q x e x x h x"

    name: str

    def message(self) -> str:
        return f"the rhythm {code(self.name)} is empty"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write values and an `x` for each note: `q x e x x h x`")


class RhythmNote(Problem):
    """A rhythm has a note in it, but a rhythm only keeps places for notes.

    Each `x` is filled by a note of the lick that uses the rhythm, so that one rhythm serves many
    licks.
    """

    code = "rhythm-note"
    severity = ERROR
    bad = "rhythm trot q x x x 4d"
    good = "rhythm trot q x x x x"

    found: str

    def message(self) -> str:
        return f"{code(self.found)} is a note; a rhythm has only places for notes"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `x` for it", Edit(self.span, "x"))


class PlaceInLick(Problem):
    """A lick has an `x` where a note should be."""

    code = "place-in-lick"
    severity = ERROR
    bad = """
        lick creek on IV
          q x x x x
        """
    good = """
        rhythm trot q x x x x
        lick creek on IV in trot
          4b 5b 6b 4b
        """

    lick: str

    def message(self) -> str:
        return "`x` is a place for a note, and belongs in a `rhythm` only"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write the note itself, or give {code(self.lick)} a rhythm: `in` and its name")


class RhythmUnknown(Problem):
    """A lick asks for a rhythm that the file does not have."""

    code = "rhythm-unknown"
    severity = ERROR
    bad = """
        rhythm trot q x x x x
        lick creek on IV in trott
          4b 5b 6b 4b
        """
    good = """
        rhythm trot q x x x x
        lick creek on IV in trot
          4b 5b 6b 4b
        """

    found: str
    near: str | None
    known: Sequence[str]

    def message(self) -> str:
        return f"there is no rhythm called {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        if self.known:
            yield Hint(f"the rhythms here are {one_of(self.known)}")
        yield Hint(
            "or write it above the lick, an `x` for each note, such as "
            f"{code(f'rhythm {self.found} q x x h x')}"
        )


class RhythmAndMarks(Problem):
    """A lick that uses a rhythm has values, rests or bar lines of its own as well.

    The rhythm gives all of these; the lick lists its notes.
    """

    code = "rhythm-and-marks"
    severity = ERROR
    bad = """
        rhythm trot q x x x x
        lick creek on IV in trot
          q 4b 5b 6b 4b
        """
    good = """
        rhythm trot q x x x x
        lick creek on IV in trot
          4b 5b 6b 4b
        """

    found: str
    lick: str
    rhythm: str

    def message(self) -> str:
        return (
            f"{code(self.found)} does not belong here: {code(self.lick)} takes its values and "
            f"rests from the rhythm {code(self.rhythm)}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("write only its notes, one for each `x`", removed(self.span))


class RhythmCount(Problem):
    """A lick has more or fewer notes than its rhythm has places."""

    code = "rhythm-count"
    severity = ERROR
    bad = """
        rhythm trot q x x x x
        lick creek on IV in trot
          4b 5b 6b
        """
    good = """
        rhythm trot q x x x x
        lick creek on IV in trot
          4b 5b 6b 4b
        """

    lick: str
    notes: int
    rhythm: str
    places: int

    def message(self) -> str:
        return (
            f"{code(self.lick)} has {self.notes} notes, and its rhythm {code(self.rhythm)} "
            f"has places for {self.places}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("write one note for each `x` of the rhythm")


class OnCount(Problem):
    """A lick is written on a number of chords that is not the number of its bars.

    One chord serves all bars of a lick; otherwise each bar names its own.
    """

    code = "on-count"
    severity = ERROR
    bad = """
        turnaround home on I | V | I
          q 2d 3d 4d 2d | 4d 5d 4d 1d
        bars 11-12 home
        """
    good = """
        turnaround home on I | V
          q 2d 3d 4d 2d | 4d 5d 4d 1d
        bars 11-12 home
        """

    lick: str
    asked: int
    bars: int

    def message(self) -> str:
        return (
            f"{code(self.lick)} is written on {self.asked} chords bar by bar, but has "
            f"{bar_count(self.bars)}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("name one chord for all its bars, or one for each bar with `|` between")


class ValueFraction(Problem):
    """A note value is written as a fraction; values are letters, such as `q` for a quarter."""

    code = "value-fraction"
    severity = ERROR
    bad = """
        lick creek on IV
          1/4 4b 5b 6b 4b
        """
    good = """
        lick creek on IV
          q 4b 5b 6b 4b
        """

    found: str
    guess: str | None

    def message(self) -> str:
        return f"{code(self.found)}: a note value is a letter, not a fraction"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            yield write(self.guess, self.span)
            return
        yield Hint(
            "the values are `w`, `h`, `q`, `e` and `s`, from the whole note to the sixteenth; "
            "`q.` is dotted, `e3` is in a triplet"
        )


class NoteHeld(Problem):
    """A sign for a hold is joined to its note.

    A hold is a mark of its own: the note before sounds on for one more value.
    """

    code = "note-held"
    severity = ERROR
    bad = """
        lick creek on IV
          q 4b 5b~ 4b
        """
    good = """
        lick creek on IV
          q 4b 5b = 4b
        """

    found: str
    guess: str | None  # with the hold behind the note, in the same bar
    tied: Edit | None = None  # with a hold in place of the same note, which follows

    def message(self) -> str:
        if self.tied or not self.guess:
            return (
                f"{code(self.found)}: a tie is a hold, `=`, in place of the note that it leads to"
            )
        return f"{code(self.found)}: a hold is a mark of its own, `=`, for one more value"

    def hints(self) -> Iterator[Hint]:
        if self.tied:
            yield Hint(f"write {code(' '.join(self.tied.text.split()))}", self.tied)
        elif self.guess:
            yield write(self.guess, self.span)
        else:
            yield Hint("remove the sign, and begin the next bar with `=` in the note's place")


class NotesAtOnce(Problem):
    """Notes are joined by a plus sign, or are in round brackets.

    A chord is written as one note: its holes, then the breath. Only neighbouring holes on one
    breath sound together, or the two of a split; a bent note sounds alone.
    """

    code = "notes-at-once"
    severity = ERROR
    bad = """
        lick porch on I
          q 2d 3d+4d 5d 2d
        """
    good = """
        lick porch on I
          q 2d 34d 5d 2d
        """

    found: str
    mixed: bool  # blow and draw
    bent: bool
    chord: str | None
    apart: str

    def message(self) -> str:
        if self.mixed:
            return f"{code(self.found)}: blow and draw cannot sound together"
        if self.bent:
            return f"{code(self.found)}: a bent note sounds alone, not together with another"
        if not self.chord:
            return f"{code(self.found)}: these holes cannot be played together on one breath"
        return f"{code(self.found)}: a chord is written as one note, its holes and then the breath"

    def hints(self) -> Iterator[Hint]:
        if self.chord:
            words = f"for a chord, write {code(self.chord)}"
            yield Hint(words, Edit(self.span, self.chord, certain=False))
        words = f"for one after the other, write {code(self.apart)}"
        yield Hint(words, Edit(self.span, self.apart, certain=False))
        if self.found.startswith("("):
            yield Hint(f"for a group that is repeated, write {code(f'[{self.apart}]x2')}")


class ValueBehind(Problem):
    """A note value joined to the end of its note. The value comes first, as a mark of its own."""

    code = "value-behind"
    severity = ERROR
    bad = """
        lick creek on IV
          4bq 5be 6be 5bq 4bq
        """
    good = """
        lick creek on IV
          q 4b e 5b 6b q 5b 4b
        """

    found: str
    guess: str
    whole: bool  # nothing else is on the line, or in its bar

    def message(self) -> str:
        return f"{code(self.found)}: the value comes before the note, with a space between"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span, certain=self.whole)


class GroupRound(Problem):
    """A group that is repeated, in round brackets. Groups have square ones: `[ 4b 5b ]x4`."""

    code = "group-round"
    severity = ERROR
    bad = """
        lick creek on IV
          e ( 4b 5b )x4
        """
    good = """
        lick creek on IV
          e [ 4b 5b ]x4
        """

    found: str
    guess: str

    def message(self) -> str:
        return f"{code(self.found)}: a group that is repeated has square brackets"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class RepeatSigns(Problem):
    """The repeat signs of standard notation. A lick is repeated where it is played."""

    code = "repeat-signs"
    severity = ERROR
    bad = """
        lick creek on IV
          |: q 4b e 5b 6b q 5b 4b :|
        """
    good = """
        lick creek on IV
          q 4b e 5b 6b q 5b 4b
        """

    music: str  # between the signs
    placed: str | None  # how the lick is played: `every I porch`
    both: bool  # the sign that opens and the one that closes

    def message(self) -> str:
        return "repeat signs are not written: a lick is played until its bars are full"

    def hints(self) -> Iterator[Hint]:
        by_itself = f"; {code(self.placed)} repeats it by itself" if self.placed else ""
        if not self.both:
            yield Hint(f"remove the sign{by_itself}", Edit(self.span, "", certain=False))
            return
        words = f"write {code(self.music)}{by_itself}"
        yield Hint(words, Edit(self.span, self.music, certain=False))
        twice = f"[ {self.music} | ]x2"
        yield Hint(f"or, for a lick of both rounds, write {code(twice)}")
