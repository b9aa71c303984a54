"""How a tune feels under the lips."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.listing import bars_words, listed
from formsheet.music.steps import step_words
from formsheet.problems.edits import without_braces
from formsheet.problems.problem import REMARK, WARNING, Edit, Hint, Problem, Sample, Severity
from formsheet.problems.words import (
    code,
    number,
    one_of,
)
from formsheet.source import Span


class OverbendTaught(Problem):
    """An overblow or overdraw is asked of a student who may not have learned it."""

    code = "overbend-taught"
    severity = WARNING
    bad = """
        lick porch on I
          q 2d 3d 6ob 6d
        """
    good = """
        lick porch on I
          q 2d 3d 6b 6d
        """

    tab: str
    kind: str
    level: str
    offers: Sequence[str]
    same: bool  # the offers are the same note in another way
    advanced: Edit | None = None  # of the lesson's level

    def message(self) -> str:
        return (
            f"{code(self.tab)} is an {self.kind}, an advanced technique; this lesson is for "
            f"{self.level}"
        )

    def to_player(self) -> str:
        return f"{code(self.tab)} is an {self.kind}, an advanced technique: give it time."

    def hints(self) -> Iterator[Hint]:
        yield Hint("write `level advanced` if it is taught", self.advanced)
        if self.offers:
            what = "the same note" if self.same else "a chord tone near it"
            yield Hint(f"{what}: {one_of(self.offers)}")


class BendHard(Problem):
    """A bend is deeper than students of this level can be expected to reach in tune."""

    code = "bend-hard"
    severity = WARNING
    bad = """
        level beginner
        lick porch on I
          q 2d 2d'' 3d 2d
        """
    good = """
        level beginner
        lick porch on I
          q 2d 3d' 3d 2d
        """

    tab: str
    bend: int
    level: str
    offers: Sequence[str]
    same: bool  # the offers are the same note in another way
    wanted: str | None
    further: Edit | None = None  # of the lesson's level

    def message(self) -> str:
        return f"{code(self.tab)} bends {step_words(self.bend)}: deep for {self.level}"

    def to_player(self) -> str:
        return f"{code(self.tab)} bends {step_words(self.bend)}: sing the note before you bend."

    def hints(self) -> Iterator[Hint]:
        if self.offers:
            what = "the same note" if self.same else "a chord tone near it"
            yield Hint(f"{what}: {one_of(self.offers)}")
        if self.wanted:
            words = f"write {code(f'level {self.wanted}')} if the student is further"
            yield Hint(words, self.further)


class BendsRepeated(Problem):
    """Deep bends follow one another without a natural note between.

    For each the mouth holds a shape of its own, and without a natural note the ear has nothing to
    tune them by.
    """

    code = "bends-repeated"
    severity = WARNING
    bad = """
        lick porch on I
          e 2d'' 2d'' 2d'' 2d'' h 2d
        """
    good = """
        lick porch on I
          e 2d'' 2d 2d'' 2d h 2d
        """

    count: int
    tab: str
    lick: str

    def message(self) -> str:
        return (
            f"{self.count} deep bends in a row from {code(self.tab)} on in {code(self.lick)}: "
            "tiring, and hard to keep in tune"
        )

    def to_player(self) -> str:
        return (
            f"{self.count} deep bends in a row, from {code(self.tab)} on: check them against a "
            "natural note."
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("put a natural note between them")


class TurnsFast(Problem):
    """The breath changes direction several times in a row, faster than a student can turn it."""

    code = "turns-fast"
    severity = WARNING
    bad = """
        tempo 220
        lick porch on I
          e 2d 2b 2d 2b 2d 2b q 2d
        """
    good = """
        tempo 220
        lick porch on I
          e 2d 3d 2d 2b q 2d 2d
        """

    tab: str
    bars: Sequence[int]
    count: int
    ms: int

    def message(self) -> str:
        return (
            f"from {code(self.tab)} on in {bars_words(self.bars)} the breath turns "
            f"{self.count} times in a row, each within {self.ms} ms"
        )

    def to_player(self) -> str:
        return f"from {code(self.tab)} on the breath turns {self.count} times in a row, quickly."

    def hints(self) -> Iterator[Hint]:
        yield Hint("find some of these notes on the other breath, or take it slower")


class SlideTooFast(Problem):
    """The mouth would have to move over many holes in less time than that takes.

    The next note comes late, or on the wrong hole.
    """

    code = "slide-too-fast"
    severity = WARNING
    bad = """
        tempo 120
        lick porch on I
          q 2d e 2d 9d h 9b
        """
    good = """
        tempo 120
        lick porch on I
          q 2d e 2d 3d h 4d
        """

    first: str
    tab: str
    bars: Sequence[int]
    holes: int
    ms: int
    needs: int
    offers: Sequence[str]

    def message(self) -> str:
        return (
            f"from {code(self.first)} to {code(self.tab)} in {bars_words(self.bars)} the "
            f"mouth moves {self.holes} holes in {self.ms} ms; it takes about {self.needs} ms"
        )

    def to_player(self) -> str:
        return (
            f"{code(self.first)} to {code(self.tab)}: {self.holes} holes at once; leave the first "
            "note early."
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"put a rest before {code(self.tab)}, or begin nearer")
        if self.offers:
            yield Hint(f"nearer to {code(self.first)}: {one_of(self.offers)}")


class MoveTooFast(Problem):
    """A move from one note to the next is easy only far below the tempo of the tune.

    The student practises at the tempo at which it is easy and works up from there; from so far down
    that takes weeks. How far depends on the level: `formsheet explain levels`.
    """

    code = "move-too-fast"
    severity = WARNING
    bad = """
        tempo 150
        lick porch on I
          e 2d 3d' 2d'' 3d' 2d'' 3d q 2d
        """
    good = """
        tempo 100
        lick porch on I
          e 2d 3d' 2d'' 3d' 2d'' 3d q 2d
        """

    first: str
    tab: str
    moves: str  # what changes: "2 holes, breath turns"
    ms: int  # milliseconds from onset to onset
    easy: int  # tempo at which it is easy
    tempo: Fraction  # of the tune
    joins: bool  # from one lick to the next
    bars: Sequence[int]
    slower: int | None  # the fastest mark of the metronome at which it is not too fast
    slowed: Edit | None = None  # of the tempo

    def message(self) -> str:
        move = f"{code(self.first)} to {code(self.tab)}"
        where = f"the join from {move} into" if self.joins else f"{move} in"
        return (
            f"{where} {bars_words(self.bars)} ({self.moves}) is easy up to {self.easy} beats a "
            f"minute; at {number(self.tempo)} it has {self.ms} ms"
        )

    def to_player(self) -> str:
        return (
            f"{code(self.first)} to {code(self.tab)} ({self.moves}) is easy only up to {self.easy} "
            "beats a minute."
        )

    def hints(self) -> Iterator[Hint]:
        if self.joins:
            yield Hint(f"put a rest before {code(self.tab)}, or begin nearer")
        else:
            yield Hint("give it longer notes, or notes that lie nearer")
        if self.slower:
            yield Hint(f"or take the tune at {self.slower}, where it can be learned", self.slowed)


class BendHigh(Problem):
    """A bend lies on a top hole, or so high that its pitch is hard to place at this level.

    Holes 8 to 10 bend on the blow, against small reeds. On a high harp even the low bends are high.
    """

    code = "bend-high"
    severity = WARNING
    bad = """
        level improver
        lick creek on IV
          q 9b 8b' 8b -
        """
    good = """
        level improver
        lick creek on IV
          q 9b 8b 8b -
        """

    tab: str
    pitch: str  # with its octave
    top: bool  # on one of the holes 8 to 10
    harp: str
    level: str
    bars: Sequence[int]
    wanted: str | None  # the level that is asked for it
    further: Edit | None = None  # of the lesson's level

    def message(self) -> str:
        why = (
            "a bend on a top hole"
            if self.top
            else f"so high that the mouth hardly moves for it, on a {self.harp} harp"
        )
        return (
            f"{code(self.tab)} ({self.pitch}) in {bars_words(self.bars)} is {why}: hard for "
            f"{self.level}"
        )

    def to_player(self) -> str:
        return f"{code(self.tab)} is a high bend, and hard to place: sing it first."

    def hints(self) -> Iterator[Hint]:
        yield Hint("take a natural note" if self.top else "take a natural note, or a lower harp")
        if self.wanted:
            words = f"write {code(f'level {self.wanted}')} if the student is further"
            yield Hint(words, self.further)


class ReedSlow(Problem):
    """A short note lies on a low reed of a low harp, which speaks slowly.

    The note does not sound before the next one comes.
    """

    code = "reed-slow"
    severity = WARNING
    bad = """
        harp low D
        tempo 120
        lick porch on I
          s 1d 2d 1d 2d q 2d h -
        """
    good = """
        harp low D
        tempo 120
        lick porch on I
          q 1d 2d h -
        """

    tabs: Sequence[str]
    harp: str
    ms: int  # of the shortest
    needs: int
    lick: str
    bars: Sequence[int]

    def message(self) -> str:
        notes = listed([code(tab) for tab in self.tabs], "and")
        return (
            f"{notes} in {bars_words(self.bars)} {'are' if len(self.tabs) > 1 else 'is'} too short "
            f"for the low reeds of a {self.harp} harp: {self.ms} ms at the shortest, and they need "
            f"about {self.needs} ms to speak"
        )

    def to_player(self) -> str:
        notes = listed([code(tab) for tab in self.tabs], "and")
        return f"{notes}: low reeds speak late; start the breath early."

    def hints(self) -> Iterator[Hint]:
        yield Hint("give them longer notes, play the lick higher up, or take a higher harp")


class MouthChanges(Problem):
    """The mouth changes quickly, several times in a row, between octave, bend and shake.

    It is open and low for an octave or a block, narrow and high for a bend, and moves for a shake.
    """

    code = "mouth-changes"
    severity = WARNING
    bad = """
        lick porch on I
          e 14d 3d' 14d 3d' 14d 3d q 2d
        """
    good = """
        lick porch on I
          e 14d 3d 14d 3d' 3d 3d q 2d
        """

    tab: str
    count: int
    bars: Sequence[int]
    level: str

    def message(self) -> str:
        return (
            f"from {code(self.tab)} on in {bars_words(self.bars)} the mouth changes {self.count} "
            f"times in a row between octave or block, bend and shake: too often for {self.level}"
        )

    def to_player(self) -> str:
        return (
            f"from {code(self.tab)} on the mouth changes {self.count} times in a row between "
            "octave or block, bend and shake."
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("stay with one of them for a few notes, or leave a rest between them")


class BentLong(Problem):
    """Bent notes sound for many seconds without a natural note or a rest."""

    code = "bent-long"
    severity = REMARK
    bad = """
        level beginner
        tempo 44
        lick porch on I
          h. 3d' q -
        """
    good = """
        level beginner
        tempo 44
        lick porch on I
          h 3d' q 3d -
        """

    tab: str
    seconds: float
    most: float
    bars: Sequence[int]
    level: str

    def message(self) -> str:
        return (
            f"from {code(self.tab)} on in {bars_words(self.bars)} bent notes sound for "
            f"{self.seconds:.1f} seconds without a break; {self.most:g} are enough for {self.level}"
        )

    def to_player(self) -> str:
        return (
            f"from {code(self.tab)} on notes are bent for {self.seconds:.0f} seconds without a "
            "break; let go when it tires."
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("let the bend go after a beat or two, or shorten it")


class LicksMany(Problem):
    """The tune has more different licks than a student of the level learns at once."""

    code = "licks-many"
    severity = REMARK
    bad = """
        level beginner
        lick stair on I
          q 2d 3d 4d -
        lick door on I
          q 4d 3d 2d -
        lick lamp on I
          q 3d 3d 2d -
        bar 2 stair
        bar 3 door
        bar 4 lamp
        """
    good = """
        level beginner
        lick stair on I
          q 2d 3d 4d -
        lick door on I
          q 4d 3d 2d -
        bar 2 stair
        bar 3 door
        """

    count: int
    most: int
    level: str

    def message(self) -> str:
        return f"{self.count} different licks: {self.level} learns about {self.most} in one tune"

    def hints(self) -> Iterator[Hint]:
        yield Hint("play some licks more often, and leave others for the next tune")


class PhraseLong(Problem):
    """A phrase runs on without a rest or a repeat for more bars than the level can hold."""

    code = "phrase-long"
    severity = REMARK
    bad = Sample(
        """
        level beginner
        form "Green road"
          | I | I | I | I |
          | I | I | I | I |
        lick porch on I
          q 3b 3d 4b 4d | 4d 4b 3d 3b | 4d 3d 3b 3d | 3b 3d 4d 4b | 4d 4b 3d 3b | h 3b -
        play
          bars 1-6 porch
          bars 7-8 rest
        """,
        without=("lick creek", "lick gate"),
    )
    good = Sample(
        """
        level beginner
        form "Green road"
          | I | I | I | I |
          | I | I | I | I |
        lick porch on I
          q 3b 3d 4d - | 4d 4b 3d 3b | 4d 3d 3b - | 3b 3d 4d 4b | 4d 4b 3d 3b | h 3b -
        play
          bars 1-6 porch
          bars 7-8 rest
        """,
        without=("lick creek", "lick gate"),
    )

    length: int  # bars
    most: int
    first: int  # number of the bar in which it begins
    level: str

    def message(self) -> str:
        return (
            f"from bar {self.first} on a phrase runs for {self.length} bars without a rest or a "
            f"repeat; {self.level} remembers about {self.most}"
        )

    def to_player(self) -> str:
        return (
            f"from bar {self.first} on a phrase runs for {self.length} bars without a rest: learn "
            "it in halves."
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("end a bar with a rest, or play a part of it again")


class BreathRunsOut(Problem):
    """The student is full of drawn air, or has none left, before there is a place to breathe.

    The air is counted in seconds of a single note in the middle of the harp; blocks and low notes
    take more. The limit depends on the level: `formsheet explain levels`. A rest, or notes on the
    other breath, make it good.
    """

    code = "breath-runs-out"
    bad = """
        tempo 60
        lick porch on I
          q 123d 123d 123d 123d
        """
    good = """
        tempo 60
        lick porch on I
          q 123d 123d 123d -
        """

    full: bool  # of drawn air; else empty
    since: int  # number of the bar in which it began, and of its chorus if that is another
    since_chorus: int | None
    air: float  # seconds
    limit: float  # seconds, for the level
    level: str
    tempo: float  # at which it was judged
    starts: bool  # that is the tempo at which the student starts, and at full tempo there is air
    chorus: int | None  # where it happens first, if that is not the first
    bars: Sequence[int]  # of that chorus
    rest: str  # tab of the note that may give way to a rest
    rest_bar: int  # number of its bar, and its beat, from 1
    rest_beat: int
    edit: Edit | None

    @property
    def severity(self) -> Severity:
        return REMARK if self.starts else WARNING

    def message(self) -> str:
        when = f"at {self.tempo:g}, where practice starts, " if self.starts else ""
        where = bars_words(self.bars) + _of_chorus(self.chorus)
        since = f"bar {self.since}{_of_chorus(self.since_chorus)}"
        state, more, less, other = (
            ("full of air", "draws", "blows", "out")
            if self.full
            else ("out of air", "blows", "draws", "in")
        )
        return (
            f"{when}the student is {state} in {where}: since {since} the {more} outweigh the "
            f"{less} by more than {self.limit:g} seconds, all that {self.level} can hold, with "
            f"too little rest to breathe {other}"
        )

    def to_player(self) -> str:
        when = f"at {self.tempo:g} " if self.starts else ""
        state, way = ("full of air", "out") if self.full else ("out of air", "in")
        return f"{when}you are {state}: breathe {way} in every rest before."

    def hints(self) -> Iterator[Hint]:
        if self.starts:
            yield Hint("at first stop every few bars to breathe: at the tune's tempo the air lasts")
        if self.edit:
            where = f"on beat {self.rest_beat} of bar {self.rest_bar}"
            yield Hint(f"put a rest in place of {code(self.rest)} {where}", self.edit)
        else:
            other = "blown" if self.full else "drawn"
            yield Hint(
                f"put a rest in no later than bar {self.bars[0]}, or let {other} notes take turns "
                "with these"
            )


def _of_chorus(chorus: int | None) -> str:
    return f" of chorus {chorus}" if chorus else ""


class ChorusWithoutBreath(Problem):
    """A whole chorus has no rest in which the student can breathe.

    It may work out, if draw and blow take turns; then nothing is said. Here one of them weighs
    more, and the student arrives at the end of the chorus with too much air or too little.
    """

    code = "chorus-without-breath"
    severity = REMARK
    bad = """
        tempo 140
        lick porch on I
          q 2d 3d 4d 2d
        lick creek on IV
          q 4b 4d 4b 4d
        lick gate on V
          q 4d 5d 4d 1d
        """
    good = """
        tempo 140
        lick porch on I
          q 2d 3d 2d -
        lick creek on IV
          q 4b 4d 4b 4d
        lick gate on V
          q 4d 5d 4d 1d
        """

    chorus: int
    drawn: int  # per cent of the air
    several: bool  # choruses in the tune

    def message(self) -> str:
        which = f"chorus {self.chorus}" if self.several else "the tune"
        return (
            f"{which} has no rest to breathe in, and what is drawn and blown does not even out: "
            f"{self.drawn} per cent of the air is drawn"
        )

    def to_player(self) -> str:
        return "there is no rest to breathe in: leave out a note at the end of a phrase."

    def hints(self) -> Iterator[Hint]:
        yield Hint("end a lick with a rest")


class ShakeNowhere(Problem):
    """A shake alternates with the next hole up, and hole 10 has none.

    A shake of two neighbouring holes alternates between them: `910b{shake}` can be played.
    """

    code = "shake-nowhere"
    severity = WARNING
    bad = """
        lick creek on IV
          h 10b{shake} 9b
        """
    good = """
        lick creek on IV
          h 9b{shake} 10b
        """

    tab: str
    lower: str

    def message(self) -> str:
        return (
            f"{code(self.tab)} cannot be shaken: a shake alternates with the next hole up, "
            "and there is none"
        )

    def hints(self) -> Iterator[Hint]:
        end = self.span.start + len(self.tab)
        note = self.span._replace(end=end)
        edit = Edit(note, self.lower, certain=False) if note.text == self.tab else None
        yield Hint(f"shake {code(self.lower)} instead", edit)


class ShakeOnSplit(Problem):
    """A split has a shake, which goes to and fro between two neighbouring holes.

    The holes of a split are not neighbours. A block of two holes can be shaken: `45d{shake}`.
    """

    code = "shake-on-split"
    severity = WARNING
    bad = """
        lick porch on I
          h 25d{shake} 2d
        """
    good = """
        lick porch on I
          h 45d{shake} 2d
        """

    tab: str
    notes: Sequence[str]  # of the split, each as a single note

    def message(self) -> str:
        return f"{code(self.tab)} is a split; a shake goes between two neighbouring holes"

    def hints(self) -> Iterator[Hint]:
        yield _left_out(self.span, "shake")
        yield Hint(f"or shake one of its notes: {one_of(self.notes)}")


class ShakeOnBend(Problem):
    """A bent note has a shake, which goes to and fro between the natural notes of two holes.

    A bend or an overbend is made for one hole: on the next one the same mouth gives another bend,
    or no note at all.
    """

    code = "shake-on-bend"
    severity = WARNING
    bad = """
        lick porch on I
          h 3d'{shake} 2d
        """
    good = """
        lick porch on I
          h 3d{shake} 2d
        """

    tab: str
    kind: str  # "bent", "an overblow"
    plain: str

    def message(self) -> str:
        return (
            f"{code(self.tab)} is {self.kind}; a shake goes between the natural notes of two "
            "neighbouring holes"
        )

    def hints(self) -> Iterator[Hint]:
        yield _left_out(self.span, "shake")
        yield Hint(f"or shake the natural note: {code(self.plain)}")


class TechniqueOnChord(Problem):
    """A block or a split has a technique that bends.

    A dip sags into a bend and a scoop comes out of one. A bend is made for one reed; the same mouth
    cannot bend several of them by a known amount.
    """

    code = "technique-on-chord"
    severity = WARNING
    bad = """
        lick porch on I
          h 123d{dip} 2d
        """
    good = """
        lick porch on I
          h 2d{dip} 2d
        """

    tab: str
    technique: str
    shape: str  # "block" or "split"
    notes: Sequence[str]  # of the chord those that bend, each as a single note

    def message(self) -> str:
        return (
            f"{code(self.tab)} is a {self.shape}; a {self.technique} is a bend, and bends are for "
            "single notes"
        )

    def hints(self) -> Iterator[Hint]:
        yield _left_out(self.span, self.technique)
        if self.notes:
            yield Hint(f"or {self.technique} a single note: {one_of(self.notes)}")


class TechniqueNoBend(Problem):
    """A technique begins or ends on a bend that the hole does not have."""

    code = "technique-no-bend"
    severity = WARNING
    bad = """
        lick porch on I
          h 3b{scoop} 2d
        """
    good = """
        lick porch on I
          h 3d{scoop} 2d
        """

    tab: str
    technique: str
    hole: int
    breath: str

    def message(self) -> str:
        return (
            f"{code(self.tab)} has no {self.technique}: hole {self.hole} does not bend on the "
            f"{self.breath}"
        )

    def hints(self) -> Iterator[Hint]:
        yield _left_out(self.span, self.technique)
        yield Hint("or choose a note that bends")


def _left_out(span: Span, technique: str) -> Hint:
    """That a note be played without its technique."""
    return Hint(f"leave the {technique} out", without_braces(span))


class SwingShortNote(Problem):
    """At this tempo the short note of a swung pair is shorter than players make it.

    The faster the tune, the more even the eighths are played.
    """

    code = "swing-short-note"
    severity = WARNING
    bad = """
        tempo 240
        feel  swing
        lick porch on I
          q 2d e 3d 2d h 2d
        """
    good = """
        tempo 240
        feel  straight
        lick porch on I
          q 2d e 3d 2d h 2d
        """

    tempo: Fraction
    have: int
    least: int
    share: str | None
    lighter: Edit | None = None  # of the feel
    straight: Edit | None = None

    def message(self) -> str:
        return (
            f"at {number(self.tempo)} beats a minute the short note of a swung pair lasts "
            f"{self.have} ms; players keep it near {self.least} ms"
        )

    def hints(self) -> Iterator[Hint]:
        if self.share:
            words = f"write {code(f'feel swing {self.share}')}, or take it slower"
            yield Hint(words, self.lighter)
        yield Hint("write `feel straight`: at this tempo eighths are played even", self.straight)
