"""`formsheet build`: the handouts."""

from __future__ import annotations

import argparse
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
from formsheet.engine.plan import Plan, plan
from formsheet.engine.target import Target
from formsheet.engine.tool import Tool
from formsheet.pack.mark_styles import MARK_STYLES, mark_style
from formsheet.pack.options import UPRIGHT, Options, PageSize
from formsheet.pack.parts import ENDINGS, LIBRARY, PARTS
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


OUT = Option("--out", "where the handouts go", value="DIR", default="handouts")

#: The options that say what the files of a handout hold.
LOOK = (
    Option("--page", "paper size", choices=("A4", "Letter"), read=str.capitalize, default="A4"),
    Option("--compressed", "clips as MP3 instead of WAV: a tenth of the size, and slower to make"),
    Option("--portrait", "upright paper"),
    Option(
        "--marks",
        "how blow and draw are shown",
        choices=tuple(style.name for style in MARK_STYLES),
        default=MARK_STYLES[0].name,
    ),
    Option("--compact", "print a lick that comes again once"),
    Option("--large", "large print"),
)


def _positive(word: str) -> int:
    if not (word.isascii() and word.isdigit() and int(word)):
        raise argparse.ArgumentTypeError(f"{word} is no number of processes")
    return int(word)


def chosen(arguments: argparse.Namespace) -> Options:
    """What the options of `LOOK` say."""
    page_size: PageSize = arguments.page
    if arguments.portrait:
        page_size = UPRIGHT[page_size]
    return Options(
        page_size=page_size,
        marks=mark_style(arguments.marks),
        compact=arguments.compact,
        large=arguments.large,
        compressed=arguments.compressed,
    )


def targets(
    work: Sequence[Job],
    out: Path,
    parts: tuple[str, ...],
    options: Options,
    harps: Sequence[Harp | None] = (None,),
) -> list[Target]:
    """What is to be made, and where; UsageError where two would share a folder, or one has none."""
    taken: dict[Path, Job] = {}
    found = []
    for job in work:
        if not job.path.stem.strip("."):  # it would lead out of its folder
            raise UsageError(f"no folder can be named after {shown_name(job.path)}; rename it")
        plain = out / job.path.relative_to(job.folder).with_suffix("")
        for harp in harps:
            folder = plain.with_name(plain.name + _ending(harp)) if harp else plain
            other = taken.setdefault(folder, job)
            if other is not job:
                raise UsageError(f"{other.path} and {job.path} would both go to {folder}")
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
        raise UsageError("--harp names no harp; write C, Bb or 'low F'")
    return list(dict.fromkeys(named_harp(key, RICHTER) for key in keys))


def named_parts(words: str | None) -> tuple[str, ...]:
    """The parts named, in the order in which they are made; UsageError if one is unknown."""
    if words is None:
        return tuple(PARTS)
    named = [word.strip().lower() for word in words.split(",")]
    for word in named:
        if word not in PARTS:
            raise UsageError(f"there is no part called {word!r}; {_meant(word, named)}")
    return tuple(part for part in PARTS if part in named)


def _meant(word: str, named: Sequence[str]) -> str:
    """What to write instead of a word that is no part; it may be the ending of a part's files."""
    ending = word.removeprefix(".")
    if ending not in ENDINGS:
        return f"there are {', '.join(PARTS)}"
    parts = dict.fromkeys(ENDINGS.get(each.removeprefix("."), each) for each in named)
    part = ENDINGS[ending]
    return f"{ending.upper()} files are the part {part}: write --only {','.join(parts)}"


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
            _say(f"{shown_name(out / LIBRARY)} is none of ours and stays as it is", loud)
    return status


def _remove_gone(out: Path, work: Sequence[Job], loud: Loudness) -> bool:
    """Remove what was made of lessons that are gone; whether there was any."""
    from formsheet.engine.gone import remove_gone

    removed = list(remove_gone(out, {job.folder for job in work}))
    for folder in removed:
        _say(f"{shown_name(folder)}: removed, its lesson is gone", loud)
    return bool(removed)


def _tell(planned: Plan, events: Iterable[Event], loud: Loudness) -> int:
    """Print what is made as it is made; returns the exit status."""
    teller = Teller()
    status = FINE
    for number, event in enumerate(events, start=1):
        progress = f"[{number}/{len(planned.stale)}] {shown_name(event.target.lesson)}"
        teller.tell(event.problems)
        match event.outcome:
            case Outcome.BUILT:
                _tell_built(progress, event, loud)
            case Outcome.CURRENT:
                _say(f"{progress}: made by another build meanwhile", loud)
            case Outcome.WRONG:
                from formsheet.report.table import summary

                kept = f"; {shown_name(event.kept)} stays as it was" if event.kept else ""
                _say(f"{progress}: not built, {summary(event.problems)}{kept}", loud)
                status = max(status, ERRORS)
            case Outcome.FAILED:
                print(f"{progress}: not built; {event.reason}", file=sys.stderr)
                status = USAGE
    if loud is Loudness.VERBOSE:
        for target in planned.current:
            _say(f"{shown_name(target.lesson)}: not changed since made", loud)
    if planned.current:
        _say(f"{len(planned.current)} not changed since made", loud)
    return status


def _tell_built(progress: str, event: Event, loud: Loudness) -> None:
    """A handout in one line; file by file where more is to be said."""
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
            f"not the whole pack, but of {', '.join(PARTS)}",
            value="PART,PART",
            known=parts_known,
        ),
        Option(
            "--harp",
            "for students with other harps, such as G, Bb or `low F`: the same tab, "
            "a folder for each harp",
            value="KEY,KEY",
            known=_keys,
        ),
        *LOOK,
        Option("--again", "make what has not changed too"),
        Option(
            "--remove-stale", "remove what was made of lessons that have left the folders named"
        ),
        Option(
            "--jobs", "processes at work at once (default: a core each)", value="N", read=_positive
        ),
        *LOUDNESS,
    ),
    examples=(
        "formsheet build lessons",
        "formsheet build lessons/kitchen.lesson --only sheet --page Letter",
        'formsheet build lessons/kitchen.lesson --harp "C,A,low F"',
    ),
)
