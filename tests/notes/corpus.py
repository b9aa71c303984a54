"""Melodies of a corpus as MusicXML and as MIDI, set to tab: `python -m tests.notes.corpus 600`.

`python -m tests.notes.corpus 600 1 3` takes each third tune, from the first on.

The corpus is that of the music21 package: its folders airdsAirs, essenFolksong, oneills1850,
nottingham-dataset and bach. Tunes are known by their numbers here. Each is written by that
library in both formats, and `formsheet tab --lesson` works on it in a process of its own that is
measured. Held against the library's own reading: pitches as they sound, in order, and for each
bar that its notes stand where they stood, so that no bar drifts.
"""

from __future__ import annotations

import resource
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import redirect_stderr, redirect_stdout
from copy import deepcopy
from dataclasses import dataclass, field
from fractions import Fraction
from io import StringIO
from multiprocessing import get_context
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, NamedTuple

from formsheet.notes.melody import scale_of

FOLDERS = ("nottingham-dataset", "airdsAirs", "essenFolksong", "oneills1850", "bach")
LONGEST_SECONDS = 5.0
MOST_MEGABYTES = 500
#: How far an onset may be moved onto the grid: half a sixteenth.
_ROUNDED = Fraction(1, 8)


class Note(NamedTuple):
    """A note as the library has it."""

    midi: int  # the highest, as it sounds
    at: Fraction  # from the beginning of the tune
    in_bar: Fraction
    full: bool  # its bar is as long as its meter


@dataclass
class Tune:
    """A melody of the corpus: its number, and the notes of each of its parts."""

    number: int
    folder: str
    score: Any
    parts: list[list[Note]] = field(default_factory=list)
    meter: str = "4/4"  # its first
    bar: Fraction = Fraction(4)  # the length of that, in quarters


@dataclass
class Done:
    """What became of a file."""

    number: int
    kind: str
    status: int
    seconds: float
    megabytes: float
    error: str  # the refusal
    wrong: str = ""  # what went against the check
    lost: int = 0  # notes that are said to be too short


def tunes(count: int, folders: Sequence[str] = FOLDERS) -> Iterator[Tune]:
    """The first tunes of each folder in turn, so many in all."""
    sources = [_scores(folder) for folder in folders]
    number = 0
    while sources and number < count:
        for source in list(sources):
            found = next(source, None)
            if found is None:
                sources.remove(source)
            elif number < count:
                number += 1
                yield _tune(number, *found)


def _scores(folder: str) -> Iterator[tuple[str, Any]]:
    from music21 import converter, corpus

    for path in sorted(map(str, corpus.getComposer(folder))):
        if not path.endswith((".abc", ".mxl", ".xml")):
            continue
        parsed: Any = converter.parse(path)
        for score in parsed.scores if hasattr(parsed, "scores") else [parsed]:
            if any(_notes_of(part) for part in score.parts):
                yield folder, score


def _tune(number: int, folder: str, score: Any) -> Tune:
    for measure in score.recurse().getElementsByClass("Measure"):  # the library plays repeats out
        measure.leftBarline = measure.rightBarline = None
    tune = Tune(number, folder, score)
    for part in score.parts:
        tune.parts.append(list(_notes(part)))
    for meter in score.parts[0].recurse().getElementsByClass("TimeSignature"):
        tune.meter = meter.ratioString
        tune.bar = _exact(meter.barDuration.quarterLength)
        break
    return tune


class Struck(NamedTuple):
    """A note or chord of the library, ties joined, in quarters from the start of its part."""

    midi: tuple[int, ...]
    at: Fraction
    end: Fraction


def _notes_of(part: Any) -> list[Struck]:
    """The notes of a part; one that is tied to the same pitch before it is not struck."""
    found: list[Struck] = []
    for each in part.flatten().notes:
        pitches = _pitches(each)
        if each.duration.isGrace or not pitches:
            continue
        at = _exact(each.offset)
        end = at + _exact(each.duration.quarterLength)
        tied = each.tie is not None and each.tie.type in ("stop", "continue")
        if tied and found and (found[-1].midi, found[-1].end) == (pitches, at):
            found[-1] = found[-1]._replace(end=end)
        else:
            found.append(Struck(pitches, at, end))
    return found


def _plain_score(score: Any) -> Any:
    """The notes, meter and key alone: the library plays repeats and chord symbols out in MIDI."""
    import music21

    library: Any = music21
    chord, meter, stream = library.chord, library.meter, library.stream
    made = stream.Score()
    for part in score.parts:
        line = stream.Part()
        for kind in ("TimeSignature", "KeySignature"):
            for each in part.recurse().getElementsByClass(kind):
                line.insert(each.getOffsetInHierarchy(part), deepcopy(each))
        for struck in _notes_of(part):
            length = struck.end - struck.at
            line.insert(struck.at, chord.Chord(list(struck.midi), quarterLength=length))
        if not line.getElementsByClass(meter.TimeSignature):
            line.insert(0, meter.TimeSignature("4/4"))
        made.insert(0, line)
    return made


def _pitches(note: Any) -> tuple[int, ...]:
    if "Harmony" in note.classes:
        return ()
    return tuple(sorted({pitch.midi for pitch in note.pitches}))


def _exact(number: Any) -> Fraction:
    return Fraction(number).limit_denominator(960)


def _notes(part: Any) -> Iterator[Note]:
    measures = list(part.getElementsByClass("Measure"))
    bars = [(_exact(m.offset), _exact(m.highestTime), _exact(m.barDuration.quarterLength))
            for m in measures]  # fmt: skip
    for struck in _notes_of(part):
        before = [bar for bar in bars if bar[0] <= struck.at]
        start, length, whole = before[-1] if before else (Fraction(0), Fraction(0), Fraction(0))
        yield Note(max(struck.midi), struck.at, struck.at - start, length == whole)


# ---- Trying --------------------------------------------------------------------------------


def tried(tune: Tune, folder: Path) -> Iterator[Done]:
    """A tune in both formats."""
    for kind, form in (("musicxml", "musicxml"), ("mid", "midi")):
        path = folder / f"{tune.number}.{kind}"
        try:
            (tune.score if form == "musicxml" else _plain_score(tune.score)).write(form, path)
        except Exception as caught:  # the library cannot write some of its own tunes
            yield Done(tune.number, kind, -1, 0, 0, f"not written by the library ({caught!r:.60})")
            continue
        done, found, bar = _measured(path)
        done.number, done.kind = tune.number, kind
        if done.status >= 0 and found:
            done.wrong = _wrong(tune, found, bar, kind)
            if done.wrong == f"{done.lost} notes fewer":  # as it is said
                done.wrong = ""
        yield done
        path.unlink()


Found = list[tuple[int, Fraction]]  # pitch and place of each note


def _measured(path: Path) -> tuple[Done, Found, Fraction]:
    """The command on a file, in a process of its own."""
    context = get_context("fork")
    ours, theirs = context.Pipe(duplex=False)
    child = context.Process(target=_run, args=(path, theirs))
    child.start()
    theirs.close()
    try:
        done, found, bar = ours.recv()
    except EOFError:
        done, found, bar = Done(0, "", -2, 0, 0, "the process died"), [], Fraction(4)
    child.join()
    return done, found, bar


def _run(path: Path, answer: Any) -> None:
    from formsheet.cli import main
    from formsheet.notes.melody import NotesError
    from formsheet.notes.midi import read_midi
    from formsheet.notes.quantise import quantised
    from formsheet.notes.score import read_score

    resource.setrlimit(resource.RLIMIT_CPU, (60, 60))
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    began = time.process_time()
    out, err = StringIO(), StringIO()
    try:
        with redirect_stdout(out), redirect_stderr(err):
            status = main(["tab", str(path), "--lesson"])
    except BaseException as caught:  # a crash, which the check reports
        status, _ = -2, err.write(repr(caught))
    seconds = time.process_time() - began
    found: Found = []
    bar = Fraction(4)
    lost = 0
    try:
        melody = quantised(read_midi(path) if path.suffix == ".mid" else read_score(path))
        found = [(tone.midi[-1], tone.start) for tone in melody.tones]
        lost = sum(each.facts["count"] for each in melody.said if each.kind == "too-short")
        bar = melody.meter.bar
    except NotesError:
        pass
    more = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1000
    error = err.getvalue() if status not in (0, 1) else ""
    answer.send((Done(0, "", status, seconds, more, error.strip(), lost=lost), found, bar))


def _wrong(tune: Tune, found: Found, bar: Fraction, kind: str) -> str:
    """What is not as the library has it; "" where all is."""
    ways = [_differs(part, found, tune, bar, kind) for part in tune.parts if part]
    return "" if "" in ways else min(ways, key=len)


def _differs(part: list[Note], found: Found, tune: Tune, ours: Fraction, kind: str) -> str:
    if [note.midi for note in part] != [midi for midi, _ in found]:
        lost = len(part) - len(found)
        return f"{lost} notes fewer" if lost else "other pitches"
    scale = scale_of(tune.meter)
    line = min(tune.bar * scale, ours)
    if kind == "mid":
        shift = found[0][1] - part[0].at * scale
        off = [abs(at - shift - note.at * scale) for note, (_, at) in zip(part, found, strict=True)]
        return "bars drift" if max(off) > 2 * _ROUNDED else ""
    for note, (_, at) in zip(part, found, strict=True):
        if note.full:
            beyond = (at - note.in_bar * scale) % line
            if min(beyond, line - beyond) > _ROUNDED:
                return f"a bar drifts at {float(note.at):g}"
    return ""


def main() -> int:
    """Try them, and print what was found; ends with 1 if anything is wrong."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 600
    share, shares = (int(each) for each in [*sys.argv[2:4], "1", "1"][:2])
    done: list[Done] = []
    with TemporaryDirectory() as folder:
        for tune in tunes(count):
            if tune.number % shares != share % shares:
                continue
            for each in tried(tune, Path(folder)):
                done.append(each)
                if each.wrong or each.status == -2:
                    print(f"{each.number} {tune.folder} {each.kind}: {each.wrong or each.error}",
                          flush=True)  # fmt: skip
    return _summed(done)


def _summed(done: list[Done]) -> int:
    tried_files = [each for each in done if each.status != -1]
    print(f"{len(tried_files)} files; {sum(e.status in (0, 1) for e in tried_files)} set to tab")
    refused = [each for each in tried_files if each.status == 2]
    print(f"{len(refused)} refused:")
    shown: dict[str, str] = {}
    for each in refused:
        shown.setdefault(_plain(each.error), each.error)
    counts = Counter(_plain(each.error) for each in refused)
    for plain, times in counts.most_common(40):
        print(f"  {times} {shown[plain]}")
    seconds = max((each.seconds for each in tried_files), default=0)
    megabytes = max((each.megabytes for each in tried_files), default=0)
    crashed = sum(each.status == -2 for each in tried_files)
    wrong = sum(bool(each.wrong) for each in tried_files)
    print(f"{crashed} crashed, {wrong} wrong; {seconds:.1f} s and {megabytes:.0f} MB at most")
    over = seconds > LONGEST_SECONDS or megabytes > MOST_MEGABYTES
    return 1 if crashed or wrong or over else 0


def _plain(error: str) -> str:
    """An error without its numbers and file names, to count errors of a kind."""
    return "".join("#" if each.isdigit() else each for each in error.split("/tmp", maxsplit=1)[0])[
        :60
    ]


if __name__ == "__main__":
    sys.exit(main())
