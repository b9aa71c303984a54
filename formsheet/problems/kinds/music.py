"""Marks of music, bars, licks and rhythms."""

from __future__ import annotations

from formsheet.problems.kinds.words import NEAR, Words, says

MUSIC: dict[str, Words] = {
    # Marks
    "note-breath": says(
        "`{found}` is no note: after the holes comes the breath, `b` for blow or `d` for draw",
        "write `{guess}`",
        "write `{holes}b` or `{holes}d`",
    ),
    "note-capital": says(
        "`{found}` has a capital letter; the breath is a small one, `b` for blow or `d` for draw",
        "write `{guess}`",
    ),
    "note-quote": says(
        "`{found}` is bent with a `{sign}`; a bend is a tick `'` for each half step",
        "write `{guess}`",
    ),
    "ticks-apart": says(
        "the ticks of a bend stand at their note, with no space between", "write `{guess}`"
    ),
    "note-accidental": says(
        "`{found}` has a {sign}; tab names the hole, and a tick `'` for each half step of bend",
        "write `{bent}` for the bend",
        "write `{plain}` for the note without a {sign}",
    ),
    "holes-parted": says(
        "`{found}` parts the holes of a chord; they are written with nothing between",
        "write `{guess}`",
    ),
    "brackets-round": says(
        "`{found}` has a word in round brackets; a technique stands in braces, a word to print "
        "under the note in quotes",
        "write `{guess}`",
    ),
    "note-tail": says(
        "`{found}` has a `{tail}` behind the note; marks stand with spaces between",
        "write `{guess}`",
    ),
    "note-mixed": says(
        "`{found}` mixes two breaths; all holes of a chord sound on one",
        "write the notes one after the other: `{apart}`",
    ),
    "marks-together": says(
        "`{found}` runs marks together; each stands by itself, with spaces between",
        "write `{apart}`",
        "or, as one chord, `{chord}`",
    ),
    "note-hole": says(
        "`{found}`: there is no hole {hole}; the holes are 1 to 10",
        "write the hole that is meant; hole 10 needs its 1, as in `10d`",
    ),
    "note-order": says(
        "`{found}` is out of order: after a note come `!`, then the technique, then the syllable",
        'write it like this: `4d!{{wah}}"ka"`',
    ),
    "count-stray": says(
        "`{found}` counts nothing here",
        "a count follows a bracket: `[ 4d 5d ]{found}`",
    ),
    "value-unknown": says(
        "`{found}` is no note value",
        "write `{guess}`",
        "the values are `w`, `h`, `q`, `e` and `s`; `q.` is dotted, `e3` is in a triplet",
    ),
    "mark-unknown": says(
        "`{found}` is no mark of music",
        "write `{guess}`",
        "notes look like `4d`, values like `q`, a rest is `-`, a hold is `=`",
        "if `{words}` is a remark of your own, write `#` before it",
    ),
    "technique-unknown": says("`{found}` is no technique", NEAR, "the techniques are {known:code}"),
    "value-carried-round": says(
        "the first round of this group begins in `{first}`, the others in `{last}`, which is then "
        "in force",
        "if all rounds are meant alike, write `{first}` after the `[`",
    ),
    "value-unused": says(
        "`{found}` has no note after it",
        "write the note, hold or rest that lasts so long, or take the value out",
    ),
    "triplet-broken": says(
        "this triplet is not whole: {count} of three",
        "write `{guess}`, or a note in place of a rest",
        "fill it up in its own value, `{value}`, with notes or rests: `{rests}`",
    ),
    "value-missing": says(
        "`{found}` has no length: no note value stands before it",
        "begin with a value, such as `q` for quarters or `e` for eighths",
    ),
    "hold-nothing": says(
        "there is no note before this `=` to hold", "write `-` for a rest, or a note"
    ),
    "bracket-not-open": says(
        "this bracket closes a group that was never opened",
        "put `[` before the first mark of the group, or take this bracket out",
    ),
    "bracket-not-closed": says(
        "this bracket is not closed", "close the group and say how often: `]x2`"
    ),
    "bracket-no-count": says(
        "this group does not say how often it is played", "write `]x2` to play it twice"
    ),
    "bracket-times": says(
        "a group is played 1 to {most} times, not {times}", "write `]x2` to play it twice"
    ),
    "lick-too-long": says(
        "with all its repeats this lick has more than {most} marks",
        "repeat the lick at `play` instead, such as `porch x4`",
    ),
    # Bars
    "bar-too-long": says(
        "bar {bar} of `{lick}` is {extra} too long: it holds {have}; a bar of {meter} holds {want}",
        "a bar line `|` before `{before}` would end the bar in time",
        "shorten a value, or take a mark out",
    ),
    "bar-too-short": says(
        "bar {bar} of `{lick}` is {missing} too short: it holds {have}; a bar of {meter} holds "
        "{want}",
        "lengthen a note, or fill the bar with rest: `{rest}`",
    ),
    "bar-empty": says(
        "bar {bar} of `{lick}` is empty; a bar of {meter} holds {want}",
        "take this bar line out, or write a rest before it",
    ),
    "pickup-bar-line": says(
        "a pick-up has no bar line: it leads into the lick's first bar", "take this bar line out"
    ),
    "pickup-too-long": says(
        "the pick-up of `{lick}` lasts {have}; it must be shorter than a bar of {want}",
        "write the part that fills bars as music of the lick",
    ),
    "pickup-twice": says("`{lick}` has two pick-ups", "keep one of the two lines"),
    # Licks and rhythms
    "lick-twice": says("there are two licks called `{name}`", "give one of them another name"),
    "lick-named-rest": says(
        "a lick cannot be called `rest`: in `play`, `rest` leaves a bar silent",
        "give it another name",
    ),
    "rhythm-twice": says("there are two rhythms called `{name}`", "give one of them another name"),
    "lick-without-music": says(
        "`{lick}` has no music", "write its notes on the lines below, such as `q 4d 5d 4d 2d`"
    ),
    "rhythm-without-music": says(
        "the rhythm `{name}` is empty", "write values and an `x` for each note: `q x e x x h x`"
    ),
    "rhythm-note": says(
        "`{found}` is a note; a rhythm has only places for notes", "write `x` for it"
    ),
    "place-in-lick": says(
        "`x` is a place for a note, and belongs in a `rhythm` only",
        "write the note itself, or give `{lick}` a rhythm: `in` and its name",
    ),
    "rhythm-unknown": says(
        "there is no rhythm called `{found}`",
        NEAR,
        "the rhythms here are {known:code}",
        "or write it above the lick, an `x` for each note, such as `rhythm {found} q x x h x`",
    ),
    "rhythm-and-marks": says(
        "`{found}` cannot stand here: `{lick}` takes its values and rests from the rhythm "
        "`{rhythm}`",
        "write only its notes, one for each `x`",
    ),
    "rhythm-count": says(
        "`{lick}` has {notes} notes, and its rhythm `{rhythm}` has places for {places}",
        "write one note for each `x` of the rhythm",
    ),
    "on-count": says(
        "`{lick}` is written on {asked} chords bar by bar, but has {bars:long}",
        "name one chord for all its bars, or one for each bar with `|` between",
    ),
}
