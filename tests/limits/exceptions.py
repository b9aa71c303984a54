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
    "sheet.draw.again.LEAST": _PRINT,
    "sheet.draw.cards.WIDEST": _PRINT,
    "sheet.draw.form.LEAST_GAP": _PRINT,
    "sheet.draw.form.MOST_GAP": _PRINT,
    "sheet.draw.form.LEAST_SIZE": _PRINT,
    "sheet.draw.heading.LEAST_LICK": _PRINT,
    "sheet.draw.holes.LEAST_GAP": _PRINT,
    "sheet.draw.log.LEAST_MOVES": _PRINT,
    "sheet.draw.log.LEAST_ROW": _PRINT,
    "sheet.draw.log.LEAST_STEPS": _PRINT,
    "sheet.draw.rhythm.LEAST_HEAD": _PRINT,
    "sheet.typeset.LEAST_SIZE": _PRINT,
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
