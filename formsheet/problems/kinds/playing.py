"""What the harp can play, how it fits the chords, how it feels under the lips."""

from __future__ import annotations

from formsheet.problems.kinds.words import Words, says

PLAYING: dict[str, Words] = {
    # What the harp can play
    "holes-order": says(
        "`{tab}` does not name its holes from low to high, each once", "write `{guess}`"
    ),
    "holes-gap": says(
        "`{tab}` is neither a block of neighbouring holes nor a split of two",
        "write `{block}` for the block, or `{split}` for the split",
    ),
    "split-too-wide": says(
        "the split `{tab}` spans {holes} holes; a mouth reaches {most}",
        "write `{split}`, the widest from its lower hole",
    ),
    "block-too-wide": says(
        "the block `{tab}` covers {holes} holes; a mouth covers {most}",
        "write its lowest holes: `{block}`",
    ),
    "bend-on-chord": says(
        "`{tab}` bends a chord; bends are for single notes", "write `{plain}` without the bend"
    ),
    "bend-too-deep": says(
        "{hole} {breath} does not bend {asked:steps}; on this harp it bends {deepest:steps}",
        "write `{guess}`",
    ),
    "bend-missing": says(
        "{hole} {breath} does not bend: the {other} reed of hole {hole} leaves it no room",
        "write `{plain}`",
        "or write `{guess}`: the {other} note of hole {hole} bends",
    ),
    "overbend-bent": says(
        "`{tab}` bends an {kind}; ticks bend natural notes only", "write `{plain}`"
    ),
    "overbend-missing": says(
        "hole {hole} has no {kind}",
        "write `{guess}`: it has an {other}",
    ),
    # Fit
    "note-clash": says(
        "`{tab}` ({pitch}) {how} on beat {beat} of {bars:bars} as the {degree} of {letter}",
        "nearest chord tones on this harp: {offers:code}",
        "if the clash is meant, write `{tab}!`",
    ),
    "note-rubs": says(
        "`{tab}` ({pitch}) rubs against {letter} in beat {beat} of {bars:bars}: it is the "
        "{degree}, and no step leads away from it",
        "nearest chord tones on this harp: {offers:code}",
    ),
    "note-leans": says(
        "`{tab}` ({pitch}) leans on {letter} in beat {beat} of {bars:bars}: it is the {degree}, "
        "and a half step leads it home",
        "nearest chord tones on this harp: {offers:code}",
    ),
    "note-clash-deliberate": says(
        "`{tab}` ({pitch}) clashes with {letter} in beat {beat} of {bars:bars}, the {degree}: "
        "deliberately"
    ),
    "landing-missing": says(
        "no note of {letter} lands in {bars:bars}: the first that lands, `{tab}`, is the {degree}",
        "let the root land there: {roots:code}",
    ),
    # How it feels under the lips
    "overbend-taught": says(
        "`{tab}` is an {kind}, an advanced technique; this lesson is for {level}",
        "write `level advanced` if it is taught",
        "the same note or a chord tone near it: {offers:code}",
    ),
    "bend-hard": says(
        "`{tab}` bends {bend:steps}: deep for {level}",
        "the same note or a chord tone near it: {offers:code}",
        "write `level {wanted}` if the student is further",
    ),
    "bends-repeated": says(
        "{count} deep bends in a row from `{tab}` on in `{lick}`: tiring, and hard to keep in tune",
        "put a natural note between them",
    ),
    "turns-fast": says(
        "from `{tab}` on in {bars:bars} the breath turns {count} times in a row, each "
        "within {ms} ms",
        "find some of these notes on the other breath, or take it slower",
    ),
    "slide-too-fast": says(
        "from `{first}` to `{tab}` in {bars:bars} the mouth moves {holes} holes in {ms} ms; it "
        "takes about {needs} ms",
        "put a rest before `{tab}`, or begin nearer",
        "nearer to `{first}`: {offers:code}",
    ),
    "shake-nowhere": says(
        "`{tab}` cannot be shaken: a shake alternates with the next hole up, and there is none",
        "shake `{lower}` instead",
    ),
    "technique-no-bend": says(
        "`{tab}` has no {technique}: hole {hole} does not bend on the {breath}",
        "leave the technique out, or choose a note that bends",
    ),
    "swing-short-note": says(
        "at {tempo} beats a minute the short note of a swung pair lasts {have} ms; players "
        "keep it near {least} ms",
        "write `feel swing {share}`, or take it slower",
        "write `feel straight`: at this tempo eighths are played even",
    ),
    # What is cut off, cannot be printed, is left over
    "lick-cut": says(
        "`{lick}` is {whole:long} long; in {bars:bars} it is cut down to its {part:bars}",
        "place something over all its bars, or none",
    ),
    "lick-nowhere-whole": says(
        "`{lick}` is {whole:long} long and nowhere played whole, only a part of it in {bars:bars}: "
        "it has no card, no clip and no place in the practice log",
        "place something over all its bars, or none",
        "or write what is played of it as a lick of its own",
    ),
    "text-too-long": says(
        "this text has {letters} letters; {most} is the most that is printed",
        "break it into several `say` or `tip` lines, or shorten it",
    ),
    "word-too-long": says(
        "a word in this text is longer than {most} letters and fits no line", "put spaces into it"
    ),
    "glyph-missing": says(
        "the sheet's typeface has no {signs}{more}",
        "look at the printed sheet: such a sign is taken from a font of this computer, and where "
        "there is none a box is printed",
    ),
    "lick-unused": says(
        "the lick `{lick}` is not played in this tune",
        "play it, such as `bar 1 {lick}`, or take it out",
    ),
}
