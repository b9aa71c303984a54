"""The texts of the gallery: a lesson for each thing that is hard to print."""

from __future__ import annotations

from tests.helpers import lesson_text, own_form

_WALK = """
lick porch "Front porch" on I
  q 2d e 3d' 4d q 4d' e 2d -
  tip Let the 2 draw ring; it is home.
lick step "Step down" on IV
  q 4b e 5d 4d q. 4b e 3d'
lick gate "Garden gate" on V
  q 4d e 4d' 3d q 1d e 2d'' 1d
lick lamp "Lamplight" on IV
  e 2d' 2b e 3d'' 2d 2d'' 2b q 4b
turnaround home "Way home" on I | V
  q 2d e 2d 3d' q 4d 4d' | q 4d e 1d 1d h 1d
"""
_WALK_PLAY = "every I porch\n  every IV step\n  bar 9 gate\n  bar 10 lamp\n  bars 11-12 home\n"


def _twelve(body: str, play: str, **facts: str | None) -> str:
    return lesson_text(f"{body}\nplay\n  {play}", **facts)


def _turns(licks: dict[str, str], bars: int = 12, chord: str = "I7", **facts: str | None) -> str:
    """A tune over one chord, whose licks of a bar or more come in turn until it is full."""
    written, placed, first = [], [], 1
    names = list(licks)
    at = 0
    while first <= bars:
        name = names[at % len(names)]
        length = licks[name].count("|") + 1
        if first + length - 1 > bars:
            placed += [f"bar {number} rest" for number in range(first, bars + 1)]
            break
        where = f"bar {first}" if length == 1 else f"bars {first}-{first + length - 1}"
        placed.append(f"{where} {name}")
        first, at = first + length, at + 1
    for name, music in licks.items():
        *over, notes = music.split("\n")
        chords = " | ".join([chord] * (notes.count("|") + 1))
        written.append("\n".join([f"lick {name} on {chords}", *over, f"  {notes}"]))
    lines = [" | ".join([chord] * min(4, bars - start)) for start in range(0, bars, 4)]
    form = '"Turns"\n' + "\n".join(f"  | {line} |" for line in lines)
    body = "\n".join(written) + "\nplay\n  " + "\n  ".join(placed)
    return lesson_text(body, form=form, **({"level": "advanced"} | facts))


_LONG = (
    "The Very Long Walk Home from the Brickworks by Way of the Canal, the Allotments and Both of "
    "the Bridges, with a Rest <half way> & Tea"
)
_SAY = (
    "A paragraph for the student that is long enough to need a second line when it is set across "
    "the page, since teachers like to explain how a groove should feel, and why that matters."
)

TEXTS = {
    "common": _twelve(
        _WALK, _WALK_PLAY, title="Gravel Lane", feel="swing", tempo="104", learn="60",
        say="A walking groove, two breaths a bar. Tap your foot on all four beats.",
    ),
    "eight": lesson_text(
        _WALK + "play\n  every I porch\n  every IV step\n  every V gate\n  bars 7-8 home",
        title="Eight Steps", form="8-bar",
    ),
    "minor": _twelve(
        "lick tide on i\n  q 4d e 5d 5b q 6d e 6b -\nlick eddy on iv\n  q 6b e 6d 5b h 5d\n"
        "lick weir on bVI7 | V7\n  q 6d' e 5b 5d h 4d | h 4d' q 4d -",
        "every i tide\n  every iv eddy\n  bars 9-10 weir\n  bars 11-12 rest",
        title="Low Water", form="12-bar minor", position="3rd", harp="Bb",
    ),
    "dense": _turns(
        {
            "rain": "s 3d' 3d'' 3d''' 2d 2d'' 2d' 1d 2d q 4d s 3d'' 3d' 3d'' 3d'",
            "stairs": "s 4d 4d' 3d 3d'' 2d 2d'' 1d 2d 4d 5d 4d' 4d 3d' 2d'' 2d 1d",
            "gable": "e 9b' 9b s 8b' 8b 9b' 9b e. 9b s 8b q 8d",
            "cobbles": "e. 4d s 4d' s 3d e 2d s 2d s 2d - 2d - e 4b s 4d 5d",
        },
        title="Rain on Cobbles",
    ),
    "hole-ten": _turns(
        {
            "vane": "s 10b'' 10b' 10b'' 10b 10b'' 10b' 10b'' 10b h 8d",
            "cock": "e 10b 10d 9b 10b'' 10b' 10d 9d 10b",
            "nine": "q 9b e 8d 8b q 910b 910d",
        },
        title="Weather Vane",
    ),
    "hole-ten-sixteenths": _turns(
        {"vane": "s 10b'' 10b' 10b'' 10b 10b'' 10b' 10b'' 10b 10d 10b 10d 10b 10d 9d 10d 9b"},
        title="Weather Vane in a Gale",
    ),
    "compound": _turns(
        {
            "wheel": "e 2d 2d 3d' 4d 4d 3d' 2d 2d 3d' 4d 4d' 3d",
            "spoke": "q 2d e 3d' q 4d e 3d' q. 2d e 2d - 1d",
            "pull": "q. 4d = e 4d' 3d 2d q. 1d",
            "rim": "q. 4b e 9d 9b 9d 9d 8d 7b e 6b 5d 4d",
        },
        meter="12/8", title="Slow Wheel",
    ),
    "compound-sixteenths": _turns(
        {
            "mill": "e 2d s 3d 4d e 4d s 4d' 4d 3d' 3d e 2d q. 4b s 5d 4d 4d' 3d 3d' 2d",
            "race": "s 2d 2d 3d' 3d 4d 4d' 4d 3d 3d' 2d 2d'' 1d e 2d 3d' 4d q. 4d",
        },
        meter="12/8", title="Mill Race",
    ),
    "waltz": _turns(
        {
            "three": "q 2d 3d 4d | e 2d 3d' 4d - q 4d'",
            "turn": "h. 4b | q.. 4d s 5d q 4b",
        },
        bars=8, meter="3/4", title="Mill Pond Waltz",
    ),
    "six-eight": _turns(
        {"jog": "q 2d e 3d e 4d 4d 5d | q. 4d e 4d - 2d", "trot": "e. 2d s 2d e 3d q. 4d"},
        bars=8, meter="6/8", title="Jog",
    ),
    "long-title": _twelve(
        _WALK.replace("Front porch", "The front porch of the house that nobody lives in any more")
        .replace("Step down", "Incomprehensibilities-of-the-neighbourhood"),
        _WALK_PLAY, title=_LONG, say=f"{_SAY}\nsay {_SAY}",
        teacher="The Mill Lane Harmonica Class at the Back of the Old Brickworks Hall",
        rights="Copy it for your own students, and for nobody else, please, wherever they may be",
    ).replace("\nplay\n", '\nplay "By the canal, where the water is slow and nobody hurries" x2\n'),
    "half-bars": lesson_text(
        "lick both on I7 IV7\n  q 2d e 3d' 4d q 4b e 5d -\n"
        "lick far on bVII7 bIII7\n  straight q 4d e 5d 4d swing q 4b e 5d -\n"
        'lick two "Two chords, a long title over them" on ii7 V7\n  h 4b straight e 4d 4d 1d 1d\n'
        "lick one on I7\n  e 2d 3d straight e 4d 4d swing e 2d 3d q -\n"
        "play\n  bars 1-4 both, far, two, one\n  bars 5-8 both, far, two, one",
        title="Half and Half", feel="swing",
        form='"Halves"\n  | I7 IV7 | bVII7 bIII7 | ii7 V7 | I7 |\n'
        "  | I7 IV7 | bVII7 bIII7 | ii7 V7 | I7 |",
    ),
    "pickup": _turns(
        {"door": "pickup e 1d 2b\nq 2d e 3d' 4d q 4d' -"}, title="Doorstep", feel="swing",
    ),
    "pickup-once": _turns(
        {"door": "pickup once q 1d e 2b 2d\nq 2d e 3d' 4d q 4d' e 4d 4d"}, title="Doorstep, Once",
    ),
    "pickup-tied": _turns(
        {"door": "pickup once s 1d 2b 2d =\nq 2d e 3d' 4d q 4d' e 4d -"}, title="Leaning In",
    ),
    "blocks": _turns(
        {
            "big": "q 123d 234b e 345d 12d q 14b",
            "tongue": "q 14d 25d e 36b 14b q 47b",
            "wide": "q 15b 1234d e 26b 12345b q 610b",
            "high": "h 910d q 8910b 69b",
        },
        title="Big Chords",
    ),
    "overbends": _turns(
        {
            "over": "q 6ob 7od e 5ob 4d q 10od",
            "low": "e 1ob 4ob 6ob 5ob q 9od 4d",
            "mixed": "h 6ob{scoop} e 6b 6ob q 6d",
        },
        title="Over the Top",
    ),
    "deep-bends": _turns(
        {
            "well": "q 3d'''' 3d' e 3d''''''' 3d'' q 3d'''",
            "shaft": "s 3d'''' 3d''''' 3d'''''' 3d e 3d' 3d''''' h -",
        },
        title="Deep Well",
    ).replace(
        "tempo ", "tuning deep\n  blow C E E G C E G C E G\n  draw D G D5 F A C D F A B\ntempo "
    ),
    "ties": _turns(
        {
            "held": "q 2d e 3d' 4d q 4d 4d | q = e 4d 4d' q - e 2d =",
            "over": "q 4d e 4b 5b q 4b 4b | w = | h = q 4d e 3d 3d'",
            "blow": "h. 123b q 123b | e = 4b 5b 4b h 14d | q = e3 5b = 4b q3 3d - 4d",
            "bent": "h. 3d'' q 3d' | w = | w = | h = q 6ob -",
        },
        bars=24, title="Held Over",
    ),
    "held-home": lesson_text(
        "lick home on I | I\n  h 2d 2d | q = 3d h 2d\nlick end on I | I\n  h 2d 4d | w =\n"
        "play x3\n  bars 1-4 home x2\n  last time bars 3-4 end",
        form=own_form("I7 | I7 | I7 | I7"), title="Held Home",
    ),
    "rests": _turns(
        {
            "long": "w - | h - q. - e -",
            "short": "s - 4d - 4d e - 4d s - - 4d - e3 - 4d -",
            "alone": "e 4d - - 4b s 4d e. - q -",
            "three": "e3 4d - 3d - 4d 4d' 4b = = q -",
        },
        title="Mostly Nothing",
    ),
    "triplets": _turns(
        {
            "threes": "q3 4d 4d' 3d e3 2d 3d' 3d 4d 4d 4d",
            "small": "s3 4d 3d' 2d 4d 3d' 2d e 4d 4b s3 4d 3d' 2d e 4d q 2d",
            "mixed": "e3 4d q3 4b e 5d 4d q 4b e3 3d 3d' 2d",
            "held": "e3 4d = 4d q3 4d 4d = q 4b",
        },
        title="Threes",
    ),
    "techniques": _turns(
        {
            "one": "q 4d{wah} 4b{shake} 4d{dip} 3d{scoop}",
            "two": "q 4b{vibrato} 4d{flutter} 123d{slap} 123b{pull}",
            "three": "e 4d{accent} 4d{short} 4b{accent} 4b{short} 4d'{wah} 8b'{vibrato} q 6ob{wah}",
            "four": 's 4d{shake} 4b{wah} 4d{vibrato} 4b{flutter} e 4d{dip}"doo" 4b{wah}"dah" h -',
        },
        title="All the Tricks",
    ),
    "syllables": _turns(
        {
            "fast": 's 4d"tucka" 4d"tucka" 4d"wacka" 4d"wacka" 4b"doo" 4b"ka" 4b"ta" 4b"one" '
            'q 2d"whoo-ee" e 2d"(home)" 2d"ta"',
            "slow": 'q 2d"whoo" e 3d\'"chug" 3d"a" h 4d"wherever you are tonight"',
        },
        title="Say It",
    ),
    "sixteen": lesson_text(
        _WALK + "play\n  every I porch\n  every IV step\n  bar 13 gate\n  bars 15-16 home",
        form="16-bar", title="Sixteen Doors",
    ),
    "sixteen-dense": _turns(
        {
            "rain": "s 3d' 3d'' 3d''' 2d 2d'' 2d' 1d 2d q 4d s 3d'' 3d' 3d'' 3d'",
            "stairs": "s 4d 4d' 3d 3d'' 2d 2d'' 1d 2d 4d 5d 4d' 4d 3d' 2d'' 2d 1d",
        },
        bars=16, title="Sixteen Wet Steps",
    ),
    "three-choruses": _twelve(
        _WALK, _WALK_PLAY + 'play "Second chorus" x3\n  every I porch\n  every IV lamp\n'
        "  every V gate\nplay\n  every I porch\n  every IV step\n  every V gate",
        title="Three Rounds",
    ),
    "last-bars": _twelve(
        _WALK + "lick end on I | I\n  q 4d e 2d - h 2d | w 2d\n",
        _WALK_PLAY + "last time bars 11-12 end\n  last time ending I | I",
        title="Only the Last Bars",
    ).replace("\nplay\n", "\nplay x3\n"),
    "last-bars-apart": _twelve(
        _WALK, _WALK_PLAY + "last time bar 2 rest\n  last time bars 9-10 rest",
        title="Here and There",
    ).replace("\nplay\n", "\nplay x2\n"),
    "endings": lesson_text(
        "lick porch on I\n  q 2d e 3d' 4d q 4d' e 2d -\n"
        "lick step on IV\n  q 4b e 5d 4d q. 4b e 5b\n"
        "lick gate on V\n  q 4d e 4d' 3d q 1d e 1d 1d\n"
        "lick close on I IV\n  q 2d e 3d 4d q 4b e 5d -\nlick shut on I V\n  h 2d q 4d e 1d -\n"
        "play\n  every I porch\n  every IV step\n  every V gate\n  bars 11-12 close, shut",
        form="12-bar standard ending I IV | I V", title="Two Ways Out",
    ),
    "wide-cards": _twelve(
        'lick four "Four bars" on I | I | I | I\n  q 2d e 3d\' 4d q 4d\' e 2d - | h 2d 2d | '
        "q 4d 4d 4d 4d | w 2d\nlick three on IV | IV | I\n  h 4b 4b | q 4b 4d 4b 5d | w 4d\n"
        "lick two on V | IV\n  h 4d 4d | h 4b 4b",
        "bars 1-4 four\n  bars 5-7 three\n  bar 8 rest\n  bars 9-10 two\n  bars 11-12 rest",
        title="Wide Licks",
    ),
    "uneven": lesson_text(
        "lick a on I\n  e 2d 3d 4d 5d h 4d\nlick b on IV\n  s 4b 4d 4b 4d 5d 4d 4b 4d h 4b\n"
        "play\n  every I a\n  every IV b",
        form='"Crooked"\n  | I7 | IV7 | I7 | I7 | I7 |\n  | I7 | I7 | I7 |\n  | I7 | I7 |',
        title="Crooked Mile",
    ),
    "lone-dense": lesson_text(
        "lick a on I\n  q 2d e 3d 4d h 4d\nlick b on IV\n  s 4b 4d 4b 4d e 5d 4d 4b 4d q 4b\n"
        "play\n  every I a\n  every IV b",
        form='"Lump"\n  | I7 | IV7 | I7 | I7 |\n  | I7 | I7 | I7 | I7 |', title="A Lump in It",
    ),
    "one-bar": lesson_text(
        "lick a on I\n  h 2d 4b\nplay\n  bar 1 a", form=own_form("I7"), title="One"
    ),
    "many-licks": _turns(
        {name: f"q {hole}d e {hole}b {hole}d h {hole}d" for hole, name in
         enumerate(("ant", "bee", "cow", "dog", "eel", "fox", "gnu", "hen", "ibex"), start=1)},
        bars=9, title="Nine Beasts",
    ),
    "right-to-left": _twelve(
        _WALK.replace("Front porch", "רחוב הרציף")
        .replace("Step down", "הגשר והנהר, הארוך מכולם בעיר"),
        _WALK_PLAY, title="רחוב הרציף", say="שלום, and hello",
    ),
    "light-swing": _turns(
        {"crumbs": "e 4d 3d' 2d 4d 3d' 2d e 4d 4b"}, title="Crumbs", feel="swing 3:2",
    ),
    "twenty-four": _turns({"walk": "q 2d e 3d 4d q 4b 5d"}, bars=24, title="Twice Round"),
}  # fmt: skip
