"""Marks of music, bars, licks and rhythms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from formsheet.problems.problem import ERROR, REMARK, Edit, Hint, Problem
from formsheet.problems.words import (
    bar_count,
    code,
    did_you_mean,
    one_of,
    write,
)


class ForeignBreath(NamedTuple):
    """A letter for a breath in tab of another language."""

    breath: str  # as it is written here
    words: str  # what the letter is for: "draw (ziehen)"


class NoteBreath(Problem):
    """TODO note-breath."""

    code = "note-breath"
    severity = ERROR

    found: str
    guess: str | None
    holes: str | None
    foreign: ForeignBreath | None = None  # where the letter is that of a breath elsewhere

    def message(self) -> str:
        return (
            f"{code(self.found)} is no note: after the holes comes the breath, `b` for blow "
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
    """TODO note-capital."""

    code = "note-capital"
    severity = ERROR

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
    """TODO note-quote."""

    code = "note-quote"
    severity = ERROR

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
    """TODO ticks-apart."""

    code = "ticks-apart"
    severity = ERROR

    guess: str

    def message(self) -> str:
        return "the ticks of a bend stand at their note, with no space between"

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class NoteAccidental(Problem):
    """TODO note-accidental."""

    code = "note-accidental"
    severity = ERROR

    found: str
    sign: str
    bent: str | None
    plain: str

    def message(self) -> str:
        return (
            f"{code(self.found)} has a {self.sign}; tab names the hole, and a tick `'` for "
            "each half step of bend"
        )

    def hints(self) -> Iterator[Hint]:
        if self.bent:
            yield Hint(f"write {code(self.bent)} for the bend", Edit(self.span, self.bent))
        words = f"write {code(self.plain)} for the note without a {self.sign}"
        yield Hint(words, Edit(self.span, self.plain))


class HolesParted(Problem):
    """TODO holes-parted."""

    code = "holes-parted"
    severity = ERROR

    found: str
    guess: str

    def message(self) -> str:
        if self.found.startswith("("):
            return (
                f"{code(self.found)} has brackets; a chord is its holes, written together, "
                "and then the breath once"
            )
        return (
            f"{code(self.found)} parts the holes of a chord; they are written with nothing between"
        )

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class BracketsRound(Problem):
    """TODO brackets-round."""

    code = "brackets-round"
    severity = ERROR

    found: str
    guess: str

    def message(self) -> str:
        return (
            f"{code(self.found)} has a word in round brackets; a technique stands in braces, "
            "a word to print under the note in quotes"
        )

    def hints(self) -> Iterator[Hint]:
        yield write(self.guess, self.span)


class NoteTail(Problem):
    """TODO note-tail."""

    code = "note-tail"
    severity = ERROR

    found: str
    tail: str
    guess: str

    def message(self) -> str:
        return (
            f"{code(self.found)} has a {code(self.tail)} behind the note; marks stand with "
            "spaces between"
        )

    def hints(self) -> Iterator[Hint]:
        words = f"write {code(self.guess)}"
        yield Hint(words, Edit(self.span, self.guess, certain=not self.tail[0].isalnum()))


class NoteMixed(Problem):
    """TODO note-mixed."""

    code = "note-mixed"
    severity = ERROR

    found: str
    apart: str

    def message(self) -> str:
        return f"{code(self.found)} mixes two breaths; all holes of a chord sound on one"

    def hints(self) -> Iterator[Hint]:
        words = f"write the notes one after the other: {code(self.apart)}"
        yield Hint(words, Edit(self.span, self.apart))


class MarksTogether(Problem):
    """TODO marks-together."""

    code = "marks-together"
    severity = ERROR

    found: str
    apart: str
    chord: str | None

    def message(self) -> str:
        return f"{code(self.found)} runs marks together; each stands by itself, with spaces between"

    def hints(self) -> Iterator[Hint]:
        yield write(self.apart, self.span)
        if self.chord:
            words = f"or, as one chord, {code(self.chord)}"
            yield Hint(words, Edit(self.span, self.chord, certain=False))


class NoteHole(Problem):
    """TODO note-hole."""

    code = "note-hole"
    severity = ERROR

    found: str
    hole: int

    def message(self) -> str:
        return f"{code(self.found)}: there is no hole {self.hole}; the holes are 1 to 10"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write the hole that is meant; hole 10 needs its 1, as in `10d`")


class NoteOrder(Problem):
    """TODO note-order."""

    code = "note-order"
    severity = ERROR

    found: str

    def message(self) -> str:
        return (
            f"{code(self.found)} is out of order: after a note come `!`, then the technique, "
            "then the syllable"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint('write it like this: `4d!{wah}"ka"`')


class CountStray(Problem):
    """TODO count-stray."""

    code = "count-stray"
    severity = ERROR

    found: str

    def message(self) -> str:
        return f"{code(self.found)} counts nothing here"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"a count follows a bracket: {code(f'[ 4d 5d ]{self.found}')}")


class ValueUnknown(Problem):
    """TODO value-unknown."""

    code = "value-unknown"
    severity = ERROR

    found: str
    guess: str | None
    certain: bool = True

    def message(self) -> str:
        return f"{code(self.found)} is no note value"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            yield Hint(
                f"write {code(self.guess)}", Edit(self.span, self.guess, certain=self.certain)
            )
        yield Hint(
            "the values are `w`, `h`, `q`, `e` and `s`; `q.` is dotted, `e3` is in a triplet"
        )


class MarkUnknown(Problem):
    """TODO mark-unknown."""

    code = "mark-unknown"
    severity = ERROR

    found: str
    guess: str | None
    words: str | None  # what may be a remark of the teacher's own
    last: bool = True  # no music follows on its line

    def message(self) -> str:
        return f"{code(self.found)} is no mark of music"

    def hints(self) -> Iterator[Hint]:
        if self.guess == "|":
            yield Hint("a bar line is `|`", Edit(self.span, "|"))
            return
        if self.guess:
            yield write(self.guess, self.span)
        yield Hint("notes look like `4d`, values like `q`, a rest is `-`, a hold is `=`")
        if self.words and self.last:
            yield Hint(f"if {code(self.words)} is a remark of your own, write `#` before it")
        elif self.words:
            yield Hint(
                f"if {code(self.words)} is a remark of your own, move it to the end of the line, "
                "behind a `#`"
            )


class TechniqueUnknown(Problem):
    """TODO technique-unknown."""

    code = "technique-unknown"
    severity = ERROR

    found: str
    near: str | None
    known: Sequence[str]

    def message(self) -> str:
        return f"{code(self.found)} is no technique"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span, f"{{{self.near}}}")
        yield Hint(f"the techniques are {one_of(self.known)}")


class ValueCarriedRound(Problem):
    """TODO value-carried-round."""

    code = "value-carried-round"
    severity = REMARK

    first: str
    last: str

    def message(self) -> str:
        return (
            f"the first round of this group begins in {code(self.first)}, the others in "
            f"{code(self.last)}, which is then in force"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"if all rounds are meant alike, write {code(self.first)} after the `[`")


class ValueUnused(Problem):
    """TODO value-unused."""

    code = "value-unused"
    severity = ERROR

    found: str

    def message(self) -> str:
        return f"{code(self.found)} has no note after it"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write the note, hold or rest that lasts so long, or take the value out")


class TripletBroken(Problem):
    """TODO triplet-broken."""

    code = "triplet-broken"
    severity = ERROR

    count: int
    guess: str | None
    value: str
    rests: str | None

    def message(self) -> str:
        return f"this triplet is not whole: {self.count} of three"

    def hints(self) -> Iterator[Hint]:
        if self.guess:
            yield Hint(f"write {code(self.guess)}, or a note in place of a rest")
        if self.rests:
            yield Hint(
                f"fill it up in its own value, {code(self.value)}, with notes or rests: "
                f"{code(self.rests)}"
            )


class ValueMissing(Problem):
    """TODO value-missing."""

    code = "value-missing"
    severity = ERROR

    found: str

    def message(self) -> str:
        return f"{code(self.found)} has no length: no note value stands before it"

    def hints(self) -> Iterator[Hint]:
        yield Hint("begin with a value, such as `q` for quarters or `e` for eighths")


class HoldNothing(Problem):
    """TODO hold-nothing."""

    code = "hold-nothing"
    severity = ERROR

    def message(self) -> str:
        return "there is no note before this `=` to hold"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `-` for a rest, or a note")


class BracketNotOpen(Problem):
    """TODO bracket-not-open."""

    code = "bracket-not-open"
    severity = ERROR

    def message(self) -> str:
        return "this bracket closes a group that was never opened"

    def hints(self) -> Iterator[Hint]:
        yield Hint("put `[` before the first mark of the group, or take this bracket out")


class BracketNotClosed(Problem):
    """TODO bracket-not-closed."""

    code = "bracket-not-closed"
    severity = ERROR

    def message(self) -> str:
        return "this bracket is not closed"

    def hints(self) -> Iterator[Hint]:
        yield Hint("close the group and say how often: `]x2`")


class BracketNoCount(Problem):
    """TODO bracket-no-count."""

    code = "bracket-no-count"
    severity = ERROR

    def message(self) -> str:
        return "this group does not say how often it is played"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `]x2` to play it twice")


class BracketTimes(Problem):
    """TODO bracket-times."""

    code = "bracket-times"
    severity = ERROR

    most: int
    times: int

    def message(self) -> str:
        return f"a group is played 1 to {self.most} times, not {self.times}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `]x2` to play it twice")


class LickTooLong(Problem):
    """TODO lick-too-long."""

    code = "lick-too-long"
    severity = ERROR

    most: int

    def message(self) -> str:
        return f"with all its repeats this lick has more than {self.most} marks"

    def hints(self) -> Iterator[Hint]:
        yield Hint("repeat the lick at `play` instead, such as `porch x4`")


class BarTooLong(Problem):
    """TODO bar-too-long."""

    code = "bar-too-long"
    severity = ERROR

    bar: int
    lick: str
    extra: str
    have: str
    meter: str
    want: str
    before: str | None

    def message(self) -> str:
        return (
            f"bar {self.bar} of {code(self.lick)} is {self.extra} too long: it holds "
            f"{self.have}; a bar of {self.meter} holds {self.want}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.before:
            yield Hint(f"a bar line `|` before {code(self.before)} would end the bar in time")
        yield Hint("shorten a value, or take a mark out")


class BarTooShort(Problem):
    """TODO bar-too-short."""

    code = "bar-too-short"
    severity = ERROR

    bar: int
    lick: str
    missing: str
    have: str
    meter: str
    want: str
    rest: str | None

    def message(self) -> str:
        return (
            f"bar {self.bar} of {code(self.lick)} is {self.missing} too short: it holds "
            f"{self.have}; a bar of {self.meter} holds {self.want}"
        )

    def hints(self) -> Iterator[Hint]:
        if self.rest:
            yield Hint(f"lengthen a note, or fill the bar with rest: {code(self.rest)}")


class BarEmpty(Problem):
    """TODO bar-empty."""

    code = "bar-empty"
    severity = ERROR

    bar: int
    lick: str
    meter: str
    want: str

    def message(self) -> str:
        return (
            f"bar {self.bar} of {code(self.lick)} is empty; a bar of {self.meter} holds {self.want}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("take this bar line out, or write a rest before it")


class PickupBarLine(Problem):
    """TODO pickup-bar-line."""

    code = "pickup-bar-line"
    severity = ERROR

    def message(self) -> str:
        return "a pick-up has no bar line: it leads into the lick's first bar"

    def hints(self) -> Iterator[Hint]:
        yield Hint("take this bar line out", Edit(self.span, ""))


class PickupTooLong(Problem):
    """TODO pickup-too-long."""

    code = "pickup-too-long"
    severity = ERROR

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
    """TODO pickup-twice."""

    code = "pickup-twice"
    severity = ERROR

    lick: str

    def message(self) -> str:
        return f"{code(self.lick)} has two pick-ups"

    def hints(self) -> Iterator[Hint]:
        yield Hint("keep one of the two lines")


class LickTwice(Problem):
    """TODO lick-twice."""

    code = "lick-twice"
    severity = ERROR

    name: str

    def message(self) -> str:
        return f"there are two licks called {code(self.name)}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("give one of them another name")


class LickNamedRest(Problem):
    """TODO lick-named-rest."""

    code = "lick-named-rest"
    severity = ERROR

    def message(self) -> str:
        return "a lick cannot be called `rest`: in `play`, `rest` leaves a bar silent"

    def hints(self) -> Iterator[Hint]:
        yield Hint("give it another name")


class RhythmTwice(Problem):
    """TODO rhythm-twice."""

    code = "rhythm-twice"
    severity = ERROR

    name: str

    def message(self) -> str:
        return f"there are two rhythms called {code(self.name)}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("give one of them another name")


class LickWithoutMusic(Problem):
    """TODO lick-without-music."""

    code = "lick-without-music"
    severity = ERROR

    lick: str

    def message(self) -> str:
        return f"{code(self.lick)} has no music"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write its notes on the lines below, such as `q 4d 5d 4d 2d`")


class RhythmWithoutMusic(Problem):
    """TODO rhythm-without-music."""

    code = "rhythm-without-music"
    severity = ERROR

    name: str

    def message(self) -> str:
        return f"the rhythm {code(self.name)} is empty"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write values and an `x` for each note: `q x e x x h x`")


class RhythmNote(Problem):
    """TODO rhythm-note."""

    code = "rhythm-note"
    severity = ERROR

    found: str

    def message(self) -> str:
        return f"{code(self.found)} is a note; a rhythm has only places for notes"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `x` for it", Edit(self.span, "x"))


class PlaceInLick(Problem):
    """TODO place-in-lick."""

    code = "place-in-lick"
    severity = ERROR

    lick: str

    def message(self) -> str:
        return "`x` is a place for a note, and belongs in a `rhythm` only"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write the note itself, or give {code(self.lick)} a rhythm: `in` and its name")


class RhythmUnknown(Problem):
    """TODO rhythm-unknown."""

    code = "rhythm-unknown"
    severity = ERROR

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
    """TODO rhythm-and-marks."""

    code = "rhythm-and-marks"
    severity = ERROR

    found: str
    lick: str
    rhythm: str

    def message(self) -> str:
        return (
            f"{code(self.found)} cannot stand here: {code(self.lick)} takes its values and "
            f"rests from the rhythm {code(self.rhythm)}"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("write only its notes, one for each `x`")


class RhythmCount(Problem):
    """TODO rhythm-count."""

    code = "rhythm-count"
    severity = ERROR

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
    """TODO on-count."""

    code = "on-count"
    severity = ERROR

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
    """A note value written as a fraction. Values are letters: `w`, `h`, `q`, `e`, `s`."""

    code = "value-fraction"
    severity = ERROR

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
    """A sign for a hold joined to its note. A hold is a mark of its own: `=`."""

    code = "note-held"
    severity = ERROR

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
            yield Hint("take the sign out, and begin the next bar with `=` in the note's place")


class NotesAtOnce(Problem):
    """Notes joined by a plus sign, or in round brackets. A chord is written as one note: `34d`.

    Only neighbouring holes on one breath sound together, or a split; a bent note sounds alone.
    """

    code = "notes-at-once"
    severity = ERROR

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

    found: str
    guess: str
    whole: bool  # nothing else is on the line, or in its bar

    def message(self) -> str:
        return f"{code(self.found)}: the value comes before the note, with a space between"

    def hints(self) -> Iterator[Hint]:
        words = f"write {code(self.guess)}"
        yield Hint(words, Edit(self.span, self.guess, certain=self.whole))


class GroupRound(Problem):
    """A group that is repeated, in round brackets. Groups have square ones: `[ 4b 5b ]x4`."""

    code = "group-round"
    severity = ERROR

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

    music: str  # between the signs
    placed: str | None  # how the lick is played: `every I porch`
    both: bool  # the sign that opens and the one that closes

    def message(self) -> str:
        return "repeat signs are not written: a lick is played until its bars are full"

    def hints(self) -> Iterator[Hint]:
        by_itself = f"; {code(self.placed)} repeats it by itself" if self.placed else ""
        if not self.both:
            yield Hint(f"take the sign out{by_itself}", Edit(self.span, "", certain=False))
            return
        words = f"write {code(self.music)}{by_itself}"
        yield Hint(words, Edit(self.span, self.music, certain=False))
        twice = f"[ {self.music} | ]x2"
        words = f"or, for a lick of both rounds, write {code(twice)}"
        yield Hint(words, Edit(self.span, twice, certain=False))
