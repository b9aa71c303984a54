"""The facts at the top of a lesson, its form and its tuning."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from formsheet.listing import listed
from formsheet.problems.problem import ERROR, REMARK, WARNING, Edit, Hint, Problem, Sample
from formsheet.problems.words import (
    bar_count,
    code,
    did_you_mean,
    in_key,
    number,
    one_of,
    write,
)


class TextEmpty(Problem):
    """A text has quotes with nothing between them.

    The student would see an empty line.
    """

    code = "text-empty"
    severity = ERROR
    bad = 'title ""'
    good = 'title "Kitchen Shuffle"'

    fact: str

    def message(self) -> str:
        return f"{code(self.fact)} has nothing between its quotes"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write the text after {code(self.fact)}")


class LanguageUnknown(Problem):
    """What follows `language` is not a version of the lesson language, such as `1.1`."""

    code = "language-unknown"
    severity = ERROR
    bad = "language 1.o"
    good = "language 1.1"

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
    bad = "language 9.0"
    good = "language 1.1"

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
    bad = "link Watch the lesson https://class.example/27"
    good = 'link "Watch the lesson" https://class.example/27'

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
    bad = 'link "Watch the lesson" class.example/27'
    good = 'link "Watch the lesson" https://class.example/27'

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
    """The student would begin to practise faster than the tune is played.

    Practice begins where the hardest move is easy, and works up to the tempo of the tune.
    """

    code = "learn-above-tempo"
    severity = WARNING
    bad = """
        tempo 100
        learn 120
        """
    good = """
        tempo 100
        learn 60
        """

    learn: Fraction
    tempo: Fraction

    def message(self) -> str:
        learn, tempo = number(self.learn), number(self.tempo)
        return f"students would start at {learn}, above the tempo of the tune, {tempo}"

    def hints(self) -> Iterator[Hint]:
        yield Hint("give `learn` a lower number than `tempo`")


class TitleMissing(Problem):
    """The lesson has no title, so the sheet has no heading and no name."""

    code = "title-missing"
    severity = ERROR
    bad = Sample("teacher The Mill Lane Harp Class", without=("title",))
    good = """
        title   Kitchen Shuffle
        teacher The Mill Lane Harp Class
        """

    def message(self) -> str:
        return "the lesson has no title"

    def hints(self) -> Iterator[Hint]:
        yield Hint("add a line such as `title Kitchen Shuffle`")


class HarpMissing(Problem):
    """Without the key of the harp no note of the tab has a pitch.

    Tab names holes; which notes they are depends on the harp.
    """

    code = "harp-missing"
    severity = ERROR
    bad = Sample("position 2nd", without=("harp",))
    good = """
        harp     C
        position 2nd
        """

    def message(self) -> str:
        return "the lesson does not say for which harp it is"

    def hints(self) -> Iterator[Hint]:
        yield Hint("add a line such as `harp C`, `harp Bb` or `harp low F`")


class FormMissing(Problem):
    """Without a form there are no bars to lay the licks over.

    The form says how many bars a chorus has, and which chord each of them is on.
    """

    code = "form-missing"
    severity = ERROR
    bad = Sample("tempo 100", without=("form",))
    good = """
        form  12-bar standard
        tempo 100
        """

    def message(self) -> str:
        return "the lesson does not say which form it follows"

    def hints(self) -> Iterator[Hint]:
        yield Hint("add a line such as `form 12-bar standard`")


class TempoMissing(Problem):
    """Without a tempo nothing can be played to the student.

    How hard a move is depends on the tempo too.
    """

    code = "tempo-missing"
    severity = ERROR
    bad = Sample("feel swing", without=("tempo",))
    good = """
        tempo 100
        feel  swing
        """

    def message(self) -> str:
        return "the lesson has no tempo"

    def hints(self) -> Iterator[Hint]:
        yield Hint("add a line such as `tempo 104`: beats a minute")


class HarpUnknown(Problem):
    """No harp is made in a key of this name.

    The key is the one stamped on the cover, in English spelling: B is the note a half step below C,
    Bb the one below that.
    """

    code = "harp-unknown"
    severity = ERROR
    bad = "harp H"
    good = "harp B"

    found: str
    near: str | None
    foreign: str | None  # a German or a sung name of the note: "H", "Do"

    def message(self) -> str:
        return f"no harp is stamped {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        if self.foreign and self.near:
            yield Hint(f"the note {code(self.foreign)} is written {code(self.near)} here")
        yield Hint("harps come in C, Db, D, Eb, E, F, F#, G, Ab, A, Bb and B")


class HarpRegister(Problem):
    """The word before the key of the harp is neither `low` nor `high`.

    A low harp sounds an octave below the usual one of its key, a high one an octave above.
    """

    code = "harp-register"
    severity = ERROR
    bad = "harp lo F"
    good = "harp low F"

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
    """The position is not written as a number from 1st to 12th.

    Positions are counted round the circle of fifths from the key of the harp: 1st is the harp's own
    key, 2nd a fifth above.
    """

    code = "position-unknown"
    severity = ERROR
    bad = "position second"
    good = "position 2nd"

    found: str
    nickname: str | None
    meant: str | None
    plain: str | None

    def message(self) -> str:
        return f"{code(self.found)} is not a position"

    def hints(self) -> Iterator[Hint]:
        if self.nickname and self.meant:
            words = f"{self.nickname} is {self.meant} position: write {code(self.meant)}"
            yield Hint(words, Edit(self.span, self.meant))
        if self.plain:
            yield write(self.plain, self.span)
        yield Hint("write `1st`, `2nd`, `3rd` and so on up to `12th`")


class MeterUnknown(Problem):
    """The sheet has no way of counting this meter.

    The count below each bar, the swing and the beams depend on it.
    """

    code = "meter-unknown"
    severity = ERROR
    bad = "meter 5/4"
    good = "meter 4/4"

    found: str
    known: Sequence[str]

    def message(self) -> str:
        return f"{code(self.found)} is not a meter that the sheet can count"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write {one_of(self.known)}")


class TempoUnknown(Problem):
    """The tempo is not a number of beats a minute within reach of a player."""

    code = "tempo-unknown"
    severity = ERROR
    bad = "tempo slow"
    good = "tempo 60"

    found: str
    slowest: int
    fastest: int
    fact: str

    def message(self) -> str:
        return f"{code(self.found)} is not a tempo"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            f"write beats a minute, from {self.slowest} to {self.fastest}, such as "
            f"{code(f'{self.fact} 100')}"
        )


class FeelUnknown(Problem):
    """The feel is neither swing nor straight.

    It decides how each pair of eighths divides its beat, in the count, the sound and the page.
    """

    code = "feel-unknown"
    severity = ERROR
    bad = "feel swng"
    good = "feel swing"

    found: str
    near: str | None

    def message(self) -> str:
        return f"{code(self.found)} is not a feel"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint("write `swing` or `straight`")


class FeelRatio(Problem):
    """The swing is given in a way that does not divide a pair of eighths.

    The first note of a pair takes half of the beat or more: 2:1 is a triplet feel, 3:2 a lighter
    one.
    """

    code = "feel-ratio"
    severity = ERROR
    bad = "feel swing 40%"
    good = "feel swing 60%"

    found: str

    def message(self) -> str:
        return f"{code(self.found)} does not say how a pair of eighths divides"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "write `swing`, `swing 3:2` or `swing 60%`: the first note takes half the beat or more"
        )


class LevelUnknown(Problem):
    """The level of the student is none of those that the limits are known for.

    The level decides which bends, turns of the breath and slides pass without a warning.
    """

    code = "level-unknown"
    severity = ERROR
    bad = "level begginer"
    good = "level beginner"

    found: str
    near: str | None
    known: Sequence[str]

    def message(self) -> str:
        return f"{code(self.found)} is not a level"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint(f"write {one_of(self.known)}")


class CountInUnknown(Problem):
    """The number of bars counted before the tune is not one that a player would wait for."""

    code = "count-in-unknown"
    severity = ERROR
    bad = "count-in 8"
    good = "count-in 2"

    found: str
    most: int

    def message(self) -> str:
        return f"{code(self.found)} is not a count-in"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write how many bars are counted, 0 to {self.most}")


class FormUnknown(Problem):
    """No form has this name.

    A form is one of those that are built in, or one that the lesson writes out, a row of chords for
    each line.
    """

    code = "form-unknown"
    severity = ERROR
    bad = "form 12-bar blues"
    good = "form 12-bar standard"

    found: str
    near: str | None
    known: Sequence[str]
    own: bool  # whether one's own could be written here
    with_bar_lines: str | None = None  # with the commas of its ending as bar lines

    def message(self) -> str:
        return f"there is no form called {code(self.found)}"

    def hints(self) -> Iterator[Hint]:
        if self.with_bar_lines:
            yield write(self.with_bar_lines, self.span, certain=False)
        elif self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint(f"the built-in forms are {one_of(self.known)}")
        if self.own:
            yield Hint(
                "or write your own: its chords on the lines below, such as `| I7 | IV7 | I7 | V7 |`"
            )


class FormEmpty(Problem):
    """The form has neither a name nor a row of chords."""

    code = "form-empty"
    severity = ERROR
    bad = "form"
    good = """
        form "Pump house"
          | I7 | IV7 | I7 | V7 |
        """

    def message(self) -> str:
        return "this form has neither a name nor chords"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "write `form 12-bar standard`, or chord lines such as `| I7 | IV7 | I7 | V7 |` below"
        )


class FormOwnChords(Problem):
    """Chords are written below a form that has chords of its own by its name.

    The chords that are written out are played. A student who knows the name expects the others.
    """

    code = "form-own-chords"
    severity = REMARK
    bad = """
        form 8-bar
          | I7 | IV7 | I7 | V7 |
        """
    good = """
        form "Pump house"
          | I7 | IV7 | I7 | V7 |
        """

    found: str

    def message(self) -> str:
        return (
            f"{code(self.found)} is a form that is known by this name; the chords below take "
            "its place"
        )

    def hints(self) -> Iterator[Hint]:
        yield Hint("remove the chord lines, or give your own form a name of its own")


class FormPlainTriads(Problem):
    """A form of your own has plain triads alone, and the tune plays blue notes of its key.

    In a blues the chords have their sevenths, and the blue notes sound right over them. Over plain
    triads some of them clash.
    """

    code = "form-plain-triads"
    severity = REMARK
    bad = """
        form "Pump house"
          | I | IV | V | I |
        lick porch on I
          q 2d 3d 5d 2d
        """
    good = """
        form "Pump house"
          | I7 | IV7 | V7 | I7 |
        lick porch on I
          q 2d 3d 5d 2d
        """

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
    """The form is longer than a chorus can be.

    A form is one chorus; how often it is played is said at `play`.
    """

    code = "form-too-long"
    severity = ERROR
    bad = (
        'form "Long road"\n'
        + "  | I7 | I7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | IV7 | I7 | V7 |\n" * 6
    )
    good = """
        form "Long road"
          | I7 | IV7 | I7 | I7 | IV7 | IV7 | I7 | I7 | V7 | I7 |
        play x7
          every I   porch
          every IV  creek
          every V   gate
        """

    length: int
    most: int

    def message(self) -> str:
        return f"this form has {self.length} bars; at most {self.most} are possible"

    def hints(self) -> Iterator[Hint]:
        yield Hint("write one chorus only, and say in `play` how often it is played: `play x2`")


class EndingTooLong(Problem):
    """An ending names more bars than the form has.

    An ending replaces the last bars of a form, as many as it names.
    """

    code = "ending-too-long"
    severity = ERROR
    bad = """
        form "Short walk" ending I7 | IV7 | I7 | V7 | I7
          | I7 | IV7 | I7 | V7 |
        """
    good = """
        form "Short walk" ending I7 | V7
          | I7 | IV7 | I7 | V7 |
        """

    length: int
    form: str
    form_bars: int

    def message(self) -> str:
        named = bar_count(self.length)
        return f"this ending names {named}; the form {code(self.form)} has {self.form_bars}"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"name {bar_count(self.form_bars)} at most: the last bars of a chorus")


class EndingTwice(Problem):
    """Two lines give the same choruses different endings."""

    code = "ending-twice"
    severity = ERROR
    bad = """
        play x2
          every I   porch
          every IV  creek
          every V   gate
          last time ending I
          last time ending V
        """
    good = """
        play x2
          every I   porch
          every IV  creek
          every V   gate
          last time ending I
        """

    def message(self) -> str:
        return "these choruses end in two ways"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "remove one of the two lines, or write `last time` before the one for the last chorus"
        )


class BarChords(Problem):
    """A bar of the form has more chords than can be played over it.

    A bar holds one chord, or two that change halfway. Most often a bar line is missing.
    """

    code = "bar-chords"
    severity = ERROR
    bad = """
        form "Pump house"
          | I7 | IV7 | I7 IV7 V7 | I7 |
        """
    good = """
        form "Pump house"
          | I7 | IV7 | I7 | IV7 | V7 |
        """

    count: int
    apart: str  # a chord a bar
    pairs: str | None  # two chords a bar, where they come out

    def message(self) -> str:
        return f"{self.count} chords share this bar; a bar holds one, or two that change halfway"

    def hints(self) -> Iterator[Hint]:
        if self.pairs:
            words = f"for two chords a bar write {code(self.pairs)}"
            yield Hint(words, Edit(self.span, self.pairs, certain=False))
        words = f"put `|` between the bars: {code(self.apart)}"
        yield Hint(words, Edit(self.span, self.apart, certain=False))


class ChordUnknown(Problem):
    """A chord is not written as a numeral that is known here.

    Numerals count from the key of the tune, so that the same lesson serves a harp in any key.
    """

    code = "chord-unknown"
    severity = ERROR
    bad = """
        form "Pump house"
          | G7 | C7 | D7 | G7 |
        """
    good = """
        form "Pump house"
          | I7 | IV7 | V7 | I7 |
        """

    found: str
    numerals: str | None = None
    key: str | None = None

    def message(self) -> str:
        return f"{code(self.found)} is not a chord that formsheet knows"

    def hints(self) -> Iterator[Hint]:
        if self.numerals and self.key:
            yield in_key(self.numerals, self.key, self.span)
        yield Hint(
            "chords are numerals, small letters for minor, such as `I7`, `IV7`, `V7`, "
            "`ii7` or `bVI7`"
        )


class TuningUnknown(Problem):
    """No tuning has this name.

    The tuning decides which note each hole gives, and with it every bend and chord.
    """

    code = "tuning-unknown"
    severity = ERROR
    bad = "tuning richtr"
    good = "tuning richter"

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
    """A tuning of your own has only one of its two rows.

    A hole has two reeds. Which notes bend follows from both.
    """

    code = "tuning-row-missing"
    severity = ERROR
    bad = """
        tuning ferry
          blow C E G C E G C E G C
        """
    good = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G B D F A B D F A
        """

    name: str
    row: str

    def message(self) -> str:
        return f"the tuning {code(self.name)} has no {code(self.row)} line"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "give both rows, `blow` and `draw`, each with the notes of ten holes on a C harp"
        )


class TuningRowTwice(Problem):
    """A tuning of your own has the same row twice."""

    code = "tuning-row-twice"
    severity = ERROR
    bad = """
        tuning ferry
          blow C E G C E G C E G C
          blow D G B D F A B D F A
          draw D G B D F A B D F A
        """
    good = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G B D F A B D F A
        """

    row: str

    def message(self) -> str:
        return f"this tuning has two {code(self.row)} lines"

    def hints(self) -> Iterator[Hint]:
        yield Hint("keep one of them")


class TuningHoles(Problem):
    """A row of a tuning does not have a note for each hole."""

    code = "tuning-holes"
    severity = ERROR
    bad = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G B D F A B D F
        """
    good = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G B D F A B D F A
        """

    row: str
    count: int
    holes: int
    usage: str

    def message(self) -> str:
        return f"this {self.row} row has {self.count} notes; a harp has {self.holes} holes"

    def hints(self) -> Iterator[Hint]:
        yield Hint(f"write it like this: {code(self.usage)}")


class TuningNote(Problem):
    """A word in a row of a tuning is not the name of a note."""

    code = "tuning-note"
    severity = ERROR
    bad = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G H D F A B D F A
        """
    good = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G B D F A B D F A
        """

    found: str
    near: str | None

    def message(self) -> str:
        return f"{code(self.found)} is not a note"

    def hints(self) -> Iterator[Hint]:
        if self.near:
            yield did_you_mean(self.near, self.span)
        yield Hint("write `C`, `Bb`, `F#`, or with octave `C5`")


class TuningNames(Problem):
    """A row of a tuning has names of notes in German or as syllables. Here they are English.

    H is B, Fis is F#, Es is Eb; a B beside an H is Bb. Sol is G, Si is B.
    """

    code = "tuning-names"
    severity = ERROR
    bad = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G H D Fis A H D Fis A
        """
    good = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G B D F# A B D F# A
        """

    found: Sequence[str]  # names that are none in English
    row: str
    certain: bool  # no name means one note here and another there

    def message(self) -> str:
        names = listed([code(name) for name in self.found], "and")
        return f"{names}: notes have their English names here"

    def hints(self) -> Iterator[Hint]:
        yield write(self.row, self.span, certain=self.certain)


class TuningRange(Problem):
    """A note of a tuning is higher or lower than any reed of a harp.

    Without an octave, each note is the next one above the hole before it; a slip can send all those
    after it up an octave.
    """

    code = "tuning-range"
    severity = ERROR
    bad = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G B D F A B D F A9
        """
    good = """
        tuning ferry
          blow C E G C E G C E G C
          draw D G B D F A B D F A
        """

    found: str

    def message(self) -> str:
        return f"{code(self.found)} lies outside the range of a C harp"

    def hints(self) -> Iterator[Hint]:
        yield Hint(
            "notes rise from hole to hole; check the one before, or give the octave, such as `C5`"
        )
