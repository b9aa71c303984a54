"""The tune on its pages: a chorus stands on one page wherever that is possible.

Lengths are millimetres from the upper left corner within the margins.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

from formsheet.sheet.draw.look import Look
from formsheet.sheet.draw.measures import (
    CLEAR,
    DENSE,
    LARGE_SIZES,
    LEAST_HOLE,
    LEAST_LARGE,
    MID,
    SIZES,
    Measures,
)
from formsheet.sheet.draw.paper import Paper
from formsheet.sheet.draw.systems import ACROSS, Division, System, last_tab, systems
from formsheet.sheet.view import Chorus, HoleMark

TITLE_ROW = 7.4  # the title of a chorus, where there are several
MOST_GAP = 17.0  # largest extra space between two lines
LEAST_UPRIGHT = 22.0  # pt: with smaller figures, upright paper has two bars a line
BETWEEN = 4.0  # extra space between two choruses on a page


@dataclass(frozen=True, slots=True)
class Block:
    """A chorus with the bars of its last times that differ."""

    chorus: Chorus
    changed: tuple[Chorus, ...]
    division: Division

    @property
    def titled(self) -> bool:
        """Whether it has a title to print; without one it is the only chorus."""
        return bool(self.chorus.title)


@dataclass(frozen=True, slots=True)
class Title:
    """The title of a chorus and its place."""

    words: str
    note: str
    y: float


@dataclass(frozen=True, slots=True)
class FrontPage:
    """A page of the tune."""

    titles: tuple[Title, ...]
    lines: tuple[tuple[System, float], ...]  # with the top of each
    measures: Measures
    roomy: bool  # its head, if it is the first page, is a large one
    broken: bool = False  # a chorus begins here and ends on a later page
    number: int = 0  # of the pages of the tune, from 0


@dataclass(frozen=True, slots=True)
class Try:
    """One way to set a page."""

    measures: Measures
    roomy: bool  # a large head
    tight: bool = False  # empty lanes are low


_TIGHT = SIZES.index(DENSE)  # from here on, an empty lane may be low
_MIDDLE = SIZES.index(MID)
NORMAL = (
    *(Try(each, True) for each in SIZES[: _MIDDLE + 1]),
    *(Try(each, False) for each in SIZES[_MIDDLE:_TIGHT]),
    *(Try(each, False, tight) for each in SIZES[_TIGHT:] for tight in (False, True)),
)
LARGE = tuple(Try(each, True) for each in LARGE_SIZES)


@dataclass(frozen=True)
class FrontLayout:
    """Places choruses on the pages of one kind of paper."""

    paper: Paper
    look: Look
    large: bool
    #: The depth of a page's bars: `available(first, roomy)`, for the first page or a later one.
    available: Callable[[bool, bool], float]
    tries: tuple[Try, ...]  # from the largest setting to the smallest

    @property
    def least(self) -> float:
        """The least size (pt) of a figure."""
        return LEAST_LARGE if self.large else LEAST_HOLE

    def pages(self, choruses: Sequence[Chorus]) -> list[FrontPage]:
        """All pages of the tune, figures of one size on all of them."""
        made = self._pages(choruses)
        sizes = {page.measures.box for page in made}
        if len(sizes) == 1 or not made:
            return made
        smaller = tuple(each for each in self.tries if each.measures.box <= min(sizes))
        return replace(self, tries=smaller)._pages(choruses)

    def _pages(self, choruses: Sequence[Chorus]) -> list[FrontPage]:
        blocks = [
            Block(chorus, changed, self._division(chorus, changed))
            for chorus, changed in _parted(choruses)
        ]
        made: list[FrontPage] = []
        before: HoleMark | None = None
        while blocks:
            group, page = self._group(blocks, first=not made, before=before)
            made += page
            blocks = blocks[len(group) :]
            before = last_tab(
                [bar for each in group for line in each.chorus.lines for bar in line], before
            )
        return [replace(page, number=number) for number, page in enumerate(made)]

    def _group(
        self, blocks: Sequence[Block], *, first: bool, before: HoleMark | None
    ) -> tuple[Sequence[Block], list[FrontPage]]:
        """As many choruses as share the next page, set."""
        found = self._one_page(blocks[:1], first, before, self.tries)
        if found is None:
            return blocks[:1], self._several(blocks[0], first, before)
        group = blocks[:1]
        shared = [each for each in self.tries if each.measures.box >= MID.box]
        for count in range(2, len(blocks) + 1):
            wider = self._one_page(blocks[:count], first, before, shared)
            if wider is None:
                break
            group, found = blocks[:count], wider
        return group, [found]

    def _division(self, chorus: Chorus, changed: tuple[Chorus, ...]) -> Division:
        """The most bars a line with figures of the least size in one of the settings."""
        longest = max((len(line) for line in chorus.lines), default=1)
        half = self.large or self.paper.upright
        most = min(longest, ACROSS // 2 if half else ACROSS)
        divided = partial(Division, chorus, changed, room=self.paper.room, look=self.look)
        whole = divided(across=min(longest, ACROSS))
        if half and not self.large and whole.fits(MID, LEAST_UPRIGHT):
            return whole  # few notes: as many bars a line as on broad paper
        for across in range(most, 0, -1):
            if across == ACROSS - 1 < most:
                continue  # lines of four are halved
            division = divided(across=across)
            if any(division.fits(each.measures, self.least) for each in self.tries):
                break
        return division

    def _set(
        self, block: Block, each: Try, before: HoleMark | None, *, words: bool
    ) -> list[System] | None:
        """The lines of a chorus; None where its figures would be too small."""
        division = block.division
        if division.across > 1 and not division.fits(each.measures, self.least):
            return None
        return systems(
            division, each.measures, self.least, before, tight=each.tight, side_words=words
        )

    def _one_page(
        self, group: Sequence[Block], first: bool, before: HoleMark | None, tries: Sequence[Try]
    ) -> FrontPage | None:
        """These choruses on one page, as large as possible; None if they do not fit."""
        if self.large and len(group) == 1 and group[0].changed:
            return None  # the changed bars of large print have a page of their own
        for each in tries:
            room = self.available(first, each.roomy)
            sets = []
            entering = before
            for at, block in enumerate(group):
                lines = self._set(block, each, entering, words=at == 0)
                if lines is None:
                    break
                sets.append(lines)
                bars = [bar for line in block.chorus.lines for bar in line]
                entering = last_tab(bars, entering)
            if len(sets) == len(group) and _height(group, sets, first) <= room:
                return _placed(_titles(group, first), sets, each, room)
        return None

    def _several(self, block: Block, first: bool, before: HoleMark | None) -> list[FrontPage]:
        """A chorus on as few pages as possible, as large as they allow.

        Best it stands on one page, with the bars of its last times on the next.
        """
        found = [
            pages for each in self.tries if (pages := self._broken(block, each, first, before))
        ]
        whole = [pages for pages in found if not pages[0].broken]
        return min(whole or found, key=len)

    def _broken(
        self, block: Block, each: Try, first: bool, before: HoleMark | None
    ) -> list[FrontPage]:
        lines = self._set(block, each, before, words=True)
        if lines is None:
            return []
        own = [line for line in lines if not line.row.instead]
        instead = [line for line in lines if line.row.instead]
        title = TITLE_ROW if block.titled or not first else 0.0
        later = self.available(False, each.roomy) - TITLE_ROW
        rooms = [self.available(first, each.roomy) - title, later]
        pages = _divided(own, rooms)
        broken = len(pages) > 1
        if instead:
            joined = [*pages[-1], *instead]
            room = rooms[0] if len(pages) == 1 else rooms[1]
            if _lines_height(joined) <= room and not self.large:
                pages[-1] = joined
            else:
                pages += _divided(instead, [later, later])
        made = []
        for at, page in enumerate(pages):
            titles = _titles([block], first) if at == 0 else [(block.chorus.title, "continued")]
            room = self.available(first and at == 0, each.roomy)
            placed = _placed(titles, [page], each, room)
            made.append(replace(placed, broken=broken and at == 0))
        return made


def _parted(choruses: Sequence[Chorus]) -> Iterator[tuple[Chorus, tuple[Chorus, ...]]]:
    """Each chorus with the changed bars that follow it."""
    at = 0
    while at < len(choruses):
        end = at + 1
        while end < len(choruses) and choruses[end].places:
            end += 1
        yield choruses[at], tuple(choruses[at + 1 : end])
        at = end


def _lines_height(lines: Sequence[System]) -> float:
    steps = sum(one.step(other) for one, other in pairwise(lines))
    return steps + lines[-1].height if lines else 0.0


def _titles(group: Sequence[Block], first: bool) -> list[tuple[str, str] | None]:
    """Title and note over each chorus; a page after the first has a title in any case."""
    return [
        (block.chorus.title, block.chorus.note) if block.titled or (not first and at == 0) else None
        for at, block in enumerate(group)
    ]


def _height(group: Sequence[Block], sets: Sequence[Sequence[System]], first: bool) -> float:
    titles = TITLE_ROW * sum(title is not None for title in _titles(group, first))
    return titles + sum(map(_lines_height, sets)) + (CLEAR + BETWEEN) * (len(sets) - 1)


def _placed(
    titles: Sequence[tuple[str, str] | None],
    sets: Sequence[Sequence[System]],
    each: Try,
    room: float,
) -> FrontPage:
    """The lines of a page with their places: spare room is shared between them."""
    used = TITLE_ROW * sum(title is not None for title in titles)
    used += sum(map(_lines_height, sets)) + (CLEAR + BETWEEN) * (len(sets) - 1)
    extra = max(0.0, min(MOST_GAP, (room - used) / max(1, sum(map(len, sets)))))
    made, lines = [], []
    y = 0.0
    for at, (title, found) in enumerate(zip(titles, sets, strict=True)):
        if at:
            y += BETWEEN
        if title is not None:
            made.append(Title(*title, y))
            y += TITLE_ROW
        for line, following in zip(found, [*found[1:], None], strict=True):
            lines.append((line, y))
            y += extra + (line.step(following) if following else line.height + CLEAR)
    return FrontPage(tuple(made), tuple(lines), each.measures, each.roomy)


def _divided(lines: Sequence[System], rooms: Sequence[float]) -> list[list[System]]:
    """Lines page by page: on two pages broken at a line of the form, in the middle if possible.

    `rooms`: the depth of the first page and of the others.
    """
    first, later = rooms
    if _lines_height(lines) <= first:
        return [list(lines)]
    breaks = [
        at
        for at in range(1, len(lines))
        if _lines_height(lines[:at]) <= first and _lines_height(lines[at:]) <= later
    ]
    if breaks:
        at = min(
            breaks, key=lambda at: (not lines[at].row.starts_line, abs(2 * at - len(lines)), -at)
        )
        return [list(lines[:at]), list(lines[at:])]
    taken = 1
    while taken < len(lines) and _lines_height(lines[: taken + 1]) <= first:
        taken += 1
    starts = [at for at in range(1, taken + 1) if at < len(lines) and lines[at].row.starts_line]
    if starts and starts[-1] * 2 > taken:
        taken = starts[-1]
    return [list(lines[:taken]), *_divided(lines[taken:], [later, later])]
