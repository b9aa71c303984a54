"""`formsheet recast --draft`: a first draft of a whole tune from one lick."""

from __future__ import annotations

import argparse
import sys

from formsheet.commands.declared import Option
from formsheet.commands.files import ERRORS, FINE, Teller, UsageError
from formsheet.commands.named import fact_option, named_form, unknown
from formsheet.commands.opened import Opened
from formsheet.commands.output import deliver, output_options, output_path
from formsheet.lesson.model import Facts, Lick
from formsheet.music.form import Form
from formsheet.music.key import song_key
from formsheet.recast.draft import Draft, draft
from formsheet.recast.text import rhythm_of
from formsheet.report.draft import FromShelf, draft_text
from formsheet.report.table import summary
from formsheet.source import Source
from formsheet.stages import Examined, examine
from formsheet.suffixes import LESSON_SUFFIX
from formsheet.vocabulary.facts import FORM

_HEADING = "a whole tune from the lick"

#: The options of a draft.
DRAFT = (
    Option("--draft", "write a first draft of a lesson", heading=_HEADING),
    Option("--title", "title of the new lesson", value="TEXT", heading=_HEADING),
    fact_option(FORM, "a built-in form (default: that of the lesson)")._replace(heading=_HEADING),
    Option(
        "--turnaround", "a lick of the lesson or its shelves (default: made from the lick)",
        value="NAME", heading=_HEADING,
    ),
    *output_options(_HEADING),
)  # fmt: skip


def write_draft(arguments: argparse.Namespace, opened: Opened, lick: Lick) -> int:
    """Write the draft, and say what `check` would say of it."""
    out = output_path(arguments)
    assert opened.lesson
    facts, form = _facts(arguments, opened.lesson.facts, lick)
    turnaround, shelved = _turnaround(arguments.turnaround, opened)
    key = song_key(facts.harp.key, facts.position, form.minor)
    rhythm = rhythm_of(arguments.lick, opened.tree)
    for each in (lick, lick._replace(pickup=())):  # without its pick-up where there is no room
        made: Draft = draft(each, facts, form, key, turnaround, arguments.overbends)
        text = draft_text(made, each, rhythm, shelved)
        found = _examined(text, opened)
        if found.in_order:
            break
    if lick.pickup and not each.pickup:
        print("the pick-up is left out: not every bar before it has room for it", file=sys.stderr)
    deliver(text, out)
    Teller(sys.stderr).tell(found.problems)
    print(f"`check` of the draft: {summary(found.problems)}", file=sys.stderr)
    return FINE if found.in_order else ERRORS


def _examined(text: str, opened: Opened) -> Examined:
    """The draft judged as if it lay beside the file that it comes from."""
    path = opened.examined.path
    beside = path.with_name(f"draft{LESSON_SUFFIX}") if path else None
    return examine(Source(f"draft{LESSON_SUFFIX}", text, beside), opened.shelves)


def _facts(arguments: argparse.Namespace, facts: Facts, lick: Lick) -> tuple[Facts, Form]:
    """The facts of the new tune: what was said of the old one is left out."""
    form = named_form(arguments.form) if arguments.form else facts.form
    if form is None:
        raise UsageError("a shelf has no form: give one with --form")
    title = arguments.title or f"{lick.title}, a first draft"
    new = facts._replace(title=title, form=form, says=(), links=(), date="", learn=None)
    return new, form


def _turnaround(name: str | None, opened: Opened) -> tuple[Lick | None, FromShelf | None]:
    """The turnaround that was named, and the shelf that it lies on."""
    assert opened.lesson
    if name is None:
        return None, None
    for use in opened.tree.uses:
        for item in use.items:
            if name in (item.name.text, item.alias and item.alias.text):
                lick = opened.lesson.licks[(item.alias or item.name).text]
                return lick._replace(name=item.name.text), FromShelf(item.name.text, use.shelf.text)
    if name in opened.lesson.licks:
        return opened.lesson.licks[name], None
    shelved = {each.lick.name: each for each in opened.lesson.shelved}
    if name in shelved:
        return shelved[name].lick, FromShelf(name, shelved[name].shelf)
    known = [*opened.lesson.licks, *shelved]
    raise unknown("turnaround", name, sorted(known))
