"""Lessons made up by chance: all that the language has, in odd mixtures. A seed gives one lesson.

They are musical nonsense, but in order: nearly all are without errors.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from random import Random

from tests.random_texts import text, title

FORMS = ("12-bar standard", "12-bar quick-change", "12-bar minor", "8-bar", "16-bar")
CHORDS = ("I7", "I7", "IV7", "IV7", "V7", "ii7", "VI7", "bVII7", "i7", "iv7", "bVI7", "bIII", "I")
METERS = {"4/4": 4, "3/4": 3, "12/8": 4, "6/8": 2}  # beats
# Ways to fill some beats; N is a note, a hold or a rest.
SIMPLE = {
    1: ("q N", "q N", "q N", "e N N", "e N N", "s N N N N", "e. N s N", "s N e. N", "e3 N N N",
        "e N s N N", "s N N e N", "s N e N s N", "s3 N N N e N"),
    2: ("h N", "q. N e N", "q.. N s N", "q3 N N N", "e N q N e N"),
    3: ("h. N",),
    4: ("w N", "h.. N e N"),
}  # fmt: skip
COMPOUND = {
    1: ("q. N", "q. N", "q N e N", "e N N N", "e N q N", "e N N s N N", "e. N s N e N"),
    2: ("h. N",),
    3: (),
    4: (),
}
BENDS = {(1, "d"): 1, (2, "d"): 2, (3, "d"): 3, (4, "d"): 1, (6, "d"): 1, (8, "b"): 1, (9, "b"): 1,
         (10, "b"): 2}  # fmt: skip
OVERBENDS = ("1ob", "4ob", "5ob", "6ob", "7od", "9od", "10od")
TECHNIQUES = ("wah", "shake", "dip", "scoop", "vibrato", "flutter", "slap", "pull", "accent",
              "short")  # fmt: skip
SYLLABLES = ("ta", "ka", "doo", "wacka", "tucka", "home", "whoo-ee", "one", "<b>", "é")


def random_lesson(seed: int) -> str:
    """The text of a lesson; the same seed gives the same text."""
    return _Lesson(Random(seed)).text()


class _Lesson:
    """One lesson while it is made up."""

    def __init__(self, chance: Random) -> None:
        self.chance = chance
        self.meter = chance.choice(("4/4", "4/4", "4/4", "3/4", "12/8", "6/8"))
        self.beats = METERS[self.meter]
        self.compound = self.meter.endswith("/8")
        self.dense = chance.random() < 0.2
        self.roomy = chance.random() < 0.3  # each lick ends with a rest: others may have pick-ups
        self.licks: list[str] = []
        self.known: dict[tuple[str, ...], list[str]] = {}  # licks by their chords
        self.form_words, self.bars = self._form()

    def _maybe(self, share: float) -> bool:
        return self.chance.random() < share

    def text(self) -> str:
        """The whole lesson."""
        plays = list(self._plays())  # the licks are written on the way
        return "\n".join([*self._facts(), "", *self.licks, "", *plays, ""])

    # ---- Facts and form --------------------------------------------------------------------

    def _facts(self) -> Iterator[str]:
        chance = self.chance
        yield f"title {title(chance)}"
        for fact in ("teacher", "rights", "date"):
            if self._maybe(0.5):
                yield f"{fact} {text(chance, 5, odd=False)}"
        for _ in range(chance.choice((0, 0, 1, 1, 2, 5))):
            yield f"say {text(chance, 60)}"
        yield f"harp {chance.choice(('C', 'A', 'Bb', 'F#', 'low F', 'G'))}"
        yield f"position {chance.choice(('1st', '2nd', '2nd', '3rd', '4th', '5th', '12th'))}"
        yield f"meter {self.meter}"
        tempo = chance.randint(40, 200)
        yield f"tempo {tempo}"
        if self._maybe(0.3):
            yield f"learn {chance.randint(tempo // 2, tempo)}"
        if not self.compound:
            yield f"feel {chance.choice(('swing', 'straight', 'swing 3:2', 'swing 60%'))}"
        if self._maybe(0.2):
            yield f"count-in {chance.randint(0, 3)}"
        yield f"level {chance.choice(('beginner', 'improver', 'advanced'))}"
        yield self.form_words

    def _form(self) -> tuple[str, list[str]]:
        """The `form` lines, and the chords bar by bar."""
        from formsheet.music.form import FORMS as KNOWN

        if self._maybe(0.5):
            name = self.chance.choice(FORMS)
            bars = [" ".join(map(str, bar)) for line in KNOWN[name].lines for bar in line]
            return f"form {name}", bars
        bars = [self._bar_chords() for _ in range(self.chance.choice((1, 2, 4, 7, 8, 12, 14)))]
        lines = [bars[i : i + 4] for i in range(0, len(bars), 4)]
        drawn = "\n".join(f"  | {' | '.join(line)} |" for line in lines)
        return f'form "{title(self.chance)}"\n{drawn}', bars

    def _bar_chords(self) -> str:
        two = self._maybe(0.2) and self.beats % 2 == 0
        return " ".join(self.chance.choice(CHORDS) for _ in range(2 if two else 1))

    # ---- Play ------------------------------------------------------------------------------

    def _plays(self) -> Iterator[str]:
        for _ in range(self.chance.choice((1, 1, 1, 2, 3))):
            times = self.chance.choice((1, 1, 1, 2, 4))
            named = f' "{title(self.chance)}"' if self._maybe(0.4) else ""
            yield f"play{named}" + (f" x{times}" if times > 1 else "")
            yield from self._ranges(0, "")
            if times > 1:
                first = max(0, len(self.bars) - 2)
                yield from self._ranges(first, "last time ")

    def _ranges(self, first: int, prefix: str) -> Iterator[str]:
        """Lines that fill all bars from one on."""
        while first < len(self.bars):
            count = min(self.chance.choice((1, 1, 1, 2, 2, 4)), len(self.bars) - first)
            chords = self.bars[first : first + count]
            where = f"bar {first + 1}" if count == 1 else f"bars {first + 1}-{first + count}"
            if self._maybe(0.06):
                placed = "rest"
            elif len(set(chords)) == 1 and count > 1 and self._maybe(0.6):
                placed = self._lick(chords[:1]) + self.chance.choice(("", f" x{count}"))
            else:
                placed = self._lick(chords)
            yield f"  {prefix}{where} {placed}"
            first += count

    # ---- Licks -----------------------------------------------------------------------------

    def _lick(self, chords: Sequence[str]) -> str:
        """The name of a lick for these bars: a known one, or a new one that is written down."""
        known = self.known.setdefault(tuple(chords), [])
        if known and self._maybe(0.6):
            return self.chance.choice(known)
        name = f"{self.chance.choice(('porch', 'Gate', 'tür', 'x-ing'))}{len(self.licks)}"
        known.append(name)
        kind = self.chance.choice(("lick", "lick", "lick", "turnaround"))
        titled = f' "{title(self.chance)}"' if self._maybe(0.7) else ""
        head = f"{kind} {name}{titled} on {' | '.join(chords)}"
        music = self._music(len(chords))
        if self._maybe(0.2):
            head, music = self._in_rhythm(head, name, music)
        lines = [head, *self._pickup(), f"  {music}"]
        lines += [f"  tip {text(self.chance, 30)}" for _ in range(self.chance.choice((0, 0, 1, 3)))]
        self.licks.append("\n".join(lines))
        return name

    def _in_rhythm(self, head: str, name: str, music: str) -> tuple[str, str]:
        """The lick as a rhythm of its own and notes alone."""
        words = music.split()
        notes = [word for word in words if word[0].isdigit()]
        if not notes:
            return head, music
        places = ["x" if word[0].isdigit() else word for word in words]
        self.licks.append(f"rhythm r-{name} {' '.join(places)}")
        return f"{head} in r-{name}", " ".join(notes)

    def _pickup(self) -> Iterator[str]:
        """One that is played each time needs a rest before it, one that is played once does not."""
        if self._maybe(0.4 if self.roomy else 0.2):
            once = "" if self.roomy else " once"
            marks = self.chance.choice(("e 2b 1d", "q 1d", "s 2b 1d 2b 1d", "e. 1d s 2b"))
            yield f"  pickup{once} {marks}"

    def _music(self, bars: int) -> str:
        written = []
        sounds = False
        for at in range(bars):
            beats = self.beats - (1 if self.roomy and at + 1 == bars else 0)
            words: list[str] = []
            for cell in self._cells(beats):
                for word in cell.split():
                    if word == "N":
                        word, sounds = self._mark(sounds)
                    words.append(word)
                if not self.compound and self._maybe(0.03):
                    words.append(self.chance.choice(("swing", "straight")))
            if beats < self.beats:
                words += ["q. -" if self.compound else "q -"]
                sounds = False
            written.append(" ".join(words))
        return " |\n  ".join(written)

    def _cells(self, beats: int) -> Iterator[str]:
        """Ways to fill beats."""
        ways = COMPOUND if self.compound else SIMPLE
        while beats:
            long = [n for n in ways if n <= beats and ways[n]]
            many = 1 if self.dense else self.chance.choice((1, 1, 1, *long))
            yield self.chance.choice(ways[many])
            beats -= many

    def _mark(self, sounds: bool) -> tuple[str, bool]:
        """A note, a hold or a rest, and whether it sounds."""
        kind = self.chance.random()
        if kind < 0.12:
            return "-", False
        if sounds and kind < 0.22:
            return "=", True
        return self._note() + self._extras(), True

    def _note(self) -> str:
        chance, kind = self.chance, self.chance.random()
        breath = chance.choice("bd")
        if kind < 0.04:
            return chance.choice(OVERBENDS)
        if kind < 0.12:
            low = chance.randint(1, 7)
            return "".join(str(low + i) for i in range(chance.randint(2, 4))) + breath
        if kind < 0.17:
            low = chance.randint(1, 6)
            return f"{low}{low + chance.randint(2, 4)}{breath}"
        hole = chance.randint(1, 10)
        depth = BENDS.get((hole, breath), 0)
        return f"{hole}{breath}" + "'" * (chance.randint(0, depth) if self._maybe(0.7) else 0)

    def _extras(self) -> str:
        extras = "!" if self._maybe(0.05) else ""
        extras += f"{{{self.chance.choice(TECHNIQUES)}}}" if self._maybe(0.12) else ""
        extras += f'"{self.chance.choice(SYLLABLES)}"' if self._maybe(0.12) else ""
        return extras
