"""Practice in words, the same in `formsheet joins` and on the sheet: start, breath, plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from formsheet.judge.beyond import level_words
from formsheet.judge.breath import BreathFit
from formsheet.judge.breathing import UNEVEN
from formsheet.judge.joins import PlayedMove
from formsheet.judge.ladder import on_metronome, slowest_mark, step_below
from formsheet.judge.practice import HardPlace, LickPractice, Practice
from formsheet.judge.words import FULL_TEMPO, join_names, lick_title
from formsheet.lesson.model import Lick
from formsheet.listing import bars_words, listed
from formsheet.tune.timeline import Tune

BEATS = "beats a minute"


# ---- Where to start ------------------------------------------------------------------------


def start_words(practice: Practice) -> str:
    """The start tempo and the ladder up from it."""
    start, *others = [f"{float(step):g}" for step in practice.ladder]
    then = f", then take {listed(others, 'and')}" if others else ": that is the tune's own tempo"
    return f"Start at {start} {BEATS}{then}."


def slow_words(practice: Practice, named: Callable[[Lick], str] = lick_title) -> str:
    """A sentence where the hardest move is not easy at the start tempo; else ""."""
    if not practice.moves:
        return ""
    hard, start = practice.moves[0], practice.ladder[0]
    where = f"he hardest move ({join_names(hard, named)}, {notes_words(hard)}) is easy only"
    slowest = slowest_mark(practice.target)
    if hard.easy_tempo < slowest:
        return f"T{where} under {slowest:g} {BEATS}: begin it without a metronome."
    if hard.easy_tempo < start:
        mark = on_metronome(hard.easy_tempo)
        return f"The lesson starts at {float(start):g}, but t{where} up to {mark}."
    return ""


# ---- Breath --------------------------------------------------------------------------------


def breath_words(practice: Practice) -> Iterator[str]:
    """The balance, the air at the start tempo and at the tune's own, and where to breathe."""
    balance = balance_words(practice)
    if not balance:
        return
    yield balance
    for fit in practice.breath:
        yield f"At {fit.tempo:g} {BEATS} {_air_words(practice, fit)}."
    yield rests_words(practice)


def balance_words(practice: Practice) -> str:
    """How much of the air is drawn: "74 per cent of the air is drawn."; "" in a silent tune."""
    drawn = practice.breath[0].drawn_share
    return "" if drawn is None else f"{round(100 * drawn)} per cent of the air is drawn."


def rests_words(practice: Practice) -> str:
    """The bars with a place to breathe."""
    if not practice.rests:
        return "No rest to breathe."
    return f"Rests to breathe: {_bars(practice.tune, (rest.bar for rest in practice.rests))}."


def out_of_air_words(practice: Practice, fit: BreathFit) -> str:
    """Where the student is full or empty: "full in bar 6 and empty in bars 9 and 10"; or ""."""
    tune, parts = practice.tune, []
    for full, word in ((True, "full"), (False, "empty")):
        notes = [each.note for each in fit.airless if each.full is full]
        if notes:
            parts.append(f"{word} in {_bars(tune, (tune.notes[note].bar for note in notes))}")
    return " and ".join(parts)


def _air_words(practice: Practice, fit: BreathFit) -> str:
    runs_out = out_of_air_words(practice, fit)
    if runs_out:
        return f"the air does not last: the chest is {runs_out}"
    assert fit.peak_note is not None  # there is a balance, so something sounds
    word = "fullest" if practice.is_full(fit) else "emptiest"
    bar = _bars(practice.tune, [practice.tune.notes[fit.peak_note].bar])
    seconds = f"{fit.peak:.0f}" if round(fit.peak) else "less than 1"
    level = level_words(practice.tune.lesson.facts.level)
    return (
        f"the chest is {word} in {bar}: {seconds} of the {practice.air:g} seconds of air that "
        f"{level} has are used"
    )


def _bars(tune: Tune, indices: Iterable[int]) -> str:
    """Bars in words; those that are not meant in every chorus with the name of theirs."""
    numbers: dict[int, set[int]] = {}
    for index in indices:
        bar = tune.bars[index]
        numbers.setdefault(bar.chorus, set()).add(bar.number)
    parts = ["the pick-up"] if numbers.pop(0, None) else []  # its chorus is 0
    several = len(tune.choruses) > 1
    all_numbers = [numbers.get(chorus.number, set()) for chorus in tune.choruses]
    common = set.intersection(*all_numbers) if all_numbers else set()
    if common:
        some = several and any(found - common for found in numbers.values())
        parts.append(f"{bars_words(sorted(common))}{' of each chorus' if some else ''}")
    for chorus, found in sorted(numbers.items()):
        if rest := sorted(found - common):
            parts.append(f"{bars_words(rest)}{f' of {_chorus(tune, chorus)}' if several else ''}")
    return listed(parts, "and")


def _chorus(tune: Tune, number: int) -> str:
    """A chorus by its title, where it is the only one of that title; else by its number."""
    titles = [chorus.title for chorus in tune.choruses]
    title = titles[number - 1]
    return title if title and titles.count(title) == 1 else f"chorus {number}"


# ---- The plan ------------------------------------------------------------------------------


def plan_words(practice: Practice) -> Iterator[str]:
    """What to practise in which order, a sentence each."""
    yield from order_words(practice)
    tempos = listed([f"{float(step):g}" for step in practice.ladder], "and")
    yield f"Then the whole tune at {tempos} {BEATS}."
    breathe = breathe_words(practice)
    if breathe:
        yield breathe


def order_words(practice: Practice, named: Callable[[Lick], str] = lick_title) -> Iterator[str]:
    """Which lick, which move and which join to practise first; `named`: a lick in words."""
    if practice.first_lick:
        yield _lick_words(practice, practice.first_lick, named)
    if practice.hardest:
        yield _hardest_words(practice, named)
    if joins := [_place_words(practice, each, named) for each in practice.joins]:
        yield f"Then the join{'s:' if len(joins) > 1 else ''} {_listed_places(joins)}."


def _lick_words(practice: Practice, first: LickPractice, named: Callable[[Lick], str]) -> str:
    total = sum(1 for bar in practice.tune.bars if bar.number)
    fills = "all the bars" if first.fills == total else f"{first.fills} of the {total} bars"
    words = step_words(practice, first.easy_tempo(float(practice.target)))
    easy = words if words.startswith("under") else f"at {words}"
    words = f"Learn {named(first.lick)} first: it fills {fills} and is easy {easy}"
    target = float(practice.target)
    others = [each for each in practice.licks if each is not first]
    others.sort(key=lambda each: -each.easy_tempo(target))
    then = listed([named(each.lick) for each in others], "and")
    return f"{words}; then {then}." if then else f"{words}."


def _hardest_words(practice: Practice, named: Callable[[Lick], str]) -> str:
    """The hardest move, or the hardest few, each with the tempo to begin at."""
    first, *others = practice.hardest
    if others:
        places = [_hard_words(practice, each, named) for each in practice.hardest]
        return f"Then the hardest moves, {_listed_places(places)}."
    several = len(first.moves) > 1
    words = f"Then the hardest move, {_hard_words(practice, first, named)}."
    start = practice.start_without
    if start is None:
        return words
    them = "them" if several else "it"
    return (
        f"{words} Practise {them} apart: without {them} the tune would start at "
        f"{step_words(practice, float(start))}, and there the rest may begin."
    )


def notes_words(each: PlayedMove) -> str:
    """A move by its bars and notes: "bar 11: `5b` to `4d`"."""
    last, first = each.last.tab, each.first.tab
    notes = f"`{last}` again" if last == first else f"`{last}` to `{first}`"
    return f"{bars_words(each.bars)}: {notes}"


def _hard_words(practice: Practice, place: HardPlace, named: Callable[[Lick], str]) -> str:
    """The hardest move of a place, where it is, and the tempo to begin at."""
    hard, *others = place.moves
    more = f", with {len(others)} more" if others else ""
    tempo = _tempo(practice, hard.easy_tempo)
    return f"{notes_words(hard)} ({join_names(hard, named)}{more}), {tempo}"


def _listed_places(places: Sequence[str]) -> str:
    """Places, which have commas, one after the other."""
    return "; ".join([*places[:-1], f"and {places[-1]}"]) if len(places) > 1 else places[0]


def _place_words(practice: Practice, place: HardPlace, named: Callable[[Lick], str]) -> str:
    """A join, its bars and the tempo to begin at."""
    hard = place.moves[0]
    tempo = _tempo(practice, hard.easy_tempo)
    return f"{join_names(hard, named)} (into {bars_words(place.bars)}), {tempo}"


def step_words(practice: Practice, easy: float) -> str:
    """The step of the tune's ladder up to which something is easy: "69", or "full tempo".

    It is the largest step that is not above the tempo `easy` (beats a minute): the student ticks
    off no other tempos. "under 60" where the ladder starts above it.
    """
    if easy >= practice.target:
        return FULL_TEMPO
    slowest = slowest_mark(practice.target)
    if easy < slowest:
        return f"under {slowest:g}"
    step = step_below(practice.ladder, easy)
    return f"under {float(practice.ladder[0]):g}" if step is None else f"{float(step):g}"


def _tempo(practice: Practice, easy: float) -> str:
    words = step_words(practice, easy)
    if words == FULL_TEMPO:
        return f"at {words}"
    if easy < slowest_mark(practice.target):
        return f"first without a metronome ({words})"
    return f"first {words}" if words.startswith("under") else f"from {words}"


def breathe_words(practice: Practice) -> str:
    """In which bar to breathe, and whether in or out; "" in a silent tune."""
    start, tune = practice.breath[0], practice.tune
    airless = next((fit for fit in practice.breath if fit.airless), None)
    if airless:
        place = airless.airless[0]
        what = "full" if place.full else "empty"
        bar = _bars(tune, [tune.notes[place.note].bar])
        return f"The chest is {what} in {bar}: leave out a note before it, and breathe."
    if start.peak_note is None:
        return ""
    rest = practice.relief
    if rest is None:
        even = start.peak <= UNEVEN * practice.air
        return (
            "There is no rest, and none is needed: the air lasts."
            if even
            else "There is no rest: leave out a note at the end of a phrase, and breathe."
        )
    full = practice.is_full(start)
    way, chest = ("out", "fullest") if full else ("in", "emptiest")
    peak, bar = _bars(tune, [tune.notes[start.peak_note].bar]), _bars(tune, [rest.bar])
    where = "there" if peak == bar else f"in {peak}"
    beat = f"on beat {rest.beat} of" if tune.bars[rest.bar].number else "in"
    return f"In the rest {beat} {bar} breathe {way}: the chest is {chest} {where}."
