"""The facts at the top of a lesson, its form and its tuning."""

from __future__ import annotations

from formsheet.problems.kinds.words import NEAR, USAGE, Words, says

FACTS: dict[str, Words] = {
    "text-empty": says("`{fact}` has nothing between its quotes", "write the text after `{fact}`"),
    "learn-above-tempo": says(
        "students would start at {learn}, above the tempo of the tune, {tempo}",
        "give `learn` a lower number than `tempo`",
    ),
    "title-missing": says("the lesson has no title", "add a line such as `title Kitchen Shuffle`"),
    "harp-missing": says(
        "the lesson does not say for which harp it is",
        "add a line such as `harp C`, `harp Bb` or `harp low F`",
    ),
    "form-missing": says(
        "the lesson does not say which form it follows",
        "add a line such as `form 12-bar standard`",
    ),
    "tempo-missing": says(
        "the lesson has no tempo", "add a line such as `tempo 104`: beats a minute"
    ),
    "harp-unknown": says(
        "no harp is stamped `{found}`",
        NEAR,
        "`{german}` is `{near}` here",
        "harps come in C, Db, D, Eb, E, F, F#, G, Ab, A, Bb and B",
    ),
    "harp-register": says(
        "a harp is `low` or `high`, not `{found}`",
        "write `low {key}` or `high {key}`, or `{key}` alone",
    ),
    "position-unknown": says(
        "`{found}` is no position",
        "{nickname} is {meant} position: write `{meant}`",
        "write `{plain}`",
        "write `1st`, `2nd`, `3rd` and so on up to `12th`",
    ),
    "meter-unknown": says("`{found}` is no meter that the sheet can count", "write {known:code}"),
    "tempo-unknown": says(
        "`{found}` is no tempo",
        "write beats a minute, from {slowest} to {fastest}, such as `{fact} 100`",
    ),
    "feel-unknown": says("`{found}` is no feel", NEAR, "write `swing` or `straight`"),
    "feel-ratio": says(
        "`{found}` does not say how a pair of eighths divides",
        "write `swing`, `swing 3:2` or `swing 60%`: the first note takes half the beat or more",
    ),
    "level-unknown": says("`{found}` is no level of a student", NEAR, "write {known:code}"),
    "count-in-unknown": says(
        "`{found}` is no count-in", "write how many bars are counted, 0 to {most}"
    ),
    "form-unknown": says(
        "there is no form called `{found}`",
        NEAR,
        "the built-in forms are {known:code}",
        "or write your own: its chords on the lines below, such as `| I7 | IV7 | I7 | V7 |`",
    ),
    "form-empty": says(
        "this form has neither a name nor chords",
        "write `form 12-bar standard`, or chord lines such as `| I7 | IV7 | I7 | V7 |` below",
    ),
    "form-own-chords": says(
        "`{found}` is a form that is known by this name; the chords below take its place",
        "take the chord lines out, or give your own form a name of its own",
    ),
    "form-too-long": says(
        "this form has {bars} bars; {most} is the most",
        "write one chorus only, and say at `play` how often it is played: `play x2`",
    ),
    "ending-too-long": says(
        "this ending names {bars:long}; the form `{form}` has {have}",
        "name no more than the last {have} bars",
    ),
    "ending-twice": says(
        "these choruses end in two ways",
        "take one of the two lines out, or write `last time` before the one for the last chorus",
    ),
    "bar-chords": says(
        "{count} chords share this bar; a bar holds one, or two that change halfway",
        "put `|` between the bars: `{apart}`",
    ),
    "chord-unknown": says(
        "`{found}` is no chord that the tool knows",
        "write `{numerals}`: that is what it is in {key}, the key of this lesson",
        "chords are numerals, small letters for minor, such as `I7`, `IV7`, `V7`, `ii7` or `bVI7`",
    ),
    "tuning-unknown": says(
        "there is no tuning called `{found}`",
        NEAR,
        "the built-in tunings are {known:code}",
        "or define it: a `blow` line and a `draw` line below, with its notes on a C harp",
    ),
    "tuning-row-missing": says(
        "the tuning `{name}` has no `{row}` line",
        "give both rows, `blow` and `draw`, each with the notes of ten holes on a C harp",
    ),
    "tuning-row-twice": says("this tuning has two `{row}` lines", "keep one of them"),
    "tuning-holes": says("this {row} row has {count} notes; a harp has {holes} holes", USAGE),
    "tuning-note": says("`{found}` is no note", "write `C`, `Bb`, `F#`, or with octave `C5`"),
    "tuning-range": says(
        "`{found}` lies outside the range of a C harp",
        "notes rise from hole to hole; check the one before, or give the octave, such as `C5`",
    ),
}
