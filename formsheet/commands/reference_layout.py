"""The reference as plain text, as Markdown, and as a manual page (the `man` macros of roff)."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from textwrap import fill

from formsheet import __version__
from formsheet.commands.reference_content import Section

_WIDTH = 88
_INDENT = "    "


def laid_out(whole: Section, layout: str) -> str:
    """The reference in one of the layouts that the command names."""
    layouts: dict[str, Callable[[Section], Iterator[str]]] = {
        "text": _text,
        "markdown": _markdown,
        "man": _manual,
    }
    lines = layouts[layout](whole)
    return re.sub(r"\n{3,}", "\n\n", "\n".join(lines)).strip()


# ---- Plain text ----------------------------------------------------------------------------


def _text(section: Section, depth: int = 0) -> Iterator[str]:
    indent = _INDENT * max(0, depth - 1)
    yield from ("", indent + (section.title.upper() if depth < 2 else section.title), "")
    inside = _INDENT * max(1, depth)
    for said in section.says:
        yield from (_filled(said, inside), "")
    yield from (inside + line for line in section.code)
    for item in section.items:
        yield inside + item.term
        yield from (_filled(said, inside + _INDENT) for said in item.says)
    for each in section.sections:
        yield from _text(each, depth + 1)


def _filled(text: str, indent: str) -> str:
    return fill(text, _WIDTH, initial_indent=indent, subsequent_indent=indent,
                break_long_words=False, break_on_hyphens=False)  # fmt: skip


# ---- Markdown ------------------------------------------------------------------------------


def _markdown(section: Section, depth: int = 1) -> Iterator[str]:
    yield from ("", f"{'#' * depth} {section.title}", "")
    for said in section.says:
        yield from (_escaped(said), "")
    if section.code:
        yield from ("```", *section.code, "```")
    for item in section.items:
        yield f"- `{item.term}`" + (": " if item.says else "") + "; ".join(map(_escaped, item.says))
    for each in section.sections:
        yield from _markdown(each, depth + 1)


def _escaped(text: str) -> str:
    """Outside of backquotes, what Markdown would obey is set apart."""
    pieces = text.split("`")
    pieces[::2] = (re.sub(r"([\\*_<>\[\]|#])", r"\\\1", piece) for piece in pieces[::2])
    return "`".join(pieces)


# ---- Manual page ---------------------------------------------------------------------------


def _manual(whole: Section) -> Iterator[str]:
    yield f'.TH {whole.title.upper()} 1 "" "formsheet {__version__}"'
    yield from (".SH NAME", _roff(f"{whole.title} - {' '.join(whole.says).rstrip('.')}"))
    for each in whole.sections:
        yield from _manual_section(each, "SH")


def _manual_section(section: Section, heading: str) -> Iterator[str]:
    yield f'.{heading} "{_roff(section.title)}"'
    for said in section.says:
        yield from (".PP", _roff(said))
    if section.code:
        yield from (".PP", ".nf", *map(_roff, section.code), ".fi")
    for item in section.items:
        yield from (".TP", f"\\fB{_roff(item.term)}\\fR")
        for number, said in enumerate(item.says):
            if number:
                yield ".br"
            yield _roff(said)
        if not item.says:
            yield "\\&"
    for each in section.sections:
        yield from _manual_section(each, "SS")


#: What the macros would obey, or print as another sign.
_ROFF = str.maketrans(
    {"\\": "\\e", "-": "\\-", "'": "\\(aq", '"': "\\(dq", "`": "\\(ga", "^": "\\(ha",
     "~": "\\(ti"}
)  # fmt: skip


def _roff(text: str) -> str:
    """Text that the macros take as it is."""
    plain = text.translate(_ROFF)
    return f"\\&{plain}" if plain[:1] == "." else plain
