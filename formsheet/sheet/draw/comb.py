"""The comb between the lanes: a tooth at each beat, counts, beams and rests in it.

A count is bold where a note starts, regular where it is held or silent. The line under the counts
of a divided beat is its beam; a short one is the flag of a note that stands alone. Lengths are
millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from formsheet.music.grouping import triplets
from formsheet.sheet.draw.canvas import Canvas
from formsheet.sheet.draw.measures import Measures
from formsheet.sheet.draw.metrics import MM_PER_PT, Font, width
from formsheet.sheet.draw.notes import Note
from formsheet.sheet.draw.rests import rest, rest_width
from formsheet.sheet.draw.scale import Scale
from formsheet.sheet.view import Bar, Mark

LINE = 0.25
TOOTH = 1.3
LANDING = 1.9, 0.9  # height and width of the tooth of a landing
TOP = 0.14  # of the comb's height above the counts
BEAM_GAP = 0.5  # from a count to its beam
REST_GAP = 0.9  # from a count to the rest after it
REST_END = 0.3  # from a rest to the next onset
TRIPLET_REST = 0.75  # of the usual size of a rest, in a triplet
LEAST_REST = 0.6  # of the usual size of a rest, where there is little room
AFTER_TOOTH = 0.3  # from a tooth to a count
FLAG = 2.4  # least width of a flag
LEAST_BESIDE = 0.2  # white beside the 3 of a triplet; with less it is left out
HOOK = 0.7  # at the ends of a triplet's bracket
_BEAMED = {"e": 1, "s": 2}  # values with beams, and how many


def figure_offset(measures: Measures) -> float:
    """From an onset to the middle of the figure of a long note; silent beats are counted there."""
    return measures.pad + 0.3 * measures.hole * MM_PER_PT


def draw_comb(
    canvas: Canvas,
    bar: Bar,
    notes: Sequence[Note],
    middles: Mapping[Fraction, float],
    scale: Scale,
    measures: Measures,
    top: float,
) -> None:
    """Draw the comb of a bar from `top` down; `middles`: the middle of each struck figure."""
    foot = top + measures.comb
    _teeth(canvas, bar, notes, scale, top, foot)
    struck = {note.onset: note for note in notes if note.struck}
    here = dict(middles)
    ends: dict[Fraction, float] = {}
    rests = {mark.onset: _rest_place(mark, scale, measures) for mark in bar.marks if mark.is_rest}
    base = _base(measures, top)
    for onset, label, beat in _labels(bar, struck, scale):
        font = Font(
            "bold" if onset in struck else "regular", measures.count if beat else measures.part
        )
        middle = here.setdefault(onset, scale.x(onset) + figure_offset(measures))
        half = width(label, font) / 2
        if onset in struck and struck[onset].landing:
            middle = here[onset] = max(middle, scale.x(onset) + LANDING[1] + 0.3 + half)
        if onset in rests:  # short of room, the count stands close to its tooth
            room = scale.x(onset) + rests[onset] - REST_GAP - half
            middle = here[onset] = max(scale.x(onset) + AFTER_TOOTH + half, min(middle, room))
        ends[onset] = middle + half
        canvas.text(middle, base, label, font, "middle")
    _beams(canvas, bar, struck, here, ends, scale, measures, base)
    for mark in bar.marks:
        if mark.is_rest and mark.onset >= scale.start:
            _rest(canvas, mark, ends, scale, measures, (top + foot) / 2)


def _base(measures: Measures, top: float) -> float:
    """The base line of the counts."""
    return top + TOP * measures.comb + Font("bold", measures.count).figure_height


def _labels(
    bar: Bar, struck: Mapping[Fraction, Note], scale: Scale
) -> Iterator[tuple[Fraction, str, bool]]:
    """What is written in the comb: onset, label, and whether it is on a beat."""
    for count in bar.counts:
        if count.onset >= scale.start and (count.beat or count.onset in struck):
            yield count.onset, count.label, count.beat


def _teeth(
    canvas: Canvas,
    bar: Bar,
    notes: Sequence[Note],
    scale: Scale,
    top: float,
    foot: float,
) -> None:
    """The two lines and the teeth; a landing thickens its tooth on its own side."""
    canvas.line(LINE, (0.0, top), (scale.width, top))
    canvas.line(LINE, (0.0, foot), (scale.width, foot))
    onset = scale.start
    while onset < bar.length:
        x = scale.x(onset)
        canvas.line(LINE, (x, top), (x, top + TOOTH))
        canvas.line(LINE, (x, foot), (x, foot - TOOTH))
        onset += bar.beat
    high, wide = LANDING
    for note in notes:
        if note.struck and note.landing:
            y = foot - high if note.tab.draw else top
            canvas.rectangle(scale.x(note.onset), y, wide, high)


# ---- Beams and rests -----------------------------------------------------------------------


def _groups(bar: Bar, struck: Mapping[Fraction, Note]) -> Iterator[list[Mark]]:
    """Struck eighths and sixteenths of one beat, side by side; a rest or a longer note parts."""
    group: list[Mark] = []
    for mark in bar.marks:
        short = mark.onset in struck and not mark.hold and mark.value in _BEAMED
        if group and (not short or mark.onset // bar.beat != group[0].onset // bar.beat):
            yield group
            group = []
        if short:
            group.append(mark)
    if group:
        yield group


def _beams(
    canvas: Canvas,
    bar: Bar,
    struck: Mapping[Fraction, Note],
    middles: Mapping[Fraction, float],
    ends: Mapping[Fraction, float],
    scale: Scale,
    measures: Measures,
    base: float,
) -> None:
    def span(marks: Sequence[Mark]) -> tuple[float, float]:
        first, last = marks[0].onset, marks[-1].onset
        half = ends.get(first, middles[first]) - middles[first]
        left, right = middles[first] - half, ends.get(last, middles[last])
        if len(marks) == 1:
            half = max(FLAG / 2, half)
            left, right = middles[first] - half, middles[first] + half
        return left, right

    y = base + BEAM_GAP
    gaps = list(_triplets(canvas, bar, struck, middles, ends, scale, measures, y))

    def beam(left: float, right: float, top: float) -> None:
        """A beam, open where the 3 of a triplet stands."""
        for gap_left, gap_right in gaps:
            if left < gap_left and gap_right < right:
                if gap_left - left > LINE:
                    canvas.rectangle(left, top, gap_left - left, measures.beam)
                left = gap_right
        if right - left > LINE:
            canvas.rectangle(left, top, right - left, measures.beam)

    for group in _groups(bar, struck):
        left, right = span(group)
        beam(left, right, y)
        run: list[Mark] = []
        for mark in [*group, None]:
            if mark is not None and _BEAMED[mark.value] == 2:
                run.append(mark)
            elif run:
                left, right = span(run)
                beam(left, right, y + measures.beam_step)
                run = []


def _triplets(
    canvas: Canvas,
    bar: Bar,
    struck: Mapping[Fraction, Note],
    middles: Mapping[Fraction, float],
    ends: Mapping[Fraction, float],
    scale: Scale,
    measures: Measures,
    top: float,
) -> Iterator[tuple[float, float]]:
    """Write the 3 of each triplet in the beam at `top`; yields the gap that it needs (mm).

    It stands between two counts or rests, the nearest to the middle of the triplet. A triplet that
    no beam joins has a bracket.
    """
    y, three = top + measures.beam / 2, Font("bold", measures.three)
    grouped = [{mark.onset for mark in group} for group in _groups(bar, struck)]
    for first, last in triplets(bar.marks):
        marks = bar.marks[first : last + 1]
        onsets = [mark.onset for mark in marks if mark.onset in middles]
        if len(onsets) < 2:
            continue
        left = 2 * middles[onsets[0]] - ends.get(onsets[0], middles[onsets[0]])
        right = ends.get(onsets[-1], middles[onsets[-1]])
        half = width("3", three) / 2 + 0.35
        end = marks[-1].onset + marks[-1].length
        taken = [span for mark in marks for span in _taken(mark, middles, ends, scale, measures)]
        silent = [each for each in ends if marks[0].onset < each < end and each not in struck]
        taken += [(2 * middles[each] - ends[each], ends[each]) for each in silent]
        beats = (bar.beat * i for i in range(int(bar.length / bar.beat)))
        teeth = [scale.x(beat) for beat in beats if marks[0].onset < beat < end]
        taken += [(x - LEAST_BESIDE, x + LEAST_BESIDE) for x in teeth]
        spaces = [(one[1], two[0]) for one, two in pairwise(sorted(taken))]
        wide = [space for space in spaces if space[1] - space[0] >= 2 * half]
        widest = max((right - left for left, right in spaces), default=0.0)
        if widest < width("3", three) + LEAST_BESIDE:
            continue
        middle = min(
            (sum(space) / 2 for space in wide or spaces),
            key=lambda x: abs(x - (left + right) / 2),
        )
        canvas.text(middle, y + three.figure_height / 2, "3", three, "middle")
        if not any(set(onsets) <= group for group in grouped):
            for near, far in ((left, middle - half), (right, middle + half)):
                canvas.line(LINE, (near, y - HOOK), (near, y), (far, y))
        yield middle - half, middle + half


def _taken(
    mark: Mark,
    middles: Mapping[Fraction, float],
    ends: Mapping[Fraction, float],
    scale: Scale,
    measures: Measures,
) -> Iterator[tuple[float, float]]:
    """The left and right ends of what stands in the comb at a mark: its count, its rest."""
    onset = mark.onset
    middle = middles.get(onset, scale.x(onset) + figure_offset(measures))
    half = ends[onset] - middle if onset in ends else 0.0
    if not mark.is_rest:
        if onset in ends:
            yield middle - half, middle + half
        return
    wide = rest_width(mark.value, mark.dots, measures.comb)
    if onset in ends:
        yield middle - half, middle + half + REST_GAP + wide
    else:
        yield middle - wide / 2, middle + wide / 2


def _rest(
    canvas: Canvas,
    mark: Mark,
    ends: Mapping[Fraction, float],
    scale: Scale,
    measures: Measures,
    middle: float,
) -> None:
    comb = measures.comb
    if mark.triplet:  # it clears the bracket
        comb, middle = TRIPLET_REST * comb, middle - 0.1 * comb
    wide = rest_width(mark.value, mark.dots, comb)
    start = scale.x(mark.onset)
    left = start + figure_offset(measures) - wide / 2
    end = scale.x(mark.onset + mark.length) - REST_END
    if mark.onset in ends:
        left = ends[mark.onset] + REST_GAP
        if end - left < wide:
            left = ends[mark.onset] + REST_GAP / 2
            comb *= max(LEAST_REST, min(1.0, (end - left) / wide))
    else:
        left = min(left, end - wide)
    canvas.fill(rest(mark.value, mark.dots, left, middle, comb))


def _rest_place(mark: Mark, scale: Scale, measures: Measures) -> float:
    """The most that there can be from the onset of a rest to its sign."""
    wide = rest_width(mark.value, mark.dots, measures.comb)
    return float(mark.length) * scale.unit - REST_END - wide
