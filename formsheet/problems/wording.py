"""Every word that the tool says of a lesson, in one place.

Each kind of problem has a message and hints. `{name}` is a fact of the problem. A hint is an
action, and is given only where all its facts are known. Lists read "a, b or c"; `:code` sets a
fact in backquotes, `:bars` reads bar numbers, `:steps` half steps.
"""

from __future__ import annotations

import string
from collections.abc import Callable, Sequence
from fractions import Fraction
from itertools import groupby
from typing import Any, ClassVar, NamedTuple

from formsheet.problems.problem import Problem


class Words(NamedTuple):
    """Message and hints of a kind of problem."""

    message: str
    hints: tuple[str, ...] = ()


def _w(message: str, *hints: str) -> Words:
    return Words(message, hints)


_NEAR = "did you mean `{near}`?"
_USAGE = "write it like this: `{usage}`"

WORDING: dict[str, Words] = {
    # Files
    "file-missing": _w("there is no file `{file}`", "check its name, and the folder it is in"),
    "file-too-large": _w(
        "`{file}` is larger than any lesson: {most} bytes at most", "check that it is a lesson"
    ),
    "file-unreadable": _w("`{file}` cannot be read: {reason}", "check who may read this file"),
    "file-not-utf8": _w(
        "`{file}` is not UTF-8 text from here on",
        "save it again from your editor with the encoding UTF-8",
    ),
    "file-not-plain": _w(
        "`{file}` is a word processor's file, not plain text",
        "save it as plain text (.txt, UTF-8), and end its name in `.lesson`",
    ),
    # Lines
    "word-unknown": _w(
        "`{found}` begins no line of a lesson, and is no mark of music",
        _NEAR,
        "{meant}",
        "a text is one line long: go on with `{text_line}` on this line, or join the two",
        "if `{plain}` begins a remark of your own, write `#` before it",
    ),
    "word-unexpected": _w("`{found}` cannot stand here; expected {wanted}", _USAGE),
    "line-unfinished": _w("the line ends too soon after `{last}`; expected {wanted}", _USAGE),
    "text-cut": _w(
        "from `{found}` on this is a comment and is not printed",
        "put the whole text in quotes to print it",
    ),
    "quote-open": _w(
        "the quote that opens here is not closed on this line",
        "for a bend of a whole step, write two ticks: `{bend}`",
        'put a `"` at the end of the quoted words, or take this one out',
    ),
    "brace-open": _w(
        "the brace that opens here is not closed; a technique stands in braces",
        "write `{guess}`",
    ),
    "line-misplaced": _w(
        "`{found}` belongs under a `{owner}` line, and there is none above it",
        "move this line below the `{owner}` line that it belongs to",
    ),
    "chords-misplaced": _w(
        "chords stand here, but no `form` line is above them",
        "write `form` and a name in quotes on the line before",
    ),
    "music-misplaced": _w(
        "music stands here, but no `lick`, `turnaround` or `rhythm` line is above it",
        "write a first line for it, such as `lick porch on I`",
    ),
    "fact-late": _w(
        "`{fact}` stands after the first lick",
        "move this line to the top, before the first lick",
    ),
    "fact-twice": _w("`{fact}` is given twice", "keep one of the two lines"),
    # Facts
    "text-empty": _w("`{fact}` has nothing between its quotes", "write the text after `{fact}`"),
    "learn-above-tempo": _w(
        "students would start at {learn}, above the tempo of the tune, {tempo}",
        "give `learn` a lower number than `tempo`",
    ),
    "title-missing": _w("the lesson has no title", "add a line such as `title Kitchen Shuffle`"),
    "harp-missing": _w(
        "the lesson does not say for which harp it is",
        "add a line such as `harp C`, `harp Bb` or `harp low F`",
    ),
    "form-missing": _w(
        "the lesson does not say which form it follows",
        "add a line such as `form 12-bar standard`",
    ),
    "tempo-missing": _w(
        "the lesson has no tempo", "add a line such as `tempo 104`: beats a minute"
    ),
    "harp-unknown": _w(
        "no harp is stamped `{found}`",
        _NEAR,
        "harps come in C, Db, D, Eb, E, F, F#, G, Ab, A, Bb and B",
    ),
    "harp-register": _w(
        "a harp is `low` or `high`, not `{found}`",
        "write `low {key}` or `high {key}`, or `{key}` alone",
    ),
    "position-unknown": _w(
        "`{found}` is no position", "write `1st`, `2nd`, `3rd` and so on up to `12th`"
    ),
    "meter-unknown": _w("`{found}` is no meter that the sheet can count", "write {known:code}"),
    "tempo-unknown": _w(
        "`{found}` is no tempo",
        "write beats a minute, from {slowest} to {fastest}, such as `{fact} 100`",
    ),
    "feel-unknown": _w("`{found}` is no feel", _NEAR, "write `swing` or `straight`"),
    "feel-ratio": _w(
        "`{found}` does not say how a pair of eighths divides",
        "write `swing`, `swing 3:2` or `swing 60%`: the first note takes half the beat or more",
    ),
    "level-unknown": _w("`{found}` is no level of a student", _NEAR, "write {known:code}"),
    "count-in-unknown": _w(
        "`{found}` is no count-in", "write how many bars are counted, 0 to {most}"
    ),
    "form-unknown": _w(
        "there is no form called `{found}`",
        _NEAR,
        "the built-in forms are {known:code}",
        "or write your own: its chords on the lines below, such as `| I7 | IV7 | I7 | V7 |`",
    ),
    "form-empty": _w(
        "this form has neither a name nor chords",
        "write `form 12-bar standard`, or chord lines such as `| I7 | IV7 | I7 | V7 |` below",
    ),
    "form-own-chords": _w(
        "`{found}` is a form that is known by this name; the chords below take its place",
        "take the chord lines out, or give your own form a name of its own",
    ),
    "form-too-long": _w(
        "this form has {bars} bars; {most} is the most",
        "write one chorus only, and say at `play` how often it is played: `play x2`",
    ),
    "ending-unknown": _w(
        "a form ends on I (home) or on V (a turnaround to the top), not on `{found}`",
        "write `ending I` or `ending V`",
    ),
    "ending-twice": _w(
        "these choruses end in two ways",
        "take one of the two lines out, or write `last time` before the one for the last chorus",
    ),
    "bar-chords": _w(
        "{count} chords share this bar; a bar holds one, or two that change halfway",
        "put `|` between the bars",
    ),
    "chord-unknown": _w(
        "`{found}` is no chord that the tool knows",
        "chords are numerals, small letters for minor, such as `I7`, `IV7`, `V7`, `ii7` or `bVI7`",
    ),
    "tuning-unknown": _w(
        "there is no tuning called `{found}`",
        _NEAR,
        "the built-in tunings are {known:code}",
        "or define it: a `blow` line and a `draw` line below, with its notes on a C harp",
    ),
    "tuning-row-missing": _w(
        "the tuning `{name}` has no `{row}` line",
        "give both rows, `blow` and `draw`, each with the notes of ten holes on a C harp",
    ),
    "tuning-row-twice": _w("this tuning has two `{row}` lines", "keep one of them"),
    "tuning-holes": _w("this {row} row has {count} notes; a harp has {holes} holes", _USAGE),
    "tuning-note": _w("`{found}` is no note", "write `C`, `Bb`, `F#`, or with octave `C5`"),
    "tuning-range": _w(
        "`{found}` lies outside the range of a C harp",
        "notes rise from hole to hole; check the one before, or give the octave, such as `C5`",
    ),
    # Marks
    "note-breath": _w(
        "`{found}` is no note: after the holes comes the breath, `b` for blow or `d` for draw",
        "write `{guess}`",
        "write `{holes}b` or `{holes}d`",
    ),
    "note-mixed": _w(
        "`{found}` mixes two breaths; all holes of a chord sound on one",
        "write the notes one after the other: `{apart}`",
    ),
    "marks-together": _w(
        "`{found}` runs marks together; each stands by itself, with spaces between",
        "write `{apart}`",
        "or, as one chord, `{chord}`",
    ),
    "note-hole": _w(
        "`{found}` names hole 0; the holes are 1 to 10",
        "write the hole that is meant; hole 10 needs its 1, as in `10d`",
    ),
    "note-order": _w(
        "`{found}` is out of order: after a note come `!`, then the technique, then the syllable",
        'write it like this: `4d!{{wah}}"ka"`',
    ),
    "count-stray": _w(
        "`{found}` counts nothing here",
        "a count follows a bracket: `[ 4d 5d ]{found}`",
    ),
    "value-unknown": _w(
        "`{found}` is no note value",
        "write `{guess}`",
        "the values are `w`, `h`, `q`, `e` and `s`; `q.` is dotted, `e3` is in a triplet",
    ),
    "mark-unknown": _w(
        "`{found}` is no mark of music",
        "write `{guess}`",
        "notes look like `4d`, values like `q`, a rest is `-`, a hold is `=`",
        "if `{words}` is a remark of your own, write `#` before it",
    ),
    "technique-unknown": _w("`{found}` is no technique", _NEAR, "the techniques are {known:code}"),
    "value-carried-round": _w(
        "the first round of this group begins in `{first}`, the others in `{last}`, which is then "
        "in force",
        "if all rounds are meant alike, write `{first}` after the `[`",
    ),
    "value-unused": _w(
        "`{found}` has no note after it",
        "write the note, hold or rest that lasts so long, or take the value out",
    ),
    "triplet-broken": _w(
        "this triplet is not whole: {count} of three",
        "fill it up in its own values, with a note or a rest: `{value} -`",
    ),
    "value-missing": _w(
        "`{found}` has no length: no note value stands before it",
        "begin with a value, such as `q` for quarters or `e` for eighths",
    ),
    "hold-nothing": _w(
        "there is no note before this `=` to hold", "write `-` for a rest, or a note"
    ),
    "bracket-not-open": _w(
        "this bracket closes a group that was never opened",
        "put `[` before the first mark of the group, or take this bracket out",
    ),
    "bracket-not-closed": _w(
        "this bracket is not closed", "close the group and say how often: `]x2`"
    ),
    "bracket-no-count": _w(
        "this group does not say how often it is played", "write `]x2` to play it twice"
    ),
    "bracket-times": _w(
        "a group is played 1 to {most} times, not {times}", "write `]x2` to play it twice"
    ),
    "lick-too-long": _w(
        "with all its repeats this lick has more than {most} marks",
        "repeat the lick at `play` instead, such as `porch x4`",
    ),
    # Bars
    "bar-too-long": _w(
        "bar {bar} of `{lick}` is {extra} too long: it holds {have}; a bar of {meter} holds {want}",
        "a bar line `|` before `{before}` would end the bar in time",
        "shorten a value, or take a mark out",
    ),
    "bar-too-short": _w(
        "bar {bar} of `{lick}` is {missing} too short: it holds {have}; a bar of {meter} holds "
        "{want}",
        "lengthen a note, or fill the bar with rest: `{rest}`",
    ),
    "bar-empty": _w(
        "bar {bar} of `{lick}` is empty; a bar of {meter} holds {want}",
        "take this bar line out, or write a rest before it",
    ),
    "pickup-bar-line": _w(
        "a pick-up has no bar line: it leads into the lick's first bar", "take this bar line out"
    ),
    "pickup-too-long": _w(
        "the pick-up of `{lick}` lasts {have}; it must be shorter than a bar of {want}",
        "write the part that fills bars as music of the lick",
    ),
    "pickup-twice": _w("`{lick}` has two pick-ups", "keep one of the two lines"),
    # Licks and rhythms
    "lick-twice": _w("there are two licks called `{name}`", "give one of them another name"),
    "lick-named-rest": _w(
        "a lick cannot be called `rest`: in `play`, `rest` leaves a bar silent",
        "give it another name",
    ),
    "rhythm-twice": _w("there are two rhythms called `{name}`", "give one of them another name"),
    "lick-without-music": _w(
        "`{lick}` has no music", "write its notes on the lines below, such as `q 4d 5d 4d 2d`"
    ),
    "rhythm-without-music": _w(
        "the rhythm `{name}` is empty", "write values and an `x` for each note: `q x e x x h x`"
    ),
    "rhythm-note": _w(
        "`{found}` is a note; a rhythm has only places for notes", "write `x` for it"
    ),
    "place-in-lick": _w(
        "`x` is a place for a note, and belongs in a `rhythm` only",
        "write the note itself, or give `{lick}` a rhythm: `in` and its name",
    ),
    "rhythm-unknown": _w(
        "there is no rhythm called `{found}`",
        _NEAR,
        "the rhythms here are {known:code}",
        "or write it above the lick, an `x` for each note, such as `rhythm {found} q x x h x`",
    ),
    "rhythm-and-marks": _w(
        "`{found}` cannot stand here: `{lick}` takes its values and rests from the rhythm "
        "`{rhythm}`",
        "write only its notes, one for each `x`",
    ),
    "rhythm-count": _w(
        "`{lick}` has {notes} notes, and its rhythm `{rhythm}` has places for {places}",
        "write one note for each `x` of the rhythm",
    ),
    "on-count": _w(
        "`{lick}` is written on {asked} chords bar by bar, but has {bars:long}",
        "name one chord for all its bars, or one for each bar with `|` between",
    ),
    # Shelves
    "shelf-unknown": _w(
        "there is no shelf `{file}` beside this file or in the folder `shelf`",
        _NEAR,
        "put the shelf in one of these places, or write the name of one that is there",
    ),
    "shelf-outside": _w(
        "`{found}` leads out of the lessons folder",
        "put the shelf beside the lesson or in the folder `shelf`, and write its plain name",
    ),
    "shelf-circle": _w(
        "these shelves use each other in a circle: {circle}",
        "take one of their `use` lines out, and write those licks where they are used",
    ),
    "shelf-unlike": _w(
        "the shelf `{shelf}` is written for {fact} `{theirs}`, and this file for `{ours}`",
        "write these licks anew for {fact} `{ours}`, on a shelf of their own",
    ),
    "shelf-form": _w(
        "a shelf holds licks and rhythms only: `form` belongs in a lesson",
        "move the form to the lesson that uses this shelf",
    ),
    "shelf-play": _w(
        "a shelf holds licks and rhythms only: `play` belongs in a lesson",
        "move `play` and the lines below it to the lesson that uses this shelf",
    ),
    "lick-not-on-shelf": _w(
        "the shelf `{shelf}` has no lick called `{found}`", _NEAR, "it holds {known:code}"
    ),
    # Play
    "play-missing": _w(
        "nothing is played: the lesson has no `play` line",
        "end it with `play` and, below, lines such as `every I porch`",
    ),
    "lick-unknown": _w(
        "there is no lick called `{found}`", _NEAR, "the licks here are {known:code}"
    ),
    "count-range": _w("`{found}` is no count", "write `x1` to `x{most}`"),
    "bars-range": _w(
        "`{found}` is no range of bars",
        "count bars from 1 and write the lower number first, such as `bars 1-4`",
    ),
    "bars-outside": _w(
        "the form `{form}` has {bars} bars, too few for {found}", "write bars from 1 to {bars}"
    ),
    "bar-twice": _w(
        "bar {bar} is placed twice", "take one of the two out, or let its bars end sooner"
    ),
    "bar-without-lick": _w(
        "nothing is placed in {bars:bars}, on {chord}",
        "{fitting:code} would fit: add `every {chord} {best}` below",
        "{might:code} would fit too, if its first line named {chord}",
        "on the shelf `{shelf}`, {shelved:code} would fit: add `use {take} from {shelf}`",
        "to leave silence there, add `every {chord} rest`",
    ),
    "every-nowhere": _w(
        "the form `{form}` has no bar on `{found}`", "its chords are {chords:code}"
    ),
    "count-mismatch": _w(
        "the count does not come out: this fills {have:long}, and there is room for {want} in "
        "{bars}",
        "write `{fixed}`",
    ),
    "counts-wanted": _w(
        "there is room for {want:long} in {bars}, and these licks once each fill {have}",
        "say how often each is played, such as `{lick} x2`",
    ),
    "lick-does-not-fill": _w(
        "`{lick}` is {one:long} long; it cannot fill {bars} exactly, where there is room for "
        "{left}",
        "write `{whole}` to play it once",
        "or say how often it is played, and fill up with another lick or with `rest`",
    ),
    "lick-wrong-chord": _w(
        "`{lick}` is written for {asked}; the chord of {bars:bars} is {chord}",
        "play a lick that is written for {chord}, the best first: {fitting:code}",
        "{might:code} would fit too, if its first line named {chord}",
        "on the shelf `{shelf}`, {shelved:code} would fit: add `use {take} from {shelf}`",
        "if it is meant for this bar too, write `on {both}` in its first line",
    ),
    "pickup-no-room": _w(
        "the pick-up of `{lick}` needs {length} at the end of bar {bar}, where `{before}` still "
        "sounds",
        "end `{before}` with a rest of that length",
    ),
    "tune-too-long": _w(
        "the tune would have {bars} bars; {most} is the most", "play fewer choruses"
    ),
    # What the harp can play
    "holes-order": _w(
        "`{tab}` does not name its holes from low to high, each once", "write `{guess}`"
    ),
    "holes-gap": _w(
        "`{tab}` is neither a block of neighbouring holes nor a split of two",
        "write `{block}` for the block, or `{split}` for the split",
    ),
    "split-too-wide": _w(
        "the split `{tab}` spans {holes} holes; a mouth reaches {most}",
        "write `{split}`, the widest from its lower hole",
    ),
    "block-too-wide": _w(
        "the block `{tab}` covers {holes} holes; a mouth covers {most}",
        "write its lowest holes: `{block}`",
    ),
    "bend-on-chord": _w(
        "`{tab}` bends a chord; bends are for single notes", "write `{plain}` without the bend"
    ),
    "bend-too-deep": _w(
        "{hole} {breath} does not bend {asked:steps}; on this harp it bends {deepest:steps}",
        "write `{guess}`",
    ),
    "bend-missing": _w(
        "{hole} {breath} does not bend: the {other} reed of hole {hole} leaves it no room",
        "write `{plain}`",
        "or write `{guess}`: the {other} note of hole {hole} bends",
    ),
    "overbend-bent": _w(
        "`{tab}` bends an {kind}; ticks bend natural notes only", "write `{plain}`"
    ),
    "overbend-missing": _w(
        "hole {hole} has no {kind}",
        "write `{guess}`: it has an {other}",
    ),
    # Fit
    "note-clash": _w(
        "`{tab}` ({pitch}) {how} on beat {beat} of {bars:bars} as the {degree} of {letter}",
        "nearest chord tones on this harp: {offers:code}",
        "if the clash is meant, write `{tab}!`",
    ),
    "note-rubs": _w(
        "`{tab}` ({pitch}) rubs against {letter} in beat {beat} of {bars:bars}: it is the "
        "{degree}, and no step leads away from it",
        "nearest chord tones on this harp: {offers:code}",
    ),
    "note-leans": _w(
        "`{tab}` ({pitch}) leans on {letter} in beat {beat} of {bars:bars}: it is the {degree}, "
        "and a half step leads it home",
        "nearest chord tones on this harp: {offers:code}",
    ),
    "note-clash-deliberate": _w(
        "`{tab}` ({pitch}) clashes with {letter} in beat {beat} of {bars:bars}, the {degree}: "
        "deliberately"
    ),
    "landing-missing": _w(
        "no note of {letter} lands in {bars:bars}: the first that lands, `{tab}`, is the {degree}",
        "let the root land there: {roots:code}",
    ),
    # How it feels under the lips
    "overbend-taught": _w(
        "`{tab}` is an {kind}, an advanced technique; this lesson is for {level}",
        "write `level advanced` if it is taught",
        "the same note or a chord tone near it: {offers:code}",
    ),
    "bend-hard": _w(
        "`{tab}` bends {bend:steps}: deep for {level}",
        "the same note or a chord tone near it: {offers:code}",
        "write `level {next}` if the student is further",
    ),
    "bends-repeated": _w(
        "{count} deep bends in a row from `{tab}` on in `{lick}`: tiring, and hard to keep in tune",
        "put a natural note between them",
    ),
    "turns-fast": _w(
        "from `{tab}` on in {bars:bars} the breath turns {count} times in a row, each "
        "within {ms} ms",
        "find some of these notes on the other breath, or take it slower",
    ),
    "slide-too-fast": _w(
        "from `{first}` to `{tab}` in {bars:bars} the mouth moves {holes} holes in {ms} ms; it "
        "takes about {needs} ms",
        "put a rest before `{tab}`, or begin nearer",
        "nearer to `{first}`: {offers:code}",
    ),
    "shake-nowhere": _w(
        "`{tab}` cannot be shaken: a shake alternates with the next hole up, and there is none",
        "shake `{lower}` instead",
    ),
    "technique-no-bend": _w(
        "`{tab}` has no {technique}: hole {hole} does not bend on the {breath}",
        "leave the technique out, or choose a note that bends",
    ),
    "swing-short-note": _w(
        "at {tempo} beats a minute the short note of a swung pair lasts {have} ms; players "
        "keep it near {least} ms",
        "write `feel swing {share}`, or take it slower",
        "write `feel straight`: at this tempo eighths are played even",
    ),
    "lick-cut": _w(
        "`{lick}` is {whole:long} long; in {bars:bars} it breaks off after {played:long}",
        "place something over all its bars, or none",
    ),
    "glyph-missing": _w(
        "the sheet's typeface has no {signs}{more}",
        "look at the printed sheet: such a sign is taken from a font of this computer, and where "
        "there is none a box is printed",
    ),
    "lick-unused": _w(
        "the lick `{lick}` is not played in this tune",
        "play it, such as `bar 1 {lick}`, or take it out",
    ),
}


_LONGEST_FACT = 80  # characters of a word of the file: more would hide what is said of it
_SHORTEST_RANGE = 3  # bars that are told as "1-3"

_STEPS = ("", "a half step", "a whole step", "a step and a half")


def _steps(count: int) -> str:
    """Half steps as players say them."""
    return _STEPS[count] if count < len(_STEPS) else f"{count} half steps"


def _bars(numbers: Sequence[int]) -> str:
    """Bar numbers in words: "bar 5", "bars 5, 6 and 10", "bars 1-4, 7, 8 and 11"."""
    words: list[str] = []
    for _, run in groupby(enumerate(numbers), lambda pair: pair[1] - pair[0]):
        each = [str(number) for _, number in run]
        words += [f"{each[0]}-{each[-1]}"] if len(each) >= _SHORTEST_RANGE else each
    return f"{'bar' if len(numbers) == 1 else 'bars'} {listed(words, 'and')}"


def _long(bars: int) -> str:
    return "1 bar" if bars == 1 else f"{bars} bars"


class _Formatter(string.Formatter):
    """Facts to words, by the kind that the template names or by their own."""

    _KINDS: ClassVar[dict[str, Callable[[Any], str]]] = {
        "steps": _steps, "bars": _bars, "long": _long}  # fmt: skip

    def format_field(self, value: Any, format_spec: str) -> str:
        if format_spec in self._KINDS:
            return self._KINDS[format_spec](value)
        if isinstance(value, str):
            value = value if len(value) <= _LONGEST_FACT else f"{value[:_LONGEST_FACT]}…"
            return f"`{value}`" if format_spec == "code" else value
        if isinstance(value, Sequence):
            items = [f"`{item}`" if format_spec == "code" else str(item) for item in value]
            return listed(items, "or")
        if isinstance(value, Fraction):
            return f"{float(value):g}"
        return str(value)


def listed(items: Sequence[str], last: str) -> str:
    """ "a", "a or b", "a, b or c"."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


_FORMATTER = _Formatter()


def _known(template: str, facts: dict[str, Any]) -> bool:
    """Whether every fact that a hint needs is there."""
    names = {name for _, name, _, _ in string.Formatter().parse(template) if name}
    return all(facts.get(name) not in (None, "", [], ()) for name in names)


def words(problem: Problem) -> tuple[str, list[str]]:
    """Message and hints of a problem."""
    entry = WORDING[problem.slug]
    hints = [hint for hint in entry.hints if _known(hint, problem.facts)]
    return (
        _FORMATTER.vformat(entry.message, (), problem.facts),
        [_FORMATTER.vformat(hint, (), problem.facts) for hint in hints],
    )
