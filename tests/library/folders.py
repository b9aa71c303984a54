"""Folders of lessons for tests: written, read, and what they use in short words."""

from __future__ import annotations

from pathlib import Path

from formsheet.lesson.shelves import Shelves
from formsheet.library.likeness import Likeness, alike
from formsheet.library.usage import Library, library
from tests.helpers import lesson_text, own_form


def lesson(body: str, form: str = "I | IV | I", **facts: str) -> str:
    """A lesson on a form of three bars."""
    return lesson_text(body, form=own_form(form), **facts)


def read(folder: Path, **files: str) -> Library:
    """Files of a folder, `shelf__x` standing for `shelf/x.licks`, the others for lessons."""
    paths = []
    for name, text in files.items():
        shelf = name.startswith("shelf__")
        path = folder / (f"{name.replace('__', '/')}.licks" if shelf else f"{name}.lesson")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        paths.append(path)
    shelves = Shelves(folder)
    return library((path, str(path.relative_to(folder)), shelves) for path in paths)


def uses_of(made: Library, name: str) -> dict[str, str]:
    """The bars of each lesson that can play a lick: {"a": "1:1 1:3"}."""
    (entry,) = (entry for home, entry in made.licks.items() if home.name == name)
    return {
        Path(use.lesson).stem: " ".join(f"{chorus}:{bar}" for chorus, bar in use.bars)
        for use in entry.uses
    }


def groups(made: Library, likeness: Likeness) -> list[str]:
    """Groups of licks that are alike in one way: ["one two"]."""
    return sorted(
        " ".join(sorted(home.name for home in group.licks))
        for group in alike(made.licks.values())
        if group.likeness is likeness
    )
