"""Shelves, and what is played where."""

from __future__ import annotations

from formsheet.problems.kinds.words import NEAR, Words, says

PLAY: dict[str, Words] = {
    # Shelves
    "shelf-unknown": says(
        "there is no shelf `{file}` beside this file or in the folder `{searched}`",
        "`{above}` is found when you name the whole folder, as in `formsheet check {whole}`",
        "`{below}` is not found from here: move this file into the folder `{home}`, or put a copy "
        "of the shelf beside this file",
        NEAR,
        "put the shelf in one of these places, or write the name of one that is there",
    ),
    "shelf-outside": says(
        "`{found}` leads out of the lessons folder",
        "put the shelf beside the lesson or in the folder `shelf`, and write its plain name",
    ),
    "shelf-circle": says(
        "these shelves use each other in a circle: {circle}",
        "take one of their `use` lines out, and write those licks where they are used",
    ),
    "shelf-chain": says(
        "here more than {most} shelves take from one another in a row",
        "take these licks from the shelf on which they are written",
    ),
    "shelf-unlike": says(
        "the shelf `{shelf}` is written for {fact} `{theirs}`, and this file for `{ours}`",
        "write these licks anew for {fact} `{ours}`, on a shelf of their own",
    ),
    "shelf-form": says(
        "a shelf holds licks and rhythms only: `form` belongs in a lesson",
        "move the form to the lesson that uses this shelf",
    ),
    "shelf-play": says(
        "a shelf holds licks and rhythms only: `play` belongs in a lesson",
        "move `play` and the lines below it to the lesson that uses this shelf",
    ),
    "lick-not-on-shelf": says(
        "the shelf `{shelf}` has no lick called `{found}`", NEAR, "it holds {known:code}"
    ),
    # Play
    "play-missing": says(
        "nothing is played: the lesson has no `play` line",
        "end it with `play` and, below, lines such as `every I porch`",
    ),
    "play-forgotten": says(
        "`{found}` belongs under a `play` line, and this lesson has none",
        "write `play` on a line of its own above this line",
    ),
    "lick-unknown": says(
        "there is no lick called `{found}`",
        "the shelf `{shelf}` has one: write `use {found} from {shelf}` above the first lick",
        NEAR,
        "the licks here are {known:code}",
    ),
    "count-range": says("`{found}` is no count", "write `x1` to `x{most}`"),
    "bars-range": says(
        "`{found}` is no range of bars",
        "count bars from 1 and write the lower number first, such as `bars 1-4`",
    ),
    "bars-outside": says(
        "the form `{form}` has {bars} bars, too few for {found}", "write bars from 1 to {bars}"
    ),
    "bar-twice": says(
        "bar {bar} is placed twice", "take one of the two out, or let its bars end sooner"
    ),
    "bar-without-lick": says(
        "nothing is placed in {bars:bars}{when}, on {chord}",
        "{fitting:code} would fit: add `every {chord} {best}` below",
        "{might:code} would fit too, if its first line named {chord}",
        "on the shelf `{shelf}`, {shelved:code} would fit: add `use {take} from {shelf}`",
        "to leave silence there, add `every {chord} rest`",
    ),
    "every-nowhere": says(
        "the form `{form}` has no bar on `{found}`", NEAR, "its chords are {chords:code}"
    ),
    "count-mismatch": says(
        "the count does not come out: this fills {have:long}, and there is room for {want} in "
        "{bars}",
        "write `{fixed}`",
    ),
    "counts-wanted": says(
        "there is room for {want:long} in {bars}, and these licks once each fill {have}",
        "say how often each is played, such as `{lick} x2`",
    ),
    "lick-does-not-fill": says(
        "`{lick}` is {one:long} long; it cannot fill {bars} exactly, where there is room for "
        "{left}",
        "write `{whole}` to play it once",
        "or say how often it is played, and fill up with another lick or with `rest`",
    ),
    "lick-wrong-chord": says(
        "`{lick}` is written for {asked}; the chord of {bars:bars}{when} is {chord}",
        "play a lick that is written for {chord}, the best first: {fitting:code}",
        "{might:code} would fit too, if its first line named {chord}",
        "on the shelf `{shelf}`, {shelved:code} would fit: add `use {take} from {shelf}`",
        "if it is meant for this bar too, write `on {both}` in its first line",
    ),
    "lick-wrong-last": says(
        "`{lick}` is written for {asked}; the last time the chord of {bars:bars} is {chord}",
        "for the last time add `last time {where} {best}` below",
        "{might:code} would fit too, if its first line named {chord}",
        "on the shelf `{shelf}`, {shelved:code} would fit: add `use {take} from {shelf}`",
        "if it is meant for the last time too, write `on {both}` in its first line",
    ),
    "bar-line-missing": says(
        "`{asked}` is two chords that share one bar; in {bars:bars} `{lick}` is played over a "
        "chord a bar",
        "for a chord a bar write `on {apart}`",
    ),
    "third-unlike": says(
        "`{asked}` is {third}; in {bars:bars} `{lick}` is played over `{chord}`, {other}",
        "if the numeral is a slip, write `on {meant}`; else play a lick written for `{chord}`",
    ),
    "pickup-no-room": says(
        "the pick-up of `{lick}` needs {length} at the end of bar {bar}, where `{before}` still "
        "sounds",
        "end `{before}` with a rest of that length",
    ),
    "tune-too-long": says(
        "the tune would have {bars} bars; {most} is the most", "play fewer choruses"
    ),
}
