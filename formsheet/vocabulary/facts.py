"""The facts of a lesson: one row each, with its keyword, its reader and its writer.

A reader returns the value of the written words, or the problem with them. Lines of a lesson and
options of commands have the same reader, so that both accept the same words. To add a fact, add
its row here and a field with its default in `formsheet/lesson/model.py`.
"""

# Annotations are no texts here: as texts, those of named tuples are compiled at every start.
import re
from collections.abc import Callable, Sequence
from decimal import Decimal
from enum import Enum
from fractions import Fraction
from typing import Any, Generic, NamedTuple, TypeVar

from formsheet.music.form import FORMS, Form, built_in_form
from formsheet.music.harp import HARP_KEYS, REGISTERS, Harp
from formsheet.music.key import POSITIONS, position_name
from formsheet.music.pitch import plain_signs
from formsheet.music.rhythm import METERS, Meter
from formsheet.music.swing import STRAIGHT, SWING, Feel, parse_ratio
from formsheet.music.tunings import TUNINGS, Tuning
from formsheet.problems import kinds
from formsheet.problems.nearest import nearest
from formsheet.problems.problem import Problem
from formsheet.source import Source, Span, Word
from formsheet.vocabulary.quotes import quoted_parts, unquoted

T = TypeVar("T")

SLOWEST, FASTEST = 20, 300  # beats a minute: the range of a metronome
MOST_COUNT_IN = 4  # bars; our own choice

#: The newest version of the language that is read here.
NEWEST_LANGUAGE = (1, 1)

_ORDINAL = r"(\d{1,2})(st|nd|rd|th)?"
_NUMBER = re.compile(r"\d{1,6}(\.\d{1,6})?")
_VERSION = r"(\d{1,3})(?:\.(\d{1,3}))?"

#: Other words that players have for a feel. Common practice, no source.
_FEELS_MEANT = {"shuffle": "swing", "shuffled": "swing", "swung": "swing", "even": "straight"}


class Shape(Enum):
    """What follows the keyword of a fact."""

    TEXT = "text"  # the rest of the line, without quotes around all of it
    WORDS = "words"
    BLOCK = "block"  # by a rule of the grammar of its own; lines below may belong to it


class Said(NamedTuple):
    """The written words of a fact: in a line of a file, or as an option of a command."""

    fact: str
    words: tuple[Word, ...]
    option: bool = False

    @property
    def keyword(self) -> str:
        """The keyword of the line, or the option."""
        return f"--{self.fact}" if self.option else self.fact

    @property
    def text(self) -> str:
        """The words, joined by single spaces."""
        return " ".join(word.text for word in self.words)

    @property
    def span(self) -> Span:
        """From the first word to the last."""
        return self.words[0].span.to(self.words[-1].span)


class Fact(NamedTuple, Generic[T]):
    """One row of the table."""

    word: str
    shape: Shape
    sample: str  # a whole line
    field: str = ""  # of `Facts`; "" if it has none
    read: Callable[[Said], T | Problem] | None = None  # of a block: reads its name
    write: Callable[[T], str] | None = None
    repeats: bool = False  # the field is a tuple of values
    missing: Callable[[Span], Problem] | None = None  # the problem of a lesson without it
    always: bool = False  # written even if it is the default
    printed: bool = False  # a text that is printed as written
    value: str = ""  # placeholder of the option's value in help; "": there is no option
    says: str = ""  # help text of the option
    known: Sequence[str] = ()  # the values that can be listed

    @property
    def option(self) -> str:
        """The command option for this fact."""
        return f"--{self.word}"


class Level(Enum):
    """The level of the student; it sets the limits of the checks."""

    BEGINNER = "beginner"
    IMPROVER = "improver"
    ADVANCED = "advanced"


class Link(NamedTuple):
    """An address on the web (http or https), with the title to show for it."""

    title: str  # "" if only the address is given
    address: str

    @property
    def words(self) -> str:
        """The shown text: the title, or the address."""
        return self.title or self.address

    @property
    def ascii_address(self) -> str:
        """The address in ASCII, as required in a PDF (RFC 3987, 3.1)."""
        from urllib.parse import quote

        return quote(self.address, safe="%/:?#[]@!$&'()*+,;=~-._")


# ---- Readers and writers ---------------------------------------------------------------------


def text(said: Said) -> str | Problem:
    """Any text that is not empty."""
    if not said.text.strip():
        return kinds.TextEmpty(said.span, fact=said.keyword)
    return said.text


def any_text(said: Said) -> str:
    """Any text."""
    return said.text


def language(said: Said) -> str | Problem:
    """A supported version of the language, such as "1.1"."""
    found = re.fullmatch(_VERSION, said.text)
    if not found or found[1] == "0":
        newest = ".".join(map(str, NEWEST_LANGUAGE))
        return kinds.LanguageUnknown(said.span, found=said.text, newest=newest)
    if (int(found[1]), int(found[2] or 0)) > NEWEST_LANGUAGE:
        newest = ".".join(map(str, NEWEST_LANGUAGE))
        return kinds.LanguageNewer(said.span, found=said.text, newest=newest)
    return said.text


def newer_language(source: Source) -> Problem | None:
    """The problem of a file for a newer version of the language; None for any other file."""
    if "language" not in source.text:
        return None
    for found in re.finditer(r"(?m)^[^\S\n]*language[^\S\n]+([\d.]+)(?!\S)", source.text):
        word = Word(found[1], Span(source, found.start(1), found.end(1)))
        wrong = language(Said("language", (word,)))
        if isinstance(wrong, kinds.LanguageNewer):
            return wrong
    return None


def harp_words(text: str) -> tuple[str, str]:
    """Register and key in the words for a harp, known or not, with plain signs."""
    *registers, key = plain_signs(text).split() or [""]
    return " ".join(registers), key


def harp(said: Said) -> Harp | Problem:
    """A Richter harp as it is stamped: "C", "Bb", "B♭", "low F"."""
    register, key = harp_words(said.text)
    if key in HARP_KEYS and register in REGISTERS:
        return Harp(key, register)
    if key in HARP_KEYS:
        span = said.words[0].span.to(said.words[-2].span)
        near = nearest(register, filter(None, REGISTERS))
        return kinds.HarpRegister(span, found=register, key=key, near=near)
    from formsheet.vocabulary.misnamed import harp_meant  # most lessons name one

    span = said.words[-1].span if register in REGISTERS else said.span
    near, foreign = harp_meant(span.text)
    return kinds.HarpUnknown(span, found=span.text, near=near, foreign=foreign)


def harp_name(harp: Harp) -> str:
    """The harp as in a lesson: "C", "low F"."""
    return harp.name


def tuning(said: Said) -> Tuning | Problem:
    """A built-in tuning by its name."""
    folded = said.text.casefold().replace("-", " ")
    if folded in TUNINGS:
        return TUNINGS[folded]
    return kinds.TuningUnknown(
        said.span, found=said.text, near=nearest(folded, TUNINGS), known=list(TUNINGS),
        own=not said.option,
    )  # fmt: skip


def position(said: Said) -> int | Problem:
    """A position, 1 to 12, from "2nd" or "2"."""
    found = re.fullmatch(_ORDINAL, said.text)
    number = int(found[1]) if found else 0
    if 1 <= number <= len(POSITIONS):
        return number
    from formsheet.vocabulary.misnamed import position_meant

    meant, nickname = position_meant(said.text)
    return kinds.PositionUnknown(
        said.span, found=said.text, meant=meant, nickname=nickname,
        plain=None if nickname else meant,
    )  # fmt: skip


def form(said: Said) -> Form | Problem:
    """A built-in form by its name."""
    if form := built_in_form(said.text):
        return form
    from formsheet.vocabulary.misnamed import form_meant, form_with_bar_lines

    near = form_meant(said.text)
    return kinds.FormUnknown(
        said.span, found=said.text, near=near, known=list(FORMS), own=not said.option,
        with_bar_lines=form_with_bar_lines(said.text),
    )  # fmt: skip


def meter(said: Said) -> Meter | Problem:
    """A meter, such as "12/8"."""
    if said.text not in METERS:
        return kinds.MeterUnknown(said.span, found=said.text, known=list(METERS))
    return METERS[said.text]


def meter_text(meter: Meter) -> str:
    """The meter as in a lesson."""
    return meter.text


def tempo(said: Said) -> Fraction | Problem:
    """A tempo in beats a minute, whole or decimal, SLOWEST to FASTEST."""
    if _NUMBER.fullmatch(said.text) and SLOWEST <= (tempo := Fraction(said.text)) <= FASTEST:
        return tempo
    return kinds.TempoUnknown(
        said.span, found=said.text, fact=said.keyword, slowest=SLOWEST, fastest=FASTEST
    )


def tempo_text(tempo: Fraction) -> str:
    """Beats a minute as in a lesson: a whole number or a decimal fraction."""
    return f"{Decimal(tempo.numerator) / tempo.denominator:f}"


def feel(said: Said) -> Feel | Problem:
    """How a pair of eighths divides: "straight", "swing", "swing 3:2", "swing 60%"."""
    word, *ratio = [word.text for word in said.words]
    if word == "straight" and not ratio:
        return STRAIGHT
    if word == "swing" and not ratio:
        return SWING
    if word == "swing" and len(ratio) == 1 and (feel := parse_ratio(ratio[0])):
        return feel
    found = said.span.text
    if word == "swing":
        return kinds.FeelRatio(said.span, found=found)
    near = _FEELS_MEANT.get(word.casefold()) or nearest(word, ("swing", "straight"))
    return kinds.FeelUnknown(said.span, found=found, near=near)


def feel_text(feel: Feel) -> str:
    """The feel as in a lesson: "straight", "swing", "swing 3:2"."""
    if not feel.swings:
        return "straight"
    ratio = feel.ratio
    return "swing" if ratio == 2 else f"swing {ratio.numerator}:{ratio.denominator}"


def count_in(said: Said) -> int | Problem:
    """The number of bars counted before the tune, 0 to MOST_COUNT_IN."""
    text = said.text
    if text.isdecimal() and len(text) == 1 and int(text) <= MOST_COUNT_IN:
        return int(text)
    return kinds.CountInUnknown(said.span, found=text, most=MOST_COUNT_IN)


def level(said: Said) -> Level | Problem:
    """The level of the student."""
    known = [level.value for level in Level]
    if said.text in known:
        return Level(said.text)
    near = nearest(said.text, known)
    return kinds.LevelUnknown(said.span, found=said.text, near=near, known=known)


def level_word(level: Level) -> str:
    """The level as in a lesson."""
    return level.value


#: A web address that shows where it leads: http or https, a host of letters, digits and hyphens
#: with a dot (RFC 1123), optionally a port, and a path of characters that RFC 3986 allows. No user
#: name, which may disguise the host (RFC 3986, 7.6).
_ADDRESS = (
    r"https?://(?:[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?\.)+[a-z][a-z0-9-]*[a-z0-9]"
    r'(?::\d{1,5})?(?:[/?#][^\s"<>\\^`{|}]*)?'
)
_NO_SCHEME = r"[\w-]+(\.[\w-]+)+(:\d+)?(/\S*)?"


def link(said: Said) -> Link | Problem:
    """A title in quotes and an address, or only an address."""
    text = said.text
    start, end = next(iter(quoted_parts(text)), (0, 0))
    title = unquoted(text[start:end]).strip() if end and not start else ""
    words = text[end if not start else 0 :].split()
    if len(words) == 1:
        (address,) = words
        if _leads_somewhere(address):
            return Link(title, address)
        if title or "." in address or ":" in address:
            near = f"https://{address}" if re.fullmatch(_NO_SCHEME, address) else None
            return kinds.LinkAddress(_last_word(said, address), found=address, near=near)
    *before, address = text.split() or [""]
    meant = Link(" ".join(before), address)
    guess = link_text(meant) if _leads_somewhere(address) and '"' not in meant.title else None
    return kinds.LinkWords(said.span, guess=guess, usage=LINK.sample)


def _last_word(said: Said, word: str) -> Span:
    """The span of the last word of a text; of the whole text if it is in quotes."""
    span = said.span
    return Span(span.source, span.end - len(word), span.end) if span.text.endswith(word) else span


def _leads_somewhere(address: str) -> bool:
    return bool(re.fullmatch(_ADDRESS, address, re.IGNORECASE)) and address.isprintable()


def link_text(link: Link) -> str:
    """The link as in a lesson."""
    if not link.title:
        return link.address
    title = f"“{link.title}”" if '"' in link.title else f'"{link.title}"'
    return f"{title} {link.address}"


# ---- The table -------------------------------------------------------------------------------

_TEXT, _WORDS, _BLOCK = Shape

LANGUAGE_VERSION = Fact("language", _WORDS, "language 1.1", "language", language, str)
TITLE = Fact(
    "title", _TEXT, "title Kitchen Shuffle", "title", text, str, printed=True,
    missing=lambda span: kinds.TitleMissing(span), value="TEXT", says="the printed title",
)  # fmt: skip
TEACHER = Fact(
    "teacher", _TEXT, "teacher The Mill Lane Harp Class", "teacher", text, str, printed=True
)
RIGHTS = Fact(
    "rights", _TEXT, "rights Copy it for your own students", "rights", text, str, printed=True
)
DATE = Fact("date", _TEXT, "date May 2026", "date", text, str, printed=True)
SAY = Fact(
    "say", _TEXT, "say Tap your foot on all four beats.", "says", any_text, str, repeats=True,
    printed=True,
)  # fmt: skip
LINK = Fact(
    "link", _TEXT, 'link "Watch the lesson" https://class.example/27', "links", link, link_text,
    repeats=True, printed=True,
)  # fmt: skip
HARP = Fact(
    "harp", _WORDS, "harp C", "harp", harp, harp_name, always=True,
    missing=lambda span: kinds.HarpMissing(span),
    value="KEY", says="such as C, Bb or `low F`", known=HARP_KEYS,
)  # fmt: skip
TUNING = Fact(
    "tuning", _BLOCK, "tuning natural minor", "", tuning, lambda tuning: tuning.name,
    value="NAME", says="a built-in tuning", known=tuple(TUNINGS),
)  # fmt: skip
POSITION = Fact(
    "position", _WORDS, "position 2nd", "position", position, position_name, always=True,
    value="Nth", says="1st to 12th", known=POSITIONS,
)  # fmt: skip
FORM = Fact(
    "form", _BLOCK, "form 12-bar standard ending I", "", form, lambda form: form.name,
    missing=lambda span: kinds.FormMissing(span),
    value="NAME", says="a built-in form", known=tuple(FORMS),
)  # fmt: skip
METER = Fact(
    "meter", _WORDS, "meter 12/8", "meter", meter, meter_text, always=True,
    value="N/N", says="4/4, 12/8, 3/4 or 6/8", known=tuple(METERS),
)  # fmt: skip
TEMPO = Fact(
    "tempo", _WORDS, "tempo 104", "tempo", tempo, tempo_text, always=True,
    missing=lambda span: kinds.TempoMissing(span), value="N", says="beats a minute",
)  # fmt: skip
LEARN = Fact("learn", _WORDS, "learn 60", "learn", tempo, tempo_text)
FEEL = Fact(
    "feel", _WORDS, "feel swing", "feel", feel, feel_text, always=True,
    value="WORD", says="swing, straight, `swing 3:2`", known=("swing", "straight"),
)  # fmt: skip
COUNT_IN = Fact("count-in", _WORDS, "count-in 2", "count_in", count_in, str)
LEVEL = Fact(
    "level", _WORDS, "level beginner", "level", level, level_word,
    known=tuple(level.value for level in Level),
)  # fmt: skip
USE: Fact[None] = Fact("use", _BLOCK, "use home, walk as stroll from turnarounds", repeats=True)

#: All facts, in the usual order.
FACTS: tuple[Fact[Any], ...] = (
    LANGUAGE_VERSION, TITLE, TEACHER, RIGHTS, DATE, SAY, LINK, HARP, TUNING, POSITION, FORM, METER,
    TEMPO, LEARN, FEEL, COUNT_IN, LEVEL, USE,
)  # fmt: skip

#: All facts by keyword.
FACT_OF = {fact.word: fact for fact in FACTS}
#: Facts that take the rest of their line as text.
TEXT_FACTS = tuple(fact.word for fact in FACTS if fact.shape is Shape.TEXT)
