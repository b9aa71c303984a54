"""The play-along page as a file: whole, safe, the same each time; its data held to the tune."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from hashlib import sha256
from operator import attrgetter
from typing import Any

import pytest

from formsheet.engine.parts import page
from formsheet.page.inline import json_in_html
from formsheet.page.page import page_html
from formsheet.page.page_data import bars_data, sound_data, spoken_data
from formsheet.page.page_harps import other_harps
from formsheet.page.page_score import Cell, PageChorus, page_choruses
from formsheet.sheet.draw.look import PLAIN_LOOK
from formsheet.sheet.make_view import make_view
from formsheet.sheet.mark_styles import MARK_STYLES, MarkStyle
from formsheet.sheet.options import Options
from formsheet.sheet.spoken import spoken_bar
from formsheet.tune.lick_letters import LickLetters
from formsheet.tune.timeline import Tune
from tests.helpers import examined, lesson_text, over, own_form, tune_of
from tests.lessons import NAMES, demo

MOST_BYTES = 600_000

TUNE = lesson_text(
    """
lick porch "Front porch" on I
  pickup e 1d 2b
  q 2d e 3d' 4d q 2d -
lick creek "Creek" on IV
  e 4b{shake} 5b q 6b h -
lick gate on V
  q 4d 3d''{scoop} 1d -
play x2
  every I porch
  every IV creek
  every V gate
""",
    feel="swing",
)


def page_of(text: str) -> str:
    found = examined(text)
    assert found.tune
    return page_html(found.tune, make_view(found.tune, found.fits, found.file_name)).decode()


def drawn(text: str) -> tuple[Tune, tuple[PageChorus, ...]]:
    found = examined(text)
    assert found.tune
    return found.tune, page_choruses(
        make_view(found.tune, found.fits, "test.lesson").choruses, PLAIN_LOOK
    )


def data_of(text: str) -> Any:
    """What the page's script reads."""
    found = re.search(r'<script type="application/json" id="lesson">(.*?)</script>', page_of(text))
    assert found
    return json.loads(found[1])


# ---- The file --------------------------------------------------------------------------------


def test_the_same_lesson_gives_the_same_bytes() -> None:
    assert page_of(TUNE) == page_of(TUNE)


@pytest.mark.parametrize("name", NAMES)
def test_pages_of_the_demo_lessons_are_modest(name: str) -> None:
    found = demo(name)
    assert found.tune
    data = page_html(found.tune, make_view(found.tune, found.fits, found.file_name))
    assert 100_000 < len(data) < MOST_BYTES


def test_it_asks_for_nothing_from_outside() -> None:
    page = page_of(TUNE)
    assert not re.findall(r'(?:src|href)="(?!#)', page)
    assert set(re.findall(r"url\(([^;]*);", page)) == {"data:font/woff2"}
    assert "http" not in re.sub(r"http-equiv|http://www\.w3\.org/2000/svg", "", page)


def test_its_policy_names_just_its_own_style_and_script() -> None:
    page = page_of(TUNE)
    (policy,) = re.findall(r'Security-Policy" content="(.*?)">', page)
    for name in ("style", "script"):
        (text,) = re.findall(rf"<{name}>(.*?)</{name}>", page, re.DOTALL)
        digest = b64encode(sha256(text.encode()).digest()).decode()
        assert f"{name}-src &#39;sha256-{digest}&#39;" in policy
    assert "unsafe" not in policy
    assert ' style="' not in page


@pytest.mark.parametrize("text", ["</script>", "<!--", "]]>", "\u2028", "&lt;", "'\"\\"])
def test_data_cannot_leave_its_element(text: str) -> None:
    written = json_in_html({"title": text})
    assert json.loads(written) == {"title": text}
    assert not set(written) & set("<>&\u2028\u2029")


def test_words_of_the_lesson_are_escaped() -> None:
    page = page_of(over("I", "q 2d 3d 4d 5d\n tip <b>tip</b>", title="<i>Title</i>", say="<u>say"))
    assert not re.findall("<b>tip|<i>Title|<u>say", page)
    assert page.count("&lt;i&gt;Title") == 3  # title, heading, and what the library page reads


# ---- Its data --------------------------------------------------------------------------------


def test_every_note_is_there_at_its_time() -> None:
    tune = tune_of(TUNE)
    guide = sound_data(tune)["guide"]
    beats = [note.start_s * float(tune.lesson.facts.tempo) / 60 for note in tune.notes]
    assert [note["start"] for note in guide] == pytest.approx(beats, abs=1e-6)
    assert [tuple(note["midi"]) for note in guide] == [note.midi for note in tune.notes]


def test_shapes_of_the_techniques_that_occur() -> None:
    assert sorted(sound_data(tune_of(TUNE))["shapes"]) == ["scoop", "shake"]


def test_moments_of_a_bar_go_on_from_left_to_right() -> None:
    tune, choruses = drawn(TUNE)
    for bar in bars_data(tune, choruses):
        beats, xs = zip(*bar["moments"], strict=True)
        assert list(beats) == sorted(set(beats))
        assert list(xs) == sorted(xs)
        assert 0 < xs[0] <= xs[-1] == 1.0


def test_notes_stand_where_the_cursor_finds_them() -> None:
    tune, choruses = drawn(TUNE)
    bars = bars_data(tune, choruses)
    for note in sound_data(tune)["guide"]:
        places = [beat for beat, _ in bars[note["bar"]]["moments"]]
        assert min(abs(beat - note["start"]) for beat in places) < 1e-5


def test_each_bar_of_the_tune_has_its_drawing() -> None:
    tune, choruses = drawn(TUNE)
    bars = bars_data(tune, choruses)
    cells = [cell for chorus in choruses for cell in chorus.cells]
    assert {bar["cell"] for bar in bars} == set(range(len(cells)))
    assert all(cells[bar["cell"]].bar.number == bar["number"] for bar in bars)


def test_what_is_said_of_a_bar_is_what_the_sheet_says() -> None:
    tune, choruses = drawn(TUNE)
    own = next(harp for harp in other_harps(tune) if harp.semitones == 0)
    said = spoken_data(tune, choruses)
    letters = LickLetters(tune)
    cells = [cell for chorus in choruses for cell in chorus.cells]
    for bar, data in zip(tune.bars, bars_data(tune, choruses), strict=True):
        parts, drawn_bar = said[data["cell"]], cells[data["cell"]].bar
        chords = ", then ".join(own.spoken[chord] for chord in parts["chords"])
        words = parts["before"] + chords + parts["after"]
        assert words == drawn_bar.spoken
        assert words == spoken_bar(bar, tune.lesson.key, letters, first_time=drawn_bar.first_time)


def test_a_bar_bears_the_letter_of_its_lick_and_the_first_time_its_title() -> None:
    page = page_of(TUNE)
    letter = '<b class="letter" aria-hidden="true">'
    sheet = page[page.index('<div class="sheet"') : page.index("</section>", page.index('"sheet"'))]
    heads = re.findall(rf"({letter}.*?)</span>\n</span>", sheet, re.DOTALL)
    words = [" ".join(re.sub("<.*?>", " ", head).split()) for head in heads]
    assert words == [  # the last time has a bar 12 of its own, without a pick-up
        "A Front porch 1 of 4", "A 2 of 4", "A 3 of 4", "A 4 of 4", "B Creek 1 of 2", "B 2 of 2",
        "A 1 of 2", "A 2 of 2", "C Gate", "B", "A", "C", "C",
    ]  # fmt: skip
    assert page.count(">Front porch</i>") == 1


def test_a_lick_is_listed_and_said_with_its_letter() -> None:
    page, licks = page_of(TUNE), data_of(TUNE)["licks"]
    assert [lick["name"] for lick in licks] == ["A, Front porch", "B, Creek", "C, Gate"]
    for lick in licks:
        assert f'<h3 aria-label="lick {lick["name"]}"><b class="letter" aria-hidden="true">' in page
        assert f'aria-label="Play lick {lick["name"]} round and round"' in page
        assert lick["said"] == f"lick {lick['name']}"


def test_what_a_browser_stores_is_found_by_names_whatever_the_letters_and_titles() -> None:
    """Another lick in bar 1 gives all others another letter; titles may be mended at any time."""
    first = "lick new on I\n  h. 2d q -\nlick porch"
    fast = TUNE.replace("tempo 60", "tempo 200")  # moves inside licks are hard too
    later = fast.replace("lick porch", first).replace("every I porch", "every I porch\n  bar 1 new")
    before, after = data_of(fast), data_of(later.replace('"Front porch"', '"Back porch"'))
    keys = [lick["key"] for lick in before["licks"]]
    assert keys == ["porch", "creek", "gate"]
    assert [lick["key"] for lick in after["licks"]] == ["new", *keys]
    assert [lick["name"][0] for lick in after["licks"]] == ["A", "B", "C", "D"]
    moves = [join["key"] for join in before["joins"]]
    assert len({*moves}) == len(moves) == 6
    assert {"creek porch 6b 1d 2", "gate 4d 3d''"} <= {*moves}
    assert [join["key"] for join in after["joins"]] == moves


LAST_TIME = lesson_text(
    "lick run on I\n q 2d 3d 4d 5d\nlick low on I\n w 1d\nplay x3\n every I run\n"
    " last time bar 4 low",
    form='"Own"\n  | I | I | I | I |',
)


def test_a_last_time_is_followed_in_the_bars_that_it_shares() -> None:
    tune, choruses = drawn(LAST_TIME)
    cells = [bar["cell"] for bar in bars_data(tune, choruses)]
    assert cells == [0, 1, 2, 3, 0, 1, 2, 3, 0, 1, 2, 4]
    assert [chorus["first"] for chorus in data_of(LAST_TIME)["choruses"]] == [0, 11]


def bars_of(options: Options) -> list[str]:
    """The bars of the page as drawn."""
    ((_, data),) = page(examined(TUNE), options)
    return re.findall(r'<g class="a[^>]*>(.*?)</g>', data.decode())


@pytest.mark.parametrize("marks", MARK_STYLES[1:], ids=attrgetter("name"))
def test_breath_is_shown_as_the_teacher_likes(marks: MarkStyle) -> None:
    plain, other = bars_of(Options()), bars_of(Options(marks=marks))
    assert len(other) == len(plain)
    assert all(one != each for one, each in zip(plain, other, strict=True))


def test_what_only_paper_needs_is_not_done_here() -> None:
    assert bars_of(Options(large=True, page_size="Letter")) == bars_of(Options())


def test_the_teachers_colours_are_on_the_page_and_keep_white_paper() -> None:
    ((_, data),) = page(examined(TUNE), Options(colours=("#205080", "#802020")))
    assert 'class="coloured"' in data.decode()
    assert any('fill="#802020"' in bar for bar in bars_of(Options(colours=("#205080", "#802020"))))
    assert 'class="coloured"' not in page_of(TUNE)


# ---- What is seen of a drawing -----------------------------------------------------------------

TIED = lesson_text(
    "lick run on I\n q 2d 3d 4d 4b | = 4b 5b -\nplay\n every I run",
    form='"Own"\n  | I | I | I | I |',
)
DENSE = over("I | I", "s [ 2d 3d 4d 5d ]x4 | q 2d 3d 4d 5d")


def cells_of(text: str) -> list[Cell]:
    _, choruses = drawn(text)
    return [cell for chorus in choruses for cell in chorus.cells]


def test_a_box_that_is_held_over_a_bar_line_is_torn_where_the_line_ends_there() -> None:
    sides = [[across for across, _ in cell.drawings] for cell in cells_of(TIED)]
    assert sides == [[(4, 2), (1,)], [(4, 2), (1,)], [(4, 2), (1,)], [(4, 2), (1,)]]
    assert [len(cell.drawings) for cell in cells_of(DENSE)] == [1, 1]


def test_a_dense_bar_needs_more_width_and_can_be_broken_where_a_note_is_struck() -> None:
    dense, plain = cells_of(DENSE)
    assert plain.least < 290 < dense.least < 330
    assert dense.fold == pytest.approx(3 + (68 - 3) / 2, abs=0.6)  # on beat 3
    assert dense.fold < dense.xs[8] * 68


def test_a_bar_alone_on_its_line_shows_less_of_a_lane_without_notes() -> None:
    (first, *_) = cells_of(over("I | I", "q 2d 3d 4d 5d | q 4b 5b 6b 4b"))
    whole, alone = first.windows[4], first.windows[1]
    assert alone.top > 4  # mm of an empty blow lane
    assert alone.height < whole.height - 4
    assert first.windows[2].top == 0  # beside a bar that plays there


@pytest.mark.parametrize("name", NAMES)
def test_windows_hold_all_that_a_bar_plays(name: str) -> None:
    found = demo(name)
    assert found.tune
    view = make_view(found.tune, found.fits, found.file_name)
    for chorus in page_choruses(view.choruses, PLAIN_LOOK):
        for cell in chorus.cells:
            for window in cell.windows.values():
                assert window.top >= 0
                assert window.top + window.height <= cell.windows[4].height + 0.01
            one, two = cell.windows[1], cell.windows[2]
            assert two.top <= one.top
            assert two.top + two.height >= one.top + one.height - 0.01


def test_changed_bars_stand_under_those_that_they_replace() -> None:
    _, choruses = drawn(LAST_TIME)
    (line,) = choruses[1].lines
    assert line.indent == 3 * 68
    assert line.room == choruses[0].lines[0].room


def test_bars_that_another_time_replaces_say_when_they_are_played() -> None:
    _, choruses = drawn(LAST_TIME)
    assert [bool(cell.times) for cell in choruses[0].cells] == [False, False, False, True]
    assert "1st" in choruses[0].cells[3].times


def test_a_chord_within_a_bar_stands_over_its_beat() -> None:
    (cell, *_) = cells_of(over("I7 IV7", "q 2d 3d 4b 5b"))
    assert [chord.numeral for chord, _ in cell.slots] == ["I7", "IV7"]
    assert cell.slots[0][1] == pytest.approx(cell.xs[2], abs=0.001)


# ---- Harps -----------------------------------------------------------------------------------


def harps(**facts: str) -> dict[str, tuple[str, int]]:
    found = other_harps(tune_of(over("I | IV", "w 2d | w 4b", **facts)))
    return {harp.name: (harp.key, harp.semitones) for harp in found}


def test_harps_beside_the_lessons_own() -> None:
    # Second position: the song's key is a fifth above the harp's (common practice, no source).
    found = harps()
    assert len(found) == 12
    assert found["C"] == ("G", 0)
    assert found["A"] == ("E", -3)
    assert found["G"] == ("D", -5)
    assert found["B♭"] == ("F", -2)
    assert found["F"] == ("C", 5)


def test_a_low_harp_has_its_register_beside_the_middle_one() -> None:
    found = harps(harp="low F")
    assert found["low F"] == ("C", 0)
    assert found["F"] == ("C", 12)
    assert found["C"] == ("G", 7)


def test_the_band_goes_the_nearest_way() -> None:
    found = {harp.name: harp.band for harp in other_harps(tune_of(over("I", "w 2d", harp="G")))}
    assert found["F♯"] == -1
    assert found["C"] == 5
    assert found["D♭"] == -6


def test_a_harp_named_unusually_stands_for_its_own_key() -> None:
    found = harps(harp="C#")
    assert found["C♯"][1] == 0
    assert "D♭" not in found


def test_a_tuning_is_named_with_the_harp() -> None:
    assert "C, country" in harps(tuning="country")


def test_chords_of_an_ending_of_its_own_follow_the_harp() -> None:
    text = lesson_text(
        "lick run on I, IV, V\n w 4d!\nplay\n every I run\n every IV run\n every V run\n ending I"
    )
    tune = tune_of(text)
    last = tune.bars[-1].chords[-1][1]
    for harp in other_harps(tune):
        assert last.numeral in harp.letters


def test_minor_songs_stay_minor() -> None:
    text = lesson_text("lick run on i\n w 4d\nlick fifth on V\n w 2d\nplay\n every i run\n"
                       " every iv run\n every bVI fifth\n every V fifth", form="12-bar minor",
                       position="3rd").replace("on i\n", "on i, iv\n").replace(
                           "on V\n", "on V, bVI\n")  # fmt: skip
    found = {harp.name: harp for harp in other_harps(tune_of(text))}
    assert found["C"].key == "D minor"
    assert found["G"].key == "A minor"
    assert found["G"].letters["i7"] == "Am7"
    assert found["G"].spoken["i7"].startswith("one chord A minor")


def test_a_pickup_that_is_played_once_is_marked_and_has_a_bar_of_count() -> None:
    text = lesson_text(
        "lick run on I\n pickup once e 1d 2b\n w 2d\nplay x2\n every I run",
        form=own_form("I"), count_in="0",
    )  # fmt: skip
    data = data_of(text)
    assert [note.get("once", False) for note in data["sound"]["guide"]] == [
        True,
        True,
        False,
        False,
    ]
    assert data["facts"]["countIn"] == 1
