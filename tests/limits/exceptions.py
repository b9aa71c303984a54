"""Numbers that fall under the rule of `found.py` and are no limits; steps that no test can see."""

from __future__ import annotations

_UNIT = "a unit: no choice of ours"
_INTERVAL = "an interval in half steps: a fact of music"
_FLAG = "says which part of a line is lost: no number"
_VALUES = "which values of notes there are: a fact of notation"
_WEIGHT = (
    "a weight: what counts is the order into which all weights together put the recasts, "
    "see tests/golden/recast"
)
_PRINT = (
    "a size of the drawing in mm, pt or em, to be looked at; what must hold of it whatever "
    "it is: tests/sheet/test_geometry.py, tests/sheet/faults.py"
)

_AMOUNT = "how much of it is printed, the most important first: to be looked at"
_WORDS = "words for numbers: a fact of the language"

_SAME_NUMBERS = "the end of a range: its numbers stay the same"

#: Name of a constant -> why a step of it need not be seen.
NOT_LIMITS: dict[str, str] = {
    "judge.ending._BLUE_THIRD": _INTERVAL,
    "judge.ending._FIFTH": _INTERVAL,
    "judge.ending._FLAT_SEVEN": _INTERVAL,
    "judge.ending._HOME": _INTERVAL,
    "judge.ending._SEVEN": _INTERVAL,
    "judge.fast_moves._MILLISECONDS": _UNIT,
    "judge.feel._MILLISECONDS": _UNIT,
    "judge.fit._FIFTH": _INTERVAL,
    "judge.fit._FLAT_FIVE": _INTERVAL,
    "judge.fit._WHOLE_STEP": _INTERVAL,
    "judge.handling._MILLISECONDS": _UNIT,
    "judge.last_time._HOME": _INTERVAL,
    "judge.verdicts.BLUES_SIGNS": _INTERVAL,
    "judge.verdicts.BLUE_NOTES": _INTERVAL,
    "judge.verdicts._FIFTH": _INTERVAL,
    "judge.verdicts._FOURTH": _INTERVAL,
    "judge.verdicts._HOME": _INTERVAL,
    "language.made.NOWHERE": "a place in no file",
    "language.recovery.LENGTHS": _FLAG,
    "language.recovery.LINE": _FLAG,
    "lesson.lengths._VALUES": _VALUES,
    "recast.candidates._LEVELLED": _WEIGHT,
    "recast.candidates._TURNED": _WEIGHT,
    "recast.candidates.OFF_CONTOUR": _WEIGHT,
    "recast.candidates.OFF_SIZE": _WEIGHT,
    "recast.candidates._A_TRITONE": _INTERVAL,
    "recast.candidates.LOOSE": _WEIGHT,
    "recast.candidates.NEAR_CHANGE": _WEIGHT,
    "recast.candidates.HOLE_MOVED": _WEIGHT,
    "recast.character._NAMES": _INTERVAL,
    "recast.objections._OCTAVE": _INTERVAL,
    "recast.offered.BLUES_SCALE": _INTERVAL,
    "recast.offered._OCTAVE": _INTERVAL,
    "recast.options._OCTAVE": _INTERVAL,
    "recast.options.OTHER_THIRD": _WEIGHT,
    "recast.options.CHORD_TONE": _WEIGHT,
    "recast.options.BLUE_NOTE": _WEIGHT,
    "recast.options.COLOUR": _WEIGHT,
    "recast.options.COLOUR_STAYS": _WEIGHT,
    "recast.options.ANOTHER_OCTAVE": _WEIGHT,
    "recast.options.OTHER_BLOCK": _WEIGHT,
    "recast.options.WIDER": _WEIGHT,
    "recast.options.ROOT_DOUBLED": _WEIGHT,
    "recast.options.OTHER_OCTAVE": _WEIGHT,
    "recast.options.OTHER_SPLIT": _WEIGHT,
    "recast.options.OTHER_DOUBLED": _WEIGHT,
    "recast.options.OTHER_SHAPE": _WEIGHT,
    "recast.options.ROOT_ALONE": _WEIGHT,
    "recast.options.SHAKEN_BEND": _WEIGHT,
    "recast.options.OTHER_WAY": _WEIGHT,
    "recast.options.FAR_OFF": _WEIGHT,
    "recast.options._A_STEP": _INTERVAL,
    "recast.options._A_THIRD": _INTERVAL,
    "recast.options.SAME_PITCH": _WEIGHT,
    "recast.options.ON_BREATH": _WEIGHT,
    "recast.options.AVOIDED": _WEIGHT,
    "recast.options._BENDS_COUNT": _WEIGHT,
    "recast.options._HURRIED": _WEIGHT,
    "recast.played._ROUNDS": "a word for 2: a lick and its loop",
    "recast.target._OCTAVE": _INTERVAL,
    "recast.trial.WORSE": _WEIGHT,
    "recast.trial.IN_A_HURRY": _WEIGHT,
    "recast.trial.SWAPPED": _WEIGHT,
    "recast.trial.BEND_TO_BEND": _WEIGHT,
    "recast.trial.ROOT_LOST": _WEIGHT,
    "recast.trial.BLOCK_MOVED": _WEIGHT,
    "recast.trial.UNLIKE": _WEIGHT,
    "recast.trial.LESS_FIT": _WEIGHT,
    "recast.trial.STRAIN": _WEIGHT,
    "recast.trial.OCTAVE_AWAY": _WEIGHT,
    "recast.trial.FAR_AWAY": _WEIGHT,
    "recast.trial._A_FIFTH": _INTERVAL,
    "recast.trial._OCTAVE": _INTERVAL,
    "page.page_score.LEAST_FIGURE": _PRINT,
    "page.page_score.LEAST_SIZE": _PRINT,
    "sheet.cards._MOST_COLOURS": "the size of a palette in that format",
    "sheet.draw.bar.LEAST_SYLLABLE": _PRINT,
    "sheet.draw.bar_head.LEAST": _PRINT,
    "sheet.draw.bar_head.LEAST_CHORD": _PRINT,
    "sheet.draw.bar_head.LEAST_ROOM": _PRINT,
    "sheet.draw.bar_head.LEAST_TWO": _PRINT,
    "sheet.draw.comb.LEAST_BESIDE": _PRINT,
    "sheet.draw.comb.LEAST_REST": _PRINT,
    "sheet.draw.front.LEAST_UPRIGHT": _PRINT,
    "sheet.draw.front.MOST_GAP": _PRINT,
    "sheet.draw.harp_map.LEAST_NOTE": _PRINT,
    "sheet.draw.legend.LEAST": _PRINT,
    "sheet.draw.lick_cards.LEAST": _PRINT,
    "sheet.draw.lick_cards.LEAST_DENSE": _PRINT,
    "sheet.draw.lick_cards.LEAST_TIGHT": _PRINT,
    "sheet.draw.page_head.LEAST_TITLE": _PRINT,
    "sheet.draw.practice_marks.LEAST": _PRINT,
    "sheet.draw.screen_layout.LEAST_WORD": _PRINT,
    "sheet.draw.side_words.LEAST": _PRINT,
    "sheet.draw.systems.LEAST_PAD": _PRINT,
    "sheet.draw.systems.MOST_PAD": _PRINT,
    "sheet.study_page.LEAST": _PRINT,
    "sheet.study_page.LEAST_COLUMN": _PRINT,
    "sheet.study_page.LEAST_SLOT": _PRINT,
    "sheet.study.MOST_GAP": _PRINT,
    "sheet.study_table.MOST_TITLE": _PRINT,
    "sheet.draw.lick_cards.LONGEST_WORD": _PRINT,
    "sheet.view_mind.MOST": _AMOUNT,
    "sheet.view_mind._MOST_BENT": _AMOUNT,
    "sheet.view_mind._MOST_FOUND": _AMOUNT,
    "sheet.view_practice.MOST_JOINS": _AMOUNT,
    "tune.chorus_words._ORDINALS": _WORDS,
    "tune.chorus_words._TIMES": _WORDS,
    "sheet.view_practice._OCTAVE": _INTERVAL,
}

#: A step, as it is printed -> why no test can see it.
SURVIVORS: dict[str, str] = {
    "judge.ladder.FASTER: 300 -> 299": _SAME_NUMBERS,
    "judge.ladder.FASTER: 300 -> 301": _SAME_NUMBERS,
    "judge.ladder.METRONOME: 60 -> 59": _SAME_NUMBERS,
    "judge.ladder.METRONOME: 72 -> 71": _SAME_NUMBERS,
    "judge.ladder.METRONOME: 120 -> 119": _SAME_NUMBERS,
    "judge.ladder.METRONOME: 144 -> 143": _SAME_NUMBERS,
    "judge.ladder.METRONOME: 209 -> 210": _SAME_NUMBERS,
    "judge.ladder.SLOWER: 40 -> 39": _SAME_NUMBERS,
    "judge.ladder.SLOWER: 40 -> 41": _SAME_NUMBERS,
    "music.key._MOST_ACCIDENTALS: 6 -> 5": "six sharps become six flats, these six sharps again",
    "tune.pickups._MOST_PARTS: 4 -> 5": "no part of a beat takes five rests, so that none is lost",
}
