"""`formsheet build`: the handouts."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from formsheet.commands.declared import Argument, Command, Option
from formsheet.commands.files import ERRORS, FINE, USAGE, Job, Teller, UsageError, jobs
from formsheet.commands.loudness import LOUDNESS, Loudness, loudness
from formsheet.engine.build import build
from formsheet.engine.event import Event, Outcome
from formsheet.engine.parts import ENDINGS, LIBRARY, PARTS
from formsheet.engine.plan import Plan, plan
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool
from formsheet.sheet.colour import LEAST_CONTRAST, contrast
from formsheet.sheet.mark_styles import MARK_STYLES, mark_style
from formsheet.sheet.options import BLACK_INK, UPRIGHT, Colours, Options, PageSize
from formsheet.source import shown_name
from formsheet.suffixes import LESSON_SUFFIX

if TYPE_CHECKING:
    from formsheet.music.harp import Harp


def parts_known() -> Sequence[str]:
    """The parts of a handout."""
    return list(PARTS)


def _keys() -> Sequence[str]:
    from formsheet.music.harp import HARP_KEYS

    return HARP_KEYS


_COLOUR = re.compile(r"#[0-9a-f]{6}")

OUT = Option("--out", "folder for the handouts", value="DIR", default="handouts")

#: The options that change what the files of a handout contain.
LOOK = (
    Option("--page", "paper size", choices=("A4", "Letter"), read=str.capitalize, default="A4"),
    Option("--wav", "clips as WAV instead of MP3, for editing: ten times the size"),
    Option("--portrait", "upright paper"),
    Option(
        "--marks",
        "how blow and draw are shown",
        choices=tuple(style.name for style in MARK_STYLES),
        default=MARK_STYLES[0].name,
    ),
    Option("--light", "draw boxes white with a black foot: saves toner"),
    Option(
        "--colours",
        "two colours, of blow and draw: dark enough for white figures",
        value="BLOW,DRAW",
    ),
    Option("--large", "large print"),
)


def _positive(word: str) -> int:
    if not (word.isascii() and word.isdigit() and int(word)):
        raise argparse.ArgumentTypeError("must be 1 or more")
    return int(word)


def named_colours(words: str | None) -> Colours:
    """The colours of blow and draw; UsageError where one is unreadable or too light."""
    if words is None:
        return BLACK_INK
    named = [word.strip().lower() for word in words.split(",")]
    if len(named) != 2 or not all(_COLOUR.fullmatch(word) for word in named):
        raise UsageError(
            f'--colours "{words}": write two colours as in CSS, blow first: #rrggbb,#rrggbb'
        )
    for word in named:
        if (ratio := contrast(word, "#ffffff")) < LEAST_CONTRAST:
            raise UsageError(
                f"--colours {word} is too light on white paper: its contrast is {ratio:.1f} to 1 "
                f"and must be at least {LEAST_CONTRAST:g} to 1; choose a darker one"
            )
    return named[0], named[1]


def chosen(arguments: argparse.Namespace) -> Options:
    """The values of the options `LOOK`."""
    page_size: PageSize = arguments.page
    if arguments.portrait:
        page_size = UPRIGHT[page_size]
    return Options(
        page_size=page_size,
        marks=mark_style(arguments.marks),
        light=arguments.light,
        colours=named_colours(arguments.colours),
        large=arguments.large,
        wav=arguments.wav,
    )


def targets(
    work: Sequence[Job],
    out: Path,
    parts: tuple[str, ...],
    options: Options,
    harps: Sequence[Harp | None] = (None,),
) -> list[Target]:
    """What to build, and where; UsageError where two would share a folder or one has none."""
    taken: dict[Path, Job] = {}
    found = []
    for job in work:
        if not job.path.stem.strip("."):  # it would lead out of its folder
            raise UsageError(
                f"{shown_name(job.path)} cannot be built: no folder can have its name; rename it"
            )
        plain = out / job.path.relative_to(job.folder).with_suffix("")
        for harp in harps:
            folder = plain.with_name(plain.name + _ending(harp)) if harp else plain
            other = taken.setdefault(folder, job)
            if other is not job:
                raise UsageError(f"{other.path} and {job.path} would both be built into {folder}")
            found.append(Target(job.path, job.folder, folder, parts, options, harp))
    return found


def _ending(harp: Harp) -> str:
    """What a harp adds to a folder's name: "-harp-low-F", "-harp-C-sharp"."""
    return f"-harp-{harp.name}".replace(" ", "-").replace("#", "-sharp")


def _harps(words: str | None) -> Sequence[Harp | None]:
    if words is None:
        return [None]
    from formsheet.commands.named import named_harp
    from formsheet.music.tunings import RICHTER

    keys = [word for word in words.split(",") if word.strip()]
    if not keys:
        raise UsageError('--harp needs a key, such as C, Bb or "low F"')
    return list(dict.fromkeys(named_harp(key, RICHTER) for key in keys))


def _harps_meant(words: str) -> Sequence[str] | None:
    from formsheet.commands.named import harps_meant

    return harps_meant(words)


def named_parts(words: str | None) -> tuple[str, ...]:
    """The parts named, in the order in which they are made; UsageError if one is unknown."""
    if words is None:
        return tuple(PARTS)
    named = [word.strip().lower() for word in words.split(",")]
    for word in named:
        if word not in PARTS:
            raise UsageError(f'"{word}" is not a part of a handout; {_instead(words, word)}')
    return tuple(part for part in PARTS if part in named)


def _instead(words: str, word: str) -> str:
    """What to write instead of a word that is not a part."""
    right = parts_meant(words)
    if right is None:
        return f"the parts are {', '.join(PARTS)}"
    ending = word.removeprefix(".")
    files = f"{ending.upper()} files are made by {ENDINGS[ending]}: " if ending in ENDINGS else ""
    return f"{files}write --only {' '.join(right)}"


def parts_meant(words: str) -> Sequence[str] | None:
    """The value of `--only` that is meant, and the option that makes WAV files of the clips.

    A part may be named by the ending of its files; None where one is not known.
    """
    named = [word.removeprefix(".").lower() for word in re.findall(r"[^\s,]+", words)]
    parts = [ENDINGS.get(each, each) for each in named]
    if not parts or not set(parts) <= set(PARTS):
        return None
    as_wav = ["--wav"] if "wav" in named else []
    return [",".join(dict.fromkeys(parts)), *as_wav]


def run(arguments: argparse.Namespace) -> int:
    """Make the handouts of lessons; nothing is written for one that has errors."""
    work = jobs(arguments.paths, (LESSON_SUFFIX,))
    out = Path(arguments.out)
    options = chosen(arguments)
    wanted = targets(work, out, named_parts(arguments.only), options, _harps(arguments.harp))
    tool = Tool()
    planned = plan(wanted, tool, again=arguments.again)
    loud = loudness(arguments)
    events = build(
        planned, tool, jobs=arguments.jobs, again=arguments.again, notify=partial(_say, loud=loud)
    )
    status = _tell(planned, events, loud)
    removed = _remove_gone(out, work, loud) if arguments.remove_stale else False
    if planned.stale or removed or ("page" in PARTS and not (out / LIBRARY).exists()):
        from formsheet.engine.library import renew_library

        if library := renew_library(out):
            _say(shown_name(library), loud)
        elif (out / LIBRARY).exists():
            _say(f"{shown_name(out / LIBRARY)} was not made by formsheet; left alone", loud)
    return status


def _remove_gone(out: Path, work: Sequence[Job], loud: Loudness) -> bool:
    """Remove the handouts of lessons that no longer exist; whether any was removed."""
    from formsheet.engine.gone import remove_gone

    removed = list(remove_gone(out, {job.folder for job in work}))
    for folder in removed:
        _say(f"{shown_name(folder)}: removed; its lesson no longer exists", loud)
    return bool(removed)


def _tell(planned: Plan, events: Iterable[Event], loud: Loudness) -> int:
    """Print each handout when it is built; returns the exit status."""
    teller = Teller()
    status = FINE
    for number, event in enumerate(events, start=1):
        progress = f"[{number}/{len(planned.stale)}] {shown_name(event.target.lesson)}"
        teller.tell(event.problems)
        match event.outcome:
            case Outcome.BUILT:
                _tell_built(progress, event, loud)
                for notice in event.notices:
                    _say(f"{progress}: {notice}", loud)
            case Outcome.CURRENT:
                _say(f"{progress}: already built by another process", loud)
            case Outcome.WRONG:
                from formsheet.report.table import summary

                kept = f"; {shown_name(event.kept)} is left as it was" if event.kept else ""
                _say(f"{progress}: not built, {summary(event.problems)}{kept}", loud)
                status = max(status, ERRORS)
            case Outcome.FAILED:
                print(f"{progress}: not built; {event.reason}", file=sys.stderr)
                status = USAGE
    if loud is Loudness.VERBOSE:
        for target in planned.current:
            _say(f"{shown_name(target.lesson)}: up to date", loud)
    if planned.current:
        _say(f"{len(planned.current)} up to date", loud)
    return status


def _tell_built(progress: str, event: Event, loud: Loudness) -> None:
    """A handout in one line; file by file with --verbose."""
    if loud is Loudness.VERBOSE:
        for written in event.files:
            _say(f"{progress}: {shown_name(written)}", loud)
    else:
        count, where = len(event.files), shown_name(event.target.folder)
        _say(f"{progress}: {count} file{'s' if count > 1 else ''} in {where}", loud)


def _say(line: str, loud: Loudness) -> None:
    if loud is not Loudness.QUIET:
        print(line, file=sys.stderr)


COMMAND = Command(
    "build",
    "make the handouts",
    run,
    arguments=(Argument("paths", "FILE|DIR", many="+"),),
    options=(
        OUT,
        Option(
            "--only",
            f"build only these parts of the pack: {', '.join(PARTS)}",
            value="PART,PART",
            known=parts_known,
            meant=parts_meant,
        ),
        Option(
            "--harp",
            "for students with other harps, such as G, Bb or `low F`: the same tab, "
            "a folder for each harp",
            value="KEY,KEY",
            known=_keys,
            meant=_harps_meant,
        ),
        *LOOK,
        Option("--again", "also build handouts that are up to date"),
        Option(
            "--remove-stale", "remove handouts whose lesson no longer exists in the folders given"
        ),
        Option(
            "--jobs",
            "number of worker processes (default: one per core)",
            value="N",
            read=_positive,
        ),
        *LOUDNESS,
    ),
    examples=(
        "formsheet build lessons",
        "formsheet build lessons/kitchen.lesson --only sheet --page Letter",
        'formsheet build lessons/kitchen.lesson --harp "C,A,low F"',
    ),
)
