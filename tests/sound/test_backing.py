"""The band follows the form: roots, meters, feels, shared bars, endings, pick-ups."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formsheet.music.chord import MAJOR_QUALITIES, MINOR_QUALITIES, parse_chord
from formsheet.music.rhythm import METERS
from formsheet.music.swing import STRAIGHT, SWING
from formsheet.sound.backing import backing_events, voiced
from formsheet.sound.bass import LOWEST_ROOT, root_of
from formsheet.sound.count_in import ACCENT, CLICK
from formsheet.sound.drums import DRUMS
from formsheet.sound.events import Event
from formsheet.sound.grooves import CRASH, SNARE, Groove, groove_for, hits
from formsheet.tune.timeline import Tune
from tests.helpers import lesson_text, own_form, tune_of
from tests.lessons import NAMES, demo

RESTS = {"4/4": "w -", "3/4": "h. -", "12/8": "w. -", "6/8": "h. -"}
ONE_NOTE = {"4/4": "w 2d", "3/4": "h. 2d", "12/8": "w. 2d", "6/8": "h. 2d"}


def tune_over(chords: str, meter: str = "4/4", feel: str = "straight", times: int = 1) -> Tune:
    """One note a bar over these chords."""
    bars = chords.count("|") + 1
    music = " | ".join([ONE_NOTE[meter]] * bars)
    return tune_of(
        lesson_text(
            f"lick run on {chords}\n {music}\nplay x{times}\n  bars 1-{bars} run",
            form=own_form(chords),
            meter=meter,
            feel=feel if meter in ("4/4", "3/4") else None,
        )
    )


def of(voice: str, tune: Tune) -> list[Event]:
    return [event for event in backing_events(tune) if event.voice == voice]


def chord_changes(tune: Tune) -> list[tuple[Fraction, int]]:
    """Where each chord of the tune begins (quarters from the first bar line), and its root."""
    found = [(bar.start + at, chord) for bar in tune.bars if bar.number for at, chord in bar.chords]
    return [(at, (tune.lesson.key.pitch_class + chord.root) % 12) for at, chord in found]


def assert_bass_has_the_roots(tune: Tune) -> None:
    """Each bar, and each half of a shared one, begins on its chord's root or its octave or fifth.

    Where the chord changes it is the root.
    """
    beat = tune.lesson.facts.meter.beat
    feel = STRAIGHT if tune.lesson.facts.meter.compound else tune.lesson.facts.feel
    heard = {round(event.start, 6): event.midi[0] for event in of("bass", tune)}
    before = None
    for at, root in chord_changes(tune):
        place = at / beat
        start = float(int(place) + feel.place(place % 1))
        played = heard[round(start, 6)] % 12
        assert played == root if root != before else played in (root, (root + 7) % 12)
        before = root


@pytest.mark.parametrize("name", NAMES)
def test_each_chord_of_a_demo_lesson_begins_on_its_root(name: str) -> None:
    tune = demo(name).tune
    assert tune
    assert_bass_has_the_roots(tune)


NUMERALS = ["I", "IV", "V", "i", "iv", "v", "bVI7", "ii7", "VI7", "Vsus4", "bIIdim7", "III+"]


@given(
    st.lists(st.lists(st.sampled_from(NUMERALS), min_size=1, max_size=2), min_size=1, max_size=8),
    st.sampled_from(sorted(METERS)),
    st.sampled_from(["straight", "swing", "swing 3:2"]),
)
@settings(max_examples=40, derandomize=True, deadline=None, database=None)
def test_any_form_is_followed(bars: list[list[str]], meter: str, feel: str) -> None:
    tune = tune_over(" | ".join(" ".join(bar) for bar in bars), meter, feel, times=2)
    assert_bass_has_the_roots(tune)
    end = len(tune.bars) * METERS[meter].beats
    for event in backing_events(tune):
        bar = tune.bars[event.bar]
        assert float(bar.start / METERS[meter].beat) <= event.start < end
        assert event.length > 0
        assert 0 < event.loudness <= 1
        if event.voice == "bass":
            assert event.start + event.length <= end + 1e-9
            assert LOWEST_ROOT - 1 <= event.midi[0] <= LOWEST_ROOT + 11 + 12


def test_the_bass_walks_root_third_fifth_sixth() -> None:
    tune = tune_over("I | I | IV", feel="swing")
    first = [event.midi[0] for event in of("bass", tune) if event.bar == 0]
    assert first == [31, 35, 38, 40]  # G B D E


def test_the_bass_leads_to_the_next_root_by_a_half_step() -> None:
    tune = tune_over("I | IV | I", feel="swing")
    last = [event.midi[0] for event in of("bass", tune) if event.bar == 0][-1]
    following = next(event.midi[0] for event in of("bass", tune) if event.bar == 1)
    assert abs(last - following) == 1


def test_the_bass_falls_to_a_far_root_by_way_of_its_fifth() -> None:
    """From C E G to the G an octave below: a half step above that would be a leap."""
    tune = tune_over("IV | I", feel="swing")
    assert [event.midi[0] for event in of("bass", tune) if event.bar == 0] == [36, 40, 43, 38]


@given(st.lists(st.sampled_from(["I7", "IV7", "V7", "VI7", "ii7", "i", "iv", "bVI7"]), min_size=2,
                max_size=6))  # fmt: skip
@settings(deadline=None, max_examples=40)
def test_the_walk_never_leaps_more_than_an_octave(chords: list[str]) -> None:
    line = [event.midi[0] for event in of("bass", tune_over(" | ".join(chords), feel="swing"))]
    assert max(abs(second - first) for first, second in pairwise(line)) <= 12


def test_a_minor_chord_has_a_minor_third_and_no_major_sixth() -> None:
    tune = tune_over("i | i | iv", feel="swing")
    first = [event.midi[0] - 31 for event in of("bass", tune) if event.bar == 0]
    assert first == [0, 3, 7, 10]


@pytest.mark.parametrize("ratio", [("swing", 2 / 3), ("swing 3:2", 0.6), ("straight", 0.5)])
def test_the_band_swings_as_the_lesson_does(ratio: tuple[str, float]) -> None:
    feel, share = ratio
    hat = [event.start % 1 for event in of("drum", tune_over("I | I", feel=feel))]
    assert {round(place, 6) for place in hat} == {0, round(share, 6)}


@pytest.mark.parametrize(("chords", "held"), [("V | I", True), ("I | V", False), ("I | V I", True)])
def test_an_ending_at_home_is_one_held_hit(chords: str, held: bool) -> None:
    events = backing_events(tune_over(chords, feel="swing"))
    start = max(event.start for event in events)
    last = [event for event in events if event.start == start]
    assert ({event.voice for event in last} == {"bass", "chord", "drum"}) is held
    assert (max(event.start + event.length for event in last) == 8) is held


def test_only_the_last_chorus_ends() -> None:
    tune = tune_over("V | I", times=2)
    played = [event for event in backing_events(tune) if event.voice == "bass"]
    assert len([event for event in played if event.bar == 1]) > 1
    assert len([event for event in played if event.bar == 3]) == 1


def test_a_chorus_ends_with_a_fill_and_the_next_begins_with_a_crash() -> None:
    drums = of("drum", tune_over("I | V", times=2))
    crashes = [event.start for event in drums if event.midi == (CRASH,)]
    assert crashes == [8]
    snare = [event for event in drums if event.midi == (SNARE,)]
    fill, plain = ([e for e in snare if e.bar == bar] for bar in (1, 0))
    assert len(fill) > len(plain)


def test_the_band_waits_for_the_first_bar_line() -> None:
    text = lesson_text(
        "lick run on I\n pickup q 1d\n w 2d\nplay\n  every I run", form=own_form("I")
    )
    tune = tune_of(text)
    assert tune.bars[0].number == 0
    assert min(event.start for event in backing_events(tune)) == 0


def grooves() -> dict[str, Groove]:
    found = {f"{text} swing": groove_for(METERS[text], SWING) for text in METERS}
    return found | {f"{text} straight": groove_for(METERS[text], STRAIGHT) for text in METERS}


@pytest.mark.parametrize("name", sorted(grooves()))
def test_patterns_fill_a_bar(name: str) -> None:
    groove, meter = grooves()[name], METERS[name.split(maxsplit=1)[0]]
    patterns = [*groove.walk, groove.chords, *(p for _, p in (*groove.drums, *groove.fill))]
    assert {len(pattern.split()) for pattern in patterns} == {meter.beats}
    parts = 3 if meter.compound else 2
    assert {len(word) for pattern in patterns for word in pattern.split()} <= {1, parts}
    assert next(hits(groove.walk[0])) == (Fraction(0), "R")
    assert next(hits(groove.half)) == (Fraction(0), "R")


def test_every_drum_that_is_asked_for_can_be_sounded() -> None:
    asked = {drum for groove in grooves().values() for drum, _ in (*groove.drums, *groove.fill)}
    assert asked | {CRASH, ACCENT, CLICK} == set(DRUMS)


@pytest.mark.parametrize(
    "numeral",
    [f"I{quality}" for quality in MAJOR_QUALITIES] + [f"i{quality}" for quality in MINOR_QUALITIES],
)
@pytest.mark.parametrize("tonic", [0, 7, 11])
def test_a_chord_is_voiced_of_its_own_tones(numeral: str, tonic: int) -> None:
    chord = parse_chord(numeral)
    tones = voiced(chord, tonic)
    assert len(tones) == 3
    assert {(tone - tonic - chord.root) % 12 for tone in tones} <= chord.tones
    assert tones[-1] - tones[0] < 12


@pytest.mark.parametrize(
    ("form", "tones"),
    [("I", {0, 4, 7}), ("I7", {4, 7, 10}), ("i", {0, 3, 7}), ("i7", {3, 7, 10}),
     ("IV", {0, 4, 7}), ("V7", {4, 7, 10})],
)  # fmt: skip
def test_band_plays_a_seventh_only_where_one_is_written(form: str, tones: set[int]) -> None:
    chord = parse_chord(form)
    tune = tune_over(f"{form} | V7")
    key = tune.lesson.key.pitch_class
    heard = {
        (midi - key - chord.root) % 12
        for event in backing_events(tune)
        if event.voice == "chord" and event.bar == 0
        for midi in event.midi
    }
    assert heard == tones


def test_a_root_lies_in_the_low_octave() -> None:
    roots = {root_of(parse_chord(numeral), tonic) for numeral in NUMERALS for tonic in range(12)}
    assert roots == set(range(LOWEST_ROOT, LOWEST_ROOT + 12))


def test_each_chorus_begins_its_walk_anew() -> None:
    tune = tune_over("I | I | I", feel="swing", times=2)
    walks = [[event.midi[0] for event in of("bass", tune) if event.bar == bar] for bar in range(5)]
    assert walks[0] == walks[2] == walks[3] != walks[1] == walks[4]
