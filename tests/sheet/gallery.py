"""Hard sheets, built by hand, for tests and for eyes.

    python -m tests.sheet.gallery OUTDIR

writes each as a PDF and as PNGs. The tunes are made up.
"""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction as F
from pathlib import Path

from formsheet.sheet.mark_styles import BREATH_LINE, MARK_STYLES, MarkStyle
from formsheet.sheet.options import PageSize
from formsheet.sheet.typeset import sheet_pdf
from formsheet.sheet.view import (
    Bar,
    Card,
    ChordMark,
    ChordRow,
    Chorus,
    Count,
    Fact,
    FeelMark,
    HoleMark,
    HoleUse,
    KeyEntry,
    MapCell,
    MapPart,
    Mark,
    PracticeGroup,
    PracticeRow,
    Sheet,
)
from formsheet.sheet.view_choruses import compacted

LENGTHS = {"w": F(4), "h": F(2), "q": F(1), "e": F(1, 2), "s": F(1, 4)}
VALUE = re.compile(r"^([whqes])(\.{0,2})(3?)$")
NOTE = re.compile(r"^(\d+)(ob|od|b|d)('*)(\*?)(?:\{(\w+)\})?(?:\"(.*)\")?$")
LETTERS = {"I": "G", "IV": "C", "V": "D", "VI": "E", "ii": "A", "bVII": "F", "bIII": "Bb"}


def holes(text: str) -> tuple[int, ...]:
    """ "123" is 1, 2, 3; "10" is ten and "910" nine and ten."""
    return tuple(int(hole) for hole in re.findall("10|[1-9]", text))


def marks(text: str) -> list[Mark]:
    """Marks of one bar; `*` after a note makes it a landing, `~` ties over the bar line."""
    out: list[Mark] = []
    onset, value, dots, triplet = F(0), "q", 0, False
    pickup = False
    for word in text.split():
        if found := VALUE.match(word):
            value, dots, triplet = found[1], len(found[2]), bool(found[3])
            continue
        if word == "pickup":
            pickup = True
            continue
        if word == "~":
            out[-1] = replace(out[-1], tied_on=True)
            continue
        length = LENGTHS[value] * (2 - F(1, 2**dots)) * (F(2, 3) if triplet else 1)
        mark = Mark(onset, length, value, dots, triplet, pickup=pickup)
        onset += length
        if word == "=":
            if out:
                out[-1] = replace(out[-1], tied_on=True)
            mark = replace(mark, hold=True, tab=out[-1].tab if out else None)
        elif word != "-":
            mark = _note(mark, word)
        out.append(mark)
    return out


def _note(mark: Mark, word: str) -> Mark:
    found = NOTE.match(word)
    assert found, word
    numbers = holes(found[1])
    split = len(numbers) == 2 and numbers[1] - numbers[0] > 1
    tab = HoleMark(numbers, found[2][-1] == "d", len(found[3]), found[2][0] == "o", split)
    return replace(
        mark, tab=tab, landing=bool(found[4]), technique=found[5] or "", syllable=found[6] or ""
    )


def counts(length: F, beat: F, parts: Sequence[str]) -> tuple[Count, ...]:
    """Counts: each beat's number, then `parts` evenly inside the beat."""
    out = []
    for i in range(int(length / beat)):
        strong = i % 2 == 0 if length / beat != 3 else i == 0
        out.append(Count(i * beat, str(i + 1), True, strong))
        step = beat / (len(parts) + 1)
        out += [Count(i * beat + step * (j + 1), p, False, False) for j, p in enumerate(parts)]
    return tuple(out)


def bar(
    number: int,
    chords: str,
    text: str,
    *,
    lick: str = "",
    starts: bool = True,
    round: str = "",
    length: F = F(4),
    beat: F = F(1),
    parts: Sequence[str] = ("&",),
    feels: tuple[FeelMark, ...] = (),
) -> Bar:
    """A bar; its chords share it evenly."""
    names = chords.split()
    made = []
    for i, name in enumerate(names):
        root = name.rstrip("7m")
        letter = LETTERS[root] + ("m" if root == "ii" else "") + ("7" if "7" in name else "")
        made.append(ChordMark(length * i / len(names), name, letter))
    played = tuple(marks(text))
    total = sum((mark.length for mark in played), F(0))
    assert total == length, (number, text, total)
    return Bar(
        number,
        length,
        beat,
        tuple(made),
        lick,
        starts,
        round,
        counts(length, beat, parts),
        played,
        feels,
        f"bar {number}: {chords}",
    )


def tune(
    forms: Sequence[str], texts: Sequence[tuple[str, str]], **options: object
) -> tuple[tuple[Bar, ...], ...]:
    """Lines of four bars; texts are (lick, music) and are used in turn."""
    bars = []
    for i, chord in enumerate(forms):
        lick, text = texts[i % len(texts)]
        same = [j for j in range(len(forms)) if texts[j % len(texts)][0] == lick]
        bars.append(
            bar(
                i + 1,
                chord,
                text,
                lick=lick,
                round=f"{same.index(i) + 1} of {len(same)}" if len(same) > 1 and lick else "",
                **options,  # type: ignore[arg-type]
            )
        )
    return tuple(tuple(bars[i : i + 4]) for i in range(0, len(bars), 4))


TWELVE = (*["I7"] * 4, *["IV7"] * 2, *["I7"] * 2, "V7", "IV7", "I7", "V7")
EIGHT = ("I7", "V7", "IV7", "IV7", "I7", "V7", "I7", "V7")
SIXTEEN = (*["I7"] * 4, *TWELVE)

PORCH = ("Front porch", "q 2d* e 3d' 4d q 4d'* e 2d -")
STEP = ("Step down", "q 4b* e 5d 4d q. 4b* e 3d''")
GATE = ("Garden gate", "q 4d* e 4d' 3d q 1d* e 2d'' 1d")
LAMP = ("Lamplight", "e 2d*{wah} 2b e3 2d 3d' 3d q 4d*\"ta\" e 4d' 2d")
HOME = ("Way home", "q 2d* e3 2d 3d' 3d q 4d* 4d'")
END = ("Way home", "q 4d* e 1d - h 1d* ")

HARP_C = (
    HoleUse(1, "C", "D", False, True),
    HoleUse(2, "E", "G", True, True, ((2, "F"), (1, "Gb"))),
    HoleUse(3, "G", "B", False, True, ((1, "Bb"), (2, "A"))),
    HoleUse(4, "C", "D", True, True, ((1, "Db"),)),
    HoleUse(5, "E", "F", False, True),
    HoleUse(6, "G", "A", False, False, over="Bb"),
    HoleUse(7, "C", "B", False, False),
    HoleUse(8, "E", "D", False, False),
    HoleUse(9, "G", "F", False, False),
    HoleUse(10, "C", "A", False, False, (), ((1, "B"), (2, "Bb"))),
)
KEY = tuple(
    KeyEntry(sign, words)
    for sign, words in (
        ("blow", "A number over the line: blow"),
        ("draw", "A number under the line: draw"),
        ("turn", "The path steps across the line: turn your breath"),
        ("bend1", "One tick: bent a half step; two ticks: a whole step"),
        ("block", "Numbers stacked: a chord, one breath"),
        ("split", "A bar between two numbers: block with the tongue"),
        ("overblow", "A ring: overblow"),
        ("overdraw", "A ring under the line: overdraw"),
        ("hold", "The note sounds on as far as its line"),
        ("landing", "Bold: you land on a note of the chord"),
        ("triplet", "Three in the time of two"),
        ("eighths", "Two eighths"),
        ("sixteenths", "Four sixteenths"),
        ("dot", "A dot makes a note half as long again"),
        ("rests", "Rests: a quarter, an eighth"),
        ("round", "The second of four times"),
        ("pickup", "Leads into the next lick"),
    )
)
CAUTION = (
    "Rest when lips, jaw or breath get tired; stop if you feel dizzy. "
    "Ask a doctor where breathing is a medical matter."
)


def card(title: str, lines: Sequence[Bar], *, role: str = "lick", on: str = "on I") -> Card:
    """A card of bars, with degrees under its notes."""
    degrees = tuple(
        (mark.onset, i, "b3" if mark.tab.bend else "1")
        for i, one in enumerate(lines)
        for mark in one.marks
        if mark.tab is not None and not mark.hold
    )
    tips = ("Let the 2 draw ring; it is home.", "Keep the jaw loose on the bend.")
    return Card(title, role, on, "bars 1-4, 7 and 8", tuple(lines), degrees, tips)


def sheet(
    choruses: Sequence[Chorus],
    *,
    title: str = "Gravel Lane Shuffle",
    form: Sequence[str] = TWELVE,
    cards: Sequence[Card] = (),
    **changes: object,
) -> Sheet:
    """A sheet round these choruses."""
    made = Sheet(
        title,
        (
            Fact("Harp", "C"),
            Fact("Position", "2nd"),
            Fact("Song key", "G"),
            Fact("Form", "12-bar, ending on V"),
            Fact("Tempo", "104, learn it at 60"),
            Fact("Feel", "swing"),
        ),
        ("A walking groove, two breaths a bar. Tap your foot on all four beats.",),
        "Swing: the first of two eighths is twice as long as the second",
        "swing",
        KEY,
        HARP_C,
        tuple(tuple(form[i : i + 4]) for i in range(0, len(form), 4)),
        tuple(choruses),
        tuple(cards),
        CAUTION,
        ("The Mill Lane Harp Class", "Copy it for your own students", "2026-11-02"),
        "gravel-lane.lesson",
        f"{title} · C harp, 2nd · gravel-lane.lesson",
    )
    return replace(made, **changes)  # type: ignore[arg-type]


def _common() -> Sheet:
    texts = [PORCH, PORCH, PORCH, PORCH, STEP, STEP, PORCH, PORCH, GATE, LAMP, HOME, END]
    lines = tune(TWELVE, texts)
    last = lines[2]
    end = (replace(last[2], round=""), replace(last[3], starts_lick=False))
    lines = (*lines[:2], (*last[:2], *end))
    cards = [
        card("Front porch", lines[0][:1]),
        card("Step down", lines[1][:1], on="on IV"),
        card("Garden gate", last[:1], on="on V"),
        card("Lamplight", last[1:2], on="on IV"),
        card("Way home", lines[2][2:], role="turnaround", on="on I | V"),
    ]
    return sheet([Chorus("", "", lines)], cards=cards)


def _dense() -> Sheet:
    run = "s 3d' 3d'' 3d''' 2d 2d'' 2d' 1d 2d q 4d* s 3d'' 3d' 3d'' 3d'"
    stairs = "s 4d 4d' 3d 3d'' 2d 2d'' 1d 2d 4d* 5d 4d' 4d 3d' 2d'' 2d 1d"
    top = "e 10b'' 9b s 8b' 8b 9b' 9b e. 10b'' s 10b q 8d*"
    mix = "e. 4d* s 4d' s 3d e 2d s 2d s 2d - 2d - e 4b s 4d 5d"
    texts = [("Rain run", run), ("Back stairs", stairs), ("High gable", top), ("Cobbles", mix)]
    lines = tune(TWELVE, texts, parts=("e", "&", "a"))
    cards = [card(lick, lines[0][i : i + 1]) for i, (lick, _) in enumerate(texts)]
    return sheet([Chorus("", "", lines)], title="Rain on Cobbles", cards=cards)


def _split_lines() -> Sheet:
    """Two-digit bends in running sixteenths: these lines cannot hold four bars."""
    hard = "s 10b'' 10b' 10b'' 10b 10b'' 10b' 10b'' 10b h 8d"
    lines = tune(TWELVE, [("Weather vane", hard), PORCH, PORCH, PORCH])
    return sheet([Chorus("", "", lines)], title="Weather Vane")


def _compound() -> Sheet:
    texts = [
        ("Slow wheel", "e 2d* 2d 3d' 4d 4d 3d' 2d* 2d 3d' 4d 4d' 3d"),
        ("Slow wheel", "q 2d* e 3d' q 4d e 3d' q. 2d* e 2d - 1d"),
        ("Long pull", "q. 4d* = e 4d' 3d 2d q. 1d"),
        ("Long pull", "q. 4b e 10d 10b 10d 9d 8d 7b e 6b 5d 4d"),
    ]
    options = {"length": F(6), "beat": F(3, 2), "parts": ("2", "3")}
    return sheet(
        [Chorus("", "", tune(TWELVE, texts, **options))],
        title="Slow Wheel",
        feel_sign="",
        feel_words="",
    )


def _waltz() -> Sheet:
    texts = [
        ("Three steps", "q 2d* 3d 4d"),
        ("Three steps", "e 2d* 3d' 4d - q 4d'"),
        ("Turn", "h. 4b*"),
        ("Turn", "q.. 4d* s 5d q 4b"),
    ]
    lines = tune(EIGHT, texts, length=F(3))
    return sheet(
        [Chorus("First", "play 2 times", lines)],
        title="Mill Pond Waltz",
        form=EIGHT,
        feel_sign="straight",
        feel_words="Straight: the two eighths are equally long",
    )


def _six_eight() -> Sheet:
    texts = [("Jog", "q 2d* e 3d e 4d 4d 5d"), ("Jog", "q. 4d* e 4d - 2d")]
    options = {"length": F(3), "beat": F(3, 2), "parts": ("2", "3")}
    return sheet([Chorus("", "", tune(EIGHT, texts, **options))], title="Jog", form=EIGHT)


def _long_title() -> Sheet:
    base = _common()
    return replace(
        base,
        title="The Very Long Walk Home from the Brickworks by Way of the Canal, the Allotments "
        "and Both of the Bridges, with a Rest <half way> & Tea",
        says=(
            "A paragraph for the student that is long enough to need a second line when it is set "
            "across the page, since teachers like to explain how a groove should feel, and why.",
        )
        * 3,
        foot="The Very Long Walk Home … · C harp, 2nd · "
        "the-very-long-walk-home-from-the-brickworks-by-way-of-the-canal.lesson",
        footer=("The Mill Lane Harmonica Class at the Back of the Old Brickworks Hall",) * 2,
    )


def _half_bars() -> Sheet:
    form = ["I7 IV7", "bVII7 bIII7", "ii7 V7", "I7", *TWELVE[4:]]
    swing = FeelMark(F(2), "swing")
    lines = tune(form, [PORCH, STEP, GATE, LAMP])
    first = (
        replace(lines[0][0], feels=(FeelMark(F(1), "straight"), swing)),
        *lines[0][1:],
    )
    return sheet([Chorus("", "", (first, *lines[1:]))], title="Half and Half", form=form)


def _pickup() -> Sheet:
    zero = bar(0, "", "q - - - e 1d 2b")
    lead = ("Doorstep", "q 2d* e 3d' 4d q 4d'* pickup e 1d 2b")
    lines = tune(TWELVE, [lead])
    return sheet([Chorus("", "", lines, pickup=zero)], title="Doorstep")


def _blocks() -> Sheet:
    texts = [
        ("Big chords", "q 123d* 234b e 345d 12d q 14b"),
        ("Tongue", "q 14d* 25d e 36b 14b q 47b"),
        ("Over", "q 6ob* 7od e 5ob 4d q 910d"),
        ("Whistle", 'q 2d{shake}"doo" e 3d{vibrato}"wacka" 4d{flutter}"tucka" 4d{scoop}"ta" = q ='),
    ]
    lines = tune(TWELVE, texts)
    made = card("Big chords", lines[0][:2])
    wide = tuple((onset, i, "1 b3 5") for onset, i, _ in made.degrees)
    return sheet([Chorus("", "", lines)], title="Big Chords", cards=[replace(made, degrees=wide)])


def _ties() -> Sheet:
    texts = [
        ("Long breath", "q 2d* e 3d' 4d q 4d - "),
        ("Long breath", "e 4d 4d' q - e 2d = = 4b ~"),
        ("Long breath", "q = e 5b 4d e3 4d = 3d q3 - e3 2d ~"),
        ("Long breath", "h = q. 2b s 3d 3d' ~"),
        ("Held", "w = ~"),
        ("Held", "h. = q - "),
        ("Rests", "w -"),
        ("Rests", "h - q. - e - "),
        ("Rests", "s - 4d - 4d e - 4d s - - 4d - e3 - 4d -"),
        ("Threes", "q3 4d 4d' 3d e3 2d 3d' 3d s3 4d 3d' 2d 4d 3d' 2d"),
        ("Threes", "e3 4d - 3d - 4d 4d' 4b = = q -"),
        ("Held", "w 4b*"),
    ]
    return sheet([Chorus("", "", tune(TWELVE, texts))], title="Held Over")


def _sixteen() -> Sheet:
    lines = tune(SIXTEEN, [PORCH, PORCH, STEP, LAMP])
    return sheet([Chorus("", "", lines)], title="Sixteen Doors", form=SIXTEEN)


def _three_choruses() -> Sheet:
    lines = tune(TWELVE, [PORCH, STEP])
    names = (("Chorus 1", ""), ("Second chorus", "play 3 times"), ("Chorus 3, last time", ""))
    return sheet([Chorus(title, note, lines) for title, note in names], title="Three Rounds")


def _wide_cards() -> Sheet:
    base = _common()
    first, second, third = base.choruses[0].lines
    cards = [card("Four bars", first), card("Three bars", second[:3]), card("Two", third[2:])]
    return replace(base, cards=tuple(cards), title="Wide Cards")


def _lick_map() -> Sheet:
    base = _common()
    home = MapCell("11-12", "Way home", "", 2, 2)
    first = (
        (MapCell("1-4", "Front porch", "× 4", 0, 4, "I7 bVII7", (0, 1, 2, 3)),),
        (
            MapCell("5-6", "Step down", "× 2", 0, 2, begins=(0, 1)),
            MapCell("7-8", "Front porch", "× 2", 2, 2, begins=(0, 1)),
        ),
        (MapCell("9", "Garden gate", "", 0, 1), MapCell("10", "Lamplight", "", 1, 1), home),
    )
    long = "A lick whose title is a good deal longer than any cell of a map is wide"
    last = ((MapCell("10", long, "", 1, 1, "IV7", changed=True), replace(home, changed=True)),)
    joins = tuple(
        PracticeRow(
            f"Front porch › {name}", "bars 5 and 11", HoleMark((2,), True), HoleMark((1, 4), False),
            "1 hole, breath turns, new mouth shape", "63",
        )
        for name in ("Step down", "Garden gate", "The long walk home by the canal")
    )  # fmt: skip
    return replace(
        base,
        title="Lick Map",
        lick_map=(
            MapPart("Choruses 1 to 3", "play 3 times", first),
            MapPart("Choruses 1 to 3, last time, bars 10 to 12", "", last),
        ),
        chords=(
            ChordRow("I7", "G7", "2d, 3b", "1234d, 2345d", "36b, 69b", "b7 3d'"),
            ChordRow("bVI7", "Eb7", "none", "none", "none", "R 2d''"),
        ),
        ladder=("60", "66", "72", "80", "88", "92", "100", "104"),
        practice=(
            PracticeGroup("The licks", (PracticeRow("Front porch", "bars 1-4, 7 and 8"),)),
            PracticeGroup(
                "The hard moves and joins, hardest first", joins, "4 more joins are easy."
            ),
        ),
    )


def _compact() -> Sheet:
    lines = tuple(compacted(_common().choruses[0].lines))
    rest = tuple(compacted(tune(TWELVE, [PORCH])))
    return sheet(
        [Chorus("One", "", lines), Chorus("Two, all alike", "", rest)],
        title="The Same Again",
        key_entries=(*KEY, KeyEntry("again", "the same again")),
    )


def _last_bars() -> Sheet:
    base = _common()
    lines = base.choruses[0].lines
    return replace(
        base,
        title="Only the Last Bars",
        choruses=(
            Chorus("", "play twice, the last time with its own bars 11 and 12", lines),
            Chorus("Last time, bars 11 and 12", "", (lines[2][2:],), across=4),
        ),
    )


def _light_swing() -> Sheet:
    texts = [("Crumbs", "s3 4d 3d' 2d 4d 3d' 2d e 4d 4b s3 4d 3d' 2d e 4d q 2d")]
    lines = tune(TWELVE, texts)
    words = "Light swing: the first of two eighths takes 60 per cent of the beat"
    return sheet([Chorus("", "", lines)], title="Crumbs", feel_sign="3:2", feel_words=words)


GALLERY = {
    "common": _common,
    "dense": _dense,
    "split-lines": _split_lines,
    "compound": _compound,
    "waltz": _waltz,
    "six-eight": _six_eight,
    "long-title": _long_title,
    "half-bars": _half_bars,
    "pickup": _pickup,
    "blocks": _blocks,
    "ties": _ties,
    "sixteen": _sixteen,
    "three-choruses": _three_choruses,
    "wide-cards": _wide_cards,
    "lick-map": _lick_map,
    "compact": _compact,
    "last-bars": _last_bars,
    "light-swing": _light_swing,
}


@dataclass(frozen=True)
class Setting:
    """How a sheet of the gallery is to be set."""

    sheet: str
    page_size: PageSize = "A4"
    marks: MarkStyle = BREATH_LINE
    large: bool = False

    def pdf(self) -> bytes:
        """The sheet, set so."""
        return sheet_pdf(
            GALLERY[self.sheet](), page_size=self.page_size, marks=self.marks, large=self.large
        )


_MARKED = {
    f"{style.name}-{sheet}": Setting(sheet, marks=style)
    for style in MARK_STYLES
    if not style.path
    for sheet in ("common", "dense", "blocks", "compound")
}
_LARGE_MARKED = {
    f"large-{style.name}": Setting("compound", "Letter", style, True)
    for style in MARK_STYLES
    if not style.path
}
SETTINGS = {
    **_MARKED,
    **_LARGE_MARKED,
    "large": Setting("lick-map", large=True),
    "large-dense": Setting("dense", large=True),
    "large-portrait": Setting("lick-map", "A4 portrait", large=True),
    "portrait": Setting("lick-map", "A4 portrait"),
    "letter-portrait": Setting("half-bars", "Letter portrait"),
}


def main(folder: Path) -> None:
    """Write all sheets as PDF and PNG."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, make in GALLERY.items():
        _write(folder, name, sheet_pdf(make()))
    for name, setting in SETTINGS.items():
        _write(folder, name, setting.pdf())


def _write(folder: Path, name: str, pdf: bytes) -> None:
    path = folder / f"{name}.pdf"
    path.write_bytes(pdf)
    subprocess.run(["pdftoppm", "-r", "100", "-png", path, folder / name], check=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
