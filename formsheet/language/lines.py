"""What the parser reads to the lines of our own syntax tree, rule by rule as it reads them."""

from __future__ import annotations

import re
import threading
from typing import Any

from lark import Token, Transformer, v_args

from formsheet.language import tree as t
from formsheet.source import Source, Span
from formsheet.vocabulary.quotes import is_quoted, quoted_parts, unquoted

_HOLE = re.compile(r"10|[1-9]")


class _Read(threading.local):
    """The file that is being read, by each thread its own."""

    source: Source


@v_args(inline=True)
class LineBuilder(Transformer[Token, Any]):
    """One method for each rule of the grammar, under the rule's name.

    The parser calls them itself, so that no tree of its own is built and walked through again.
    One builder serves all files of a process; threads may read at the same time.
    """

    def __init__(self) -> None:
        super().__init__(visit_tokens=False)
        self._read = _Read()

    def begin(self, source: Source) -> None:
        """Set the source that this thread parses next; the words get their places in it."""
        self._read.source = source

    # -- words and places

    def _span(self, token: Token) -> Span:
        assert token.start_pos is not None
        assert token.end_pos is not None
        return Span(self._read.source, token.start_pos, token.end_pos)

    def _word(self, token: Token) -> t.Word:
        text: str = token.value
        span = self._span(token)
        if token.type == "STRING":
            text = unquoted(span.text)
        elif token.type == "TECHNIQUE":
            text = text[1:-1]
        return t.Word(text, span)

    def _word_or_none(self, token: Token | None) -> t.Word | None:
        return None if token is None else self._word(token)

    def _phrase(self, tokens: tuple[Token, ...]) -> t.Word:
        """Several words as one, put together with single spaces."""
        words = [self._word(token) for token in tokens]
        return t.Word(" ".join(w.text for w in words), words[0].span.to(words[-1].span))

    def _text(self, token: Token) -> t.Word:
        """The rest of a line, without its comment and without quotes around the whole."""
        span = self._span(token)
        said = without_comment(span.text)
        span = Span(span.source, span.start, span.start + len(said))
        return t.Word(_bare(said), span)

    # -- facts

    def text_fact(self, keyword: Token, text: Token) -> t.Fact:
        return t.Fact(self._word(keyword), (self._text(text),))

    def words_fact(self, keyword: Token, *words: Token) -> t.Fact:
        return t.Fact(self._word(keyword), tuple(map(self._word, words)))

    def tuning(self, keyword: Token, *name: Token) -> t.TuningLine:
        return t.TuningLine(self._word(keyword), self._phrase(name))

    def reed_line(self, keyword: Token, *notes: Token) -> t.ReedLine:
        return t.ReedLine(self._word(keyword), tuple(map(self._word, notes)))

    def form_name(self, *name: Token) -> t.Word:
        return self._phrase(name)

    def form(
        self, keyword: Token, name: t.Word | None, _: Token | None, ending: t.ChordBars | None
    ) -> t.FormLine:
        return t.FormLine(self._word(keyword), name, ending or ())

    def form_bar(self, *chords: Token) -> tuple[t.Word, ...]:
        return tuple(map(self._word, chords))

    def ending_bars(self, *parts: Any) -> t.ChordBars:
        return tuple(part for part in parts if isinstance(part, tuple))

    def chord_line(self, *parts: Any) -> t.ChordLine:
        bars = tuple(part for part in parts if isinstance(part, tuple))
        return t.ChordLine(bars, t.bars_span(bars))

    def use_item(self, name: Token, _: Token | None, alias: Token | None) -> t.UseItem:
        return t.UseItem(self._word(name), self._word_or_none(alias))

    def use(self, keyword: Token, *parts: Any) -> t.Use:
        items = tuple(part for part in parts if isinstance(part, t.UseItem))
        return t.Use(self._word(keyword), items, self._word(parts[-1]))

    # -- music

    def music(self, *marks: Any) -> t.MusicLine:
        built = tuple(m if isinstance(m, t.NoteMark) else self._sign(m) for m in marks)
        return t.MusicLine(built, built[0].span.to(built[-1].span))

    def _sign(self, token: Token) -> t.Mark:
        times = None
        if token.type == "CLOSE" and "x" in token:
            times = int(token.rpartition("x")[2])
        return t.Mark(t.Sign[token.type], token.value, self._span(token), times)

    def note(
        self,
        token: Token,
        bang: Token | None,
        technique: Token | None,
        syllable: Token | None,
    ) -> t.NoteMark:
        text = token.rstrip("'’′")
        over = text[-2] == "o"
        return t.NoteMark(
            holes=tuple(map(int, _HOLE.findall(text))),
            breath=text[-1],
            over=over,
            ticks=len(token) - len(text),
            span=self._span(token),
            deliberate=bang is not None,
            technique=self._word_or_none(technique),
            syllable=self._word_or_none(syllable),
        )

    def rhythm(self, keyword: Token, name: Token, music: t.MusicLine | None) -> t.RhythmLine:
        marks = music.marks if music else ()
        return t.RhythmLine(self._word(keyword), self._word(name), marks)

    def asked_chord(self, *chords: Token) -> tuple[t.Word, ...]:
        return tuple(self._word(chord) for chord in chords if chord.type == "CHORD")

    def asked_bar(self, *chords: tuple[t.Word, ...]) -> t.AskedBar:
        return chords

    def asked(self, *bars: Any) -> tuple[t.AskedBar, ...]:
        return tuple(bar for bar in bars if isinstance(bar, tuple))

    def lick(
        self,
        keyword: Token,
        name: Token,
        title: Token | None,
        _on: Token,
        on: tuple[t.AskedBar, ...],
        _in: Token | None,
        rhythm: Token | None,
    ) -> t.LickLine:
        return t.LickLine(
            keyword=self._word(keyword),
            name=self._word(name),
            title=self._word_or_none(title),
            on=on,
            on_span=_asked_span(on),
            rhythm=self._word_or_none(rhythm),
        )

    def pickup(self, keyword: Token, once: Token | None, music: t.MusicLine) -> t.PickupLine:
        return t.PickupLine(self._word(keyword), music.marks, once is not None)

    def tip(self, keyword: Token, text: Token) -> t.TipLine:
        return t.TipLine(self._word(keyword), self._text(text))

    # -- play

    def play(self, keyword: Token, title: Token | None, count: Token | None) -> t.PlayLine:
        if title is not None and title.type == "COUNT":
            title, count = count, title  # the other way round
        return t.PlayLine(self._word(keyword), self._word_or_none(title), self._word_or_none(count))

    def placed(self, name: Token, count: Token | None) -> t.Placed:
        return t.Placed(self._word(name), name.type == "SILENCE", self._word_or_none(count))

    def placed_list(self, *parts: Any) -> tuple[t.Placed, ...]:
        return tuple(part for part in parts if isinstance(part, t.Placed))

    def every(self, keyword: Token, on: t.AskedBar, placed: tuple[t.Placed, ...]) -> t.EveryLine:
        return t.EveryLine(self._word(keyword), on, _asked_span((on,)), placed)

    def bars(
        self, last_time: Token | None, keyword: Token, bars: Token, placed: tuple[t.Placed, ...]
    ) -> t.BarsLine:
        return t.BarsLine(
            self._word(keyword), self._word(bars), placed, last_time=last_time is not None
        )

    def ending(self, last_time: Token | None, keyword: Token, bars: t.ChordBars) -> t.EndingLine:
        return t.EndingLine(self._word(keyword), bars, last_time is not None)

    def start(self, *parts: Any) -> list[t.Line]:
        return list(parts)


def _asked_span(bars: tuple[t.AskedBar, ...]) -> Span:
    return bars[0][0][0].span.to(bars[-1][-1][-1].span)


def text_as_read(rest: str) -> str:
    """What the rest of a line says as a text: no comment, no quotes around the whole."""
    return _bare(without_comment(rest))


def _bare(text: str) -> str:
    return unquoted(text) if is_quoted(text) else text


def without_comment(text: str) -> str:
    """The text up to a `#` that begins a word outside quotes, trailing spaces cut."""
    if "#" not in text:
        return text.rstrip()
    parts = iter([*quoted_parts(text), (len(text), len(text))])
    start, end = next(parts)
    for found in re.finditer(r"(?<!\S)#", text):
        while end <= found.start():
            start, end = next(parts)
        if found.start() < start:
            return text[: found.start()].rstrip()
    return text.rstrip()
