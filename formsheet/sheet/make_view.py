"""Make the view of the whole sheet from the assembled tune: heading, choruses, cards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from formsheet.judge.fit import BarFit
from formsheet.judge.practice import practice_of
from formsheet.lesson.asked import lick_asked_words
from formsheet.lesson.fact_words import feel_words, short_feel_words, tempo_words
from formsheet.lesson.model import Facts, Kind, Lick
from formsheet.listing import bars_words
from formsheet.music.key import position_name
from formsheet.problems.problem import Problem
from formsheet.sheet import view
from formsheet.sheet.draw.words import accidentals
from formsheet.sheet.options import AS_USUAL, Options
from formsheet.sheet.sheet_words import CAUTIONS, LANGUAGE, foot_words
from formsheet.sheet.tab_text import with_dashes
from formsheet.sheet.view_bars import BarViews
from formsheet.sheet.view_choruses import chorus_views
from formsheet.sheet.view_harp import harp_map, key_entries
from formsheet.sheet.view_mind import mind
from formsheet.sheet.view_practice import chord_rows, plan_lines, practice_groups
from formsheet.tune.chorus_words import play_times_words
from formsheet.tune.passages import Passage, lick_passages
from formsheet.tune.pickups import pickup_marks
from formsheet.tune.timeline import Bar, PlayedMark, Tune

ROOT = "R"  # as a degree
_PICKUP_ONCE = "; pick-up only once, before bar 1"


def make_view(
    tune: Tune,
    fits: Sequence[BarFit],
    file_name: str,
    options: Options = AS_USUAL,
    problems: Sequence[Problem] = (),
) -> view.Sheet:
    """The complete content of a tune's sheet, before drawing.

    `problems`: those of the lesson; what a player should know of them is printed.
    """
    facts = tune.lesson.facts
    bars = BarViews(tune, fits)
    practice = practice_of(tune)
    steps = tuple(f"{float(step):g}" for step in practice.ladder)
    starts = {each.lick.name: each.ladder[0] for each in practice.licks}
    cards = tuple(
        replace(
            _card(tune, bars, lick, passage),
            harp=" · ".join(_harp_facts(tune)[:2]),
            tempo=_tempo_range(facts, starts[lick.name]),
        )
        for lick, passage in lick_passages(tune)
    )
    cards = tuple(sorted(cards, key=lambda card: card.role == "turnaround"))  # by letter
    drawn = [bars.bar(index) for index in range(len(tune.bars))]
    choruses = chorus_views(tune, drawn)
    by = tuple(text for text in (facts.teacher, facts.rights, facts.date) if text)
    return view.Sheet(
        title=facts.title,
        facts=_heading(tune, steps[0]),
        says=facts.says,
        links=tuple(
            view.Link(link.title, link.address, link.ascii_address) for link in facts.links
        ),
        feel_words=feel_words(facts.feel, facts.meter),
        feel_sign=_feel_sign(facts),
        key_entries=key_entries(drawn, choruses, options.marks),
        harp_facts=_harp_facts(tune),
        tune_facts=tuple(_tune_facts(tune, choruses, steps[0])),
        harp_map=harp_map(tune),
        choruses=choruses,
        cards=cards,
        cautions=CAUTIONS,
        footer=by,
        file_name=file_name,
        foot=foot_words(
            facts.title, accidentals(facts.harp.name), position_name(facts.position), by
        ),
        chords=tuple(chord_rows(tune.lesson)),
        ladder=steps,
        practice=practice_groups(cards, practice),
        plan=plan_lines(practice),
        mind=mind(tune, fits, practice, problems),
        author=facts.teacher,
        language=LANGUAGE,
    )


def _heading(tune: Tune, start: str) -> tuple[view.Fact, ...]:
    lesson, facts = tune.lesson, tune.lesson.facts
    tuning = facts.harp.other_tuning
    pairs = [
        ("Harp", f"{facts.harp.name}, {tuning}" if tuning else facts.harp.name),
        ("Position", position_name(facts.position)),
        ("Song key", lesson.key.name),
        ("Form", lesson.form.full_name),
        ("Tempo", tempo_words(facts.tempo, facts.meter)),
    ]
    pairs.append(("Start at", start))
    if facts.meter.text != "4/4" and not facts.meter.compound:  # the feel names compound ones
        pairs.append(("Meter", facts.meter.text))
    if tune.count_in > facts.count_in:
        pairs.append(("Count-in", "1 bar, for the pick-up"))
    elif facts.count_in != 1:
        pairs.append(("Count-in", f"{facts.count_in or 'no'} bars"))
    return tuple(view.Fact(label, text) for label, text in pairs)


def _harp_facts(tune: Tune) -> tuple[str, ...]:
    """Harp, position and key, as in the head of the sheet."""
    lesson, facts = tune.lesson, tune.lesson.facts
    tuning = facts.harp.other_tuning
    harp = f"{facts.harp.name} harp" + (f", {tuning}" if tuning else "")
    position = f"{position_name(facts.position)} position"
    return accidentals(harp), position, accidentals(f"key of {lesson.key.name}")


def _tune_facts(tune: Tune, choruses: Sequence[view.Chorus], start: str) -> Iterator[str]:
    """Form, tempo and feel, as in the head of the sheet."""
    lesson, facts = tune.lesson, tune.lesson.facts
    whole = [chorus for chorus in choruses if not chorus.places]
    times = sum(1 for _ in tune.choruses)
    form = lesson.form.full_name
    yield f"{form}, {play_times_words(times)}" if len(whole) == 1 and times > 1 else form
    if facts.meter.text != "4/4":
        yield facts.meter.text
    tempo = tempo_words(facts.tempo, facts.meter).replace("beats ", "")
    yield tempo if Fraction(start) == facts.tempo else f"{tempo}, start at {start}"
    if tune.count_in > facts.count_in:
        yield "count in 1 bar"
    elif facts.count_in != 1:
        yield f"count in {facts.count_in} bars" if facts.count_in else "no count-in"
    if not facts.meter.compound:
        yield short_feel_words(facts.feel)  # last: its sign comes after it


def _tempo_range(facts: Facts, start: Fraction) -> str:
    """From where to where a lick is practised, and the feel: "from 66 to 96 a minute · swing"."""
    words = tempo_words(facts.tempo, facts.meter).replace("beats ", "")
    if start < facts.tempo:
        words = f"from {float(start):g} to {words}"
    return words if facts.meter.compound else f"{words} · {short_feel_words(facts.feel)}"


def _feel_sign(facts: Facts) -> str:
    if facts.meter.compound:
        return ""
    if not facts.feel.swings:
        return "straight"
    if facts.feel.ratio == 2:
        return "swing"
    long, short = facts.feel.ratio.as_integer_ratio()
    return f"{long}:{short}"


# ---- Cards ---------------------------------------------------------------------------------


def _card(tune: Tune, bars: BarViews, lick: Lick, passage: Passage) -> view.Card:
    """The card of a lick, over the chords of a passage in which it is played."""
    placed = tune.bars[passage.first : passage.last + 1]
    alone = [_alone(bar) for bar in placed]
    drawn = []
    for at, bar in enumerate(alone):
        before = alone[at - 1].marks if at else ()
        after = alone[at + 1].marks[0] if at + 1 < len(alone) else None
        once = bar._replace(number=at + 1, slot=bar.slot._replace(round=1, rounds=1))
        view_bar = bars.drawn_up(once, before, after)
        drawn.append(replace(view_bar, lick="", letter=""))
    first = tune.bars[1].lick if tune.pickup_once else None
    opens = first is not None and first.name == lick.name
    led_in = not lick.pickup_once or opens
    numbers = sorted({bar.number for bar in tune.bars if bar.lick and bar.lick.name == lick.name})
    bars_played = with_dashes(bars_words(numbers)).replace(" and ", ", ")
    lead = _lead(tune, placed[0], lick) if lick.pickup and led_in else None
    sounding = list(enumerate(alone))
    if lead:
        sounding.insert(0, (-1, lead))
    return view.Card(
        title=lick.title,
        role="turnaround" if lick.turnaround else "lick",
        on="on " + lick_asked_words(lick),
        played=f"{bars_played}{_PICKUP_ONCE if opens else ''}",
        bars=tuple(drawn),
        degrees=tuple(
            (mark.onset, at, name) for at, bar in sounding for mark, name in _degrees(tune, bar)
        ),
        tips=lick.tips,
        pickup=bars.drawn_up(lead, (), placed[0].marks[0] if placed[0].marks else None)
        if lead
        else None,
        name=lick.name,
        letter=bars.letters.of(lick),
    )


def _alone(bar: Bar) -> Bar:
    """A bar as written in its lick, without the pick-up of the next lick."""
    assert bar.lick
    marks = bar.lick.bars[bar.slot.bar_in_lick]
    own = {played.place: played for played in bar.marks if not played.pickup}
    return bar._replace(
        marks=tuple(
            own.get(place) or PlayedMark(mark, mark.onset, place=place)
            for place, mark in enumerate(marks)
        )
    )


def _degrees(tune: Tune, bar: Bar) -> list[tuple[PlayedMark, str]]:
    """The degree of each note of a bar over the chord.

    Of a block or a split one: R if its root sounds, else that of its lowest hole.
    """
    key, harp = tune.lesson.key, tune.lesson.facts.harp
    found = []
    for played in bar.marks:
        if played.mark.kind is Kind.NOTE and played.mark.tab:
            chord = bar.chord_at(played.onset)
            names = [key.degree(midi, chord) for midi in harp.pitches(played.mark.tab)]
            found.append((played, ROOT if ROOT in names else names[0]))
    return found


def _lead(tune: Tune, first: Bar, lick: Lick) -> Bar:
    """The end of the bar before a lick, with only its pick-up, over the lick's first chord."""
    meter = tune.lesson.facts.meter
    start = meter.bar - lick.pickup_length
    slot = first.slot._replace(lick=None, bar_in_lick=0)
    chords = ((Fraction(0), first.chords[0][1]),)
    return first._replace(number=0, marks=pickup_marks(lick, start), slot=slot, chords=chords)
