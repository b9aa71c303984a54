"""The page as a student uses it: from the disk, by hand, by keyboard, time after time."""

from __future__ import annotations

from itertools import pairwise

import pytest

from formsheet.judge.practice import practice_of
from formsheet.tune.lick_letters import LickLetters
from tests.browser.conftest import Opener
from tests.browser.window import Window
from tests.helpers import lesson_text, over, tune_of

TUNE = lesson_text(
    """
lick porch "Front porch" on I
  q 2d 3d' 4d 2d
  tip Let the 2 draw ring.
lick creek "Creek" on IV
  q 4b 5b 6b 4b
lick gate "Gate" on V
  q 4d 3d' 1d 1d
play
  every I porch
  every IV creek
  every V gate
""",
    tempo="120",
)
FAST = TUNE.replace("tempo 120", "tempo 200")  # no lick and no join is easy at this tempo
TWO = "q 2d 3d 4d 5d | q 4b 5b 6b -"
HOSTILE = "</script><script>window.harmed=1</script><img src=x onerror=alert(1)>{{ 7*7 }}${7*7}"


def marked(window: Window) -> list[int]:
    """The bars that the page says are sounding, by their place on it."""
    found: list[int] = window.page.evaluate(
        "[...document.querySelectorAll('.bar')].flatMap("
        "(bar, i) => bar.getAttribute('aria-current') === 'true' ? [i] : [])"
    )
    return found


def cursor(window: Window, name: str) -> float:
    """Where the line or the mark of the note stands, in per cent of the bar."""
    (place,) = cursors(window, name)
    return place


def cursors(window: Window, *names: str) -> list[float]:
    """The same of several at one moment, for the page's clock runs on between two questions."""
    values: list[str] = window.page.evaluate(
        "names => names.map(name =>"
        " document.querySelector('.cursor').style.getPropertyValue(`--${name}`))",
        list(names),
    )
    return [float(value.rstrip("%")) for value in values]


def tempo(window: Window) -> str:
    return window.text("#tempo-words")


# ---- Opening ---------------------------------------------------------------------------------


def test_it_opens_without_a_network_or_a_complaint(opened: Opener) -> None:
    window = opened(TUNE, by_clock=False)
    assert window.page.title() == "Test Blues"
    assert window.page.locator(".bar").count() == 12
    assert window.page.evaluate("document.documentElement.lang") == "en"


def test_it_is_set_in_its_own_face(opened: Opener) -> None:
    window = opened(TUNE, by_clock=False)
    window.page.evaluate("document.fonts.ready")
    loaded = window.page.evaluate("[...document.fonts].map(face => face.status)")
    assert "loaded" in loaded
    assert "error" not in loaded


def test_headings_are_in_order(opened: Opener) -> None:
    levels = opened(TUNE, by_clock=False).page.evaluate(
        "[...document.querySelectorAll('h1,h2,h3,h4')].map(h => Number(h.tagName[1]))"
    )
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(level - before <= 1 for before, level in pairwise(levels))


def test_hostile_words_do_no_harm(opened: Opener) -> None:
    text = lesson_text(
        f'lick run "{HOSTILE}" on I | IV\n  q 2d"<b>x</b>" 3d 4d 5d | q 4b 5b 6b -\n'
        f"  tip {HOSTILE}\nplay\n  bars 1-2 run",
        form='"Own"\n  | I | IV |',
        title=HOSTILE,
        teacher=HOSTILE,
        say=HOSTILE,
    )
    window = opened(text)
    assert window.page.title() == HOSTILE
    assert window.text("h1") == HOSTILE
    assert window.page.evaluate("window.harmed") is None
    assert window.page.locator("img, script:not([type])").count() == 1  # its own script
    window.play(5)
    assert marked(window) == [0]


def test_the_policy_lets_nothing_else_run(opened: Opener) -> None:
    window = opened(TUNE, by_clock=False)
    window.page.evaluate(
        "document.body.append(Object.assign(document.createElement('script'), "
        "{textContent: 'window.harmed = 1'}))"
    )
    assert window.page.evaluate("window.harmed") is None
    assert len(window.complaints) == 1  # the browser's, of the script that it did not run
    assert "Content Security Policy" in window.complaints.pop()


def test_the_count_in_is_the_lessons_own(opened: Opener) -> None:
    window = opened(TUNE + "\n", by_clock=False)
    assert window.page.locator("#count-in").input_value() == "1"
    window = opened(over("I", "w 2d", count_in="3"), by_clock=False)
    assert window.page.locator("#count-in").input_value() == "3"


# ---- Following -------------------------------------------------------------------------------


def test_play_counts_in_and_moves_the_cursor(opened: Opener) -> None:
    window = opened(TUNE)
    window.play(1.4)  # at 120, a bar takes two seconds
    assert window.text("#now").startswith("Count 1 2 3")
    assert marked(window) == []
    window.run(1)
    assert marked(window) == [0]
    before = cursor(window, "line")
    window.run(0.4)
    assert cursor(window, "line") > before
    window.run(2)
    assert marked(window) == [1]
    assert window.text("#now") == "Bar 2"


def test_the_cursor_stands_at_the_sounding_note(opened: Opener) -> None:
    window = opened(TUNE)
    window.play(1.0)
    begin = window.clicks()[0] + 2.0
    places = []
    for beat in range(4):
        window.run(begin + beat * 0.5 + 0.1 - window.page.evaluate("listened.currentTime"))
        places.append(cursor(window, "note"))
    drawn = window.page.evaluate(
        "JSON.parse(document.getElementById('lesson').textContent).bars[0].moments.map(m => m[1])"
    )
    assert places == pytest.approx([100 * x for x in drawn[:4]], abs=0.02)


def test_it_stops_by_itself_at_the_end(opened: Opener) -> None:
    window = opened(over("I | IV", TWO, tempo="120"))
    window.play(2.0 + 4.0 + 1.0)
    assert window.text("#play-word") == "Play"
    assert marked(window) == []


def test_less_motion_moves_from_note_to_note(opened: Opener) -> None:
    window = opened(TUNE, reduced_motion="reduce")
    window.play(2.5)
    line, note = cursors(window, "line", "note")
    assert line == note


def test_choruses_printed_once_are_followed_each_time(opened: Opener) -> None:
    text = over("I | IV", TWO, tempo="240").replace("play\n", "play x3\n")
    window = opened(text)
    window.play(1.0 + 2.0 + 0.6)
    assert marked(window) == [0]
    assert window.page.locator(".bar").count() == 2
    window.page.locator(".bar").nth(1).click()
    assert window.page.locator(".bar[aria-pressed=true]").count() == 1


def test_it_keeps_time_with_the_real_audio_clock(opened: Opener) -> None:
    window = opened(over("I | IV", TWO, tempo="240", count_in="0"), by_clock=False)
    window.page.locator("#play").click()
    window.page.locator(".bar.sounding[data-bar='1']").wait_for()
    window.page.locator("html:not(.playing)").wait_for()  # two bars of a second, and it stops


# ---- Choosing --------------------------------------------------------------------------------


def test_each_lick_and_join_can_be_chosen_from_the_list(opened: Opener) -> None:
    window = opened(TUNE)
    names = window.page.locator("#what option").all_inner_texts()
    assert names[:4] == ["The whole tune", "A, Front porch", "B, Creek", "C, Gate"]
    assert "Gate › Creek, into bar 10" in names
    window.page.locator("#what").select_option(label="B, Creek")
    window.play(2.6)
    assert marked(window) == [4]  # bar 5


def test_another_harp_renames_chords_and_what_is_said(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.locator("#harp").select_option(label="D")
    assert window.page.locator("[data-letter='IV7']").first.inner_text() == "D7"
    assert "four chord D 7" in str(window.page.locator(".bar [data-spoken]").nth(4).text_content())
    assert "3 draw bent a half step" in str(
        window.page.locator(".bar [data-spoken]").first.text_content()
    )


# ---- Licks, moves and joins ------------------------------------------------------------------


def test_a_lick_begins_at_its_own_tempo_and_keeps_the_one_it_was_left_at(opened: Opener) -> None:
    tune = tune_of(FAST)
    letters = LickLetters(tune)
    own = {letters.titled(each.lick): float(each.ladder[0]) for each in practice_of(tune).licks}
    assert len({*own.values()}) == 3
    window = opened(FAST)
    window.slide("#tempo", 90)
    for title, start in own.items():
        window.page.locator("#what").select_option(label=title)
        assert tempo(window) == f"{start:g} · {round(start / 2)}%"
    window.slide("#tempo", 80)
    window.page.locator("#what").select_option(label="The whole tune")
    assert tempo(window) == "180 · 90%"
    window.page.reload()
    window.page.locator("#what").select_option(label="C, Gate")
    assert tempo(window) == "160 · 80%"


def test_hard_moves_inside_licks_are_told_from_joins(opened: Opener) -> None:
    window = opened(FAST)
    names = window.page.locator(".join h3").all_inner_texts()
    assert "Inside Gate C" in names
    assert "Gate › Creek C › B" in names
    assert not any("›" in name for name in names if name.startswith("Inside"))
    words = window.page.locator(".join .about > p:first-of-type").all_inner_texts()
    assert any(each.startswith("In bar") for each in words)
    assert any(each.startswith("Into bar") for each in words)


def test_a_join_begins_at_its_tempo_and_steps_up_the_ladder(opened: Opener) -> None:
    window = opened(FAST)
    rungs = window.page.locator("[data-join='0'] .ladder span").all_inner_texts()
    window.page.locator("[data-practise='0']").click()
    assert tempo(window).startswith(f"{rungs[0]} ·")
    window.page.locator("#went-well").click()
    assert tempo(window).startswith(f"{rungs[1]} ·")
    window.page.locator("#not-yet").click()
    window.page.locator("#not-yet").click()
    assert tempo(window).startswith(f"{rungs[0]} ·")
    for _ in rungs:
        window.page.locator("#went-well").click()
    assert tempo(window) == "200 · 100%"
    assert window.text("#live").startswith("That is the tempo of the tune")


def test_the_lessons_start_is_one_press_away(opened: Opener) -> None:
    window = opened(TUNE.replace("tempo 120", "tempo 120\nlearn 45"))
    window.page.locator("#start-tempo").click()
    assert tempo(window) == "45 · 38%"


def test_the_tempo_comes_back_after_a_join(opened: Opener) -> None:
    window = opened(TUNE)
    window.slide("#tempo", 90)
    window.page.locator("[data-practise='0']").click()
    window.page.locator("#what").select_option(label="The whole tune")
    assert tempo(window) == "108 · 90%"
    assert window.page.locator("#practice").is_hidden()


# ---- Remembering -----------------------------------------------------------------------------


def test_it_remembers_on_this_device(opened: Opener) -> None:
    window = opened(FAST)
    window.slide("#tempo", 70)
    window.page.locator("#harp").select_option(label="A")
    window.page.locator("#more").click()
    window.page.locator("#paper").select_option("dark")
    window.page.locator("[data-practise='0']").click()
    window.page.locator("#went-well").click()
    window.page.reload()
    assert tempo(window) == "140 · 70%"
    assert window.text("#song-key") == "E"
    assert window.page.evaluate("document.documentElement.dataset.paper") == "dark"
    rung = window.page.locator("[data-join='0'] .ladder .at").inner_text()
    assert rung == window.page.locator("[data-join='0'] .ladder span").nth(1).inner_text()


def test_it_works_where_nothing_may_be_kept(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } })"
    )
    window.page.reload()
    window.slide("#tempo", 70)
    window.play(4)
    assert marked(window) == [0]


def test_a_spoilt_memory_is_let_go(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.evaluate("localStorage.setItem('formsheet.settings', '[[not json')")
    window.page.reload()
    assert tempo(window) == "120 · 100%"


# ---- Keyboard --------------------------------------------------------------------------------


def test_tab_reaches_everything(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.locator("#more").click()
    window.page.locator("[data-practise='0']").click()
    window.page.evaluate("document.activeElement.blur(); window.scrollTo(0, 0)")
    wanted = set(
        window.page.evaluate(
            "[...document.querySelectorAll(':is(button, select, input):enabled')]"
            ".filter(e => e.tabIndex >= 0 && e.checkVisibility())"
            ".map(e => e.id || e.getAttribute('aria-label') || e.textContent)"
        )
    )
    reached = set()
    for _ in range(len(wanted) + 2):
        window.page.keyboard.press("Tab")
        reached.add(window.focused())
    assert wanted <= reached
    assert len(wanted) > 20


def test_keys_play_and_stop(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.keyboard.press("Space")
    assert window.text("#play-word") == "Stop"
    window.page.keyboard.press("Space")
    assert window.text("#play-word") == "Play"
    window.page.locator("#play").focus()
    window.page.keyboard.press("Space")
    assert window.text("#play-word") == "Stop"
    window.page.keyboard.press("Escape")
    assert window.text("#play-word") == "Play"


def test_keys_change_the_tempo(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.keyboard.press("Shift+ArrowDown")
    assert tempo(window) == "115 · 96%"
    window.page.keyboard.press("Shift+ArrowUp")
    assert tempo(window) == "120 · 100%"
    window.page.locator("#tempo").focus()
    window.page.keyboard.press("ArrowLeft")
    assert tempo(window) == "119 · 99%"


def test_keys_work_the_controls(opened: Opener) -> None:
    window = opened(TUNE)
    window.page.locator("#loop").focus()
    window.page.keyboard.press("Enter")
    assert window.page.locator("#loop").get_attribute("aria-pressed") == "true"
    window.page.locator("#more").focus()
    window.page.keyboard.press("Space")
    assert window.page.locator("#panel").is_visible()
    window.page.locator("#what").focus()
    window.page.keyboard.press("ArrowDown")
    assert window.text("#what option:checked") != "The whole tune"
    window.page.locator("[data-practise='0']").focus()
    window.page.keyboard.press("Enter")
    assert window.text("#play-word") == "Stop"
    assert window.page.locator("#practice").is_visible()
