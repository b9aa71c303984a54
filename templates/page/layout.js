// The layout: how many bars stand side by side, and how wide, so that the line that sounds and
// the one after it are whole in the window together.

const CAPTION = 26; // CSS pixels: what stands over a copy of the next line
const TRIES = 7; // halvings of the width in search of the widest that fits
const LEAST_SHARE = 0.2; // of the width: bars are not made smaller than that
const LEAST_WHOLE = 2.4; // CSS pixels a millimetre: smaller, the figures of holes cannot be read
const TIGHT = 200; // CSS pixels: narrower bars have no room for a title

// The rows of bars as they stand: top and bottom in CSS pixels of the document, and which bars
// (their numbers on the page).
function rowsOf(cells) {
  const rows = [];
  for (const [number, cell] of cells.entries()) {
    const box = cell.getBoundingClientRect();
    const [top, bottom] = [box.top + window.scrollY, box.bottom + window.scrollY];
    const last = rows.at(-1);
    if (last && Math.abs(last.bottom - bottom) < 2 && last.line === cell.parentElement) {
      last.top = Math.min(last.top, top);
      last.numbers.push(number);
    } else rows.push({ top, bottom, line: cell.parentElement, numbers: [number] });
  }
  return rows;
}

// The height that any two rows take that may follow each other, the last and the first too: where
// they stand apart, or a heading between them, a copy of the second stands below the first.
function heightOfTwo(rows) {
  const heights = rows.map((row) => row.bottom - row.top).sort((one, other) => other - one);
  return heights.length < 2 ? heights[0] ?? 0 : heights[0] + heights[1] + CAPTION;
}

// The height of the tallest chorus: the rows between two headings.
function heightOfChorus(rows) {
  let [tallest, top] = [0, 0];
  rows.forEach((row, at) => {
    const before = rows[at - 1];
    if (!before || before.line.nextElementSibling?.matches("h3") && before.line !== row.line) {
      top = row.top;
    }
    tallest = Math.max(tallest, row.bottom - top);
  });
  return tallest;
}

// Lay the sheet out in a room (CSS pixels) above the player. `asked`: bars side by side, 0: as
// many as fit; `whole`: all bars of a chorus are to be in view if they can be read then.
function layOut(sheet, room, asked, whole) {
  const { root } = sheet;
  root.style.maxWidth = "";
  const width = root.clientWidth;
  const tried = (across, wide, folds) => {
    root.style.maxWidth = wide < width ? `${Math.floor(wide)}px` : "";
    document.documentElement.dataset.across = across;
    document.documentElement.classList.toggle("shrunk", wide < width);
    document.documentElement.classList.toggle("tight", wide / across < TIGHT);
    return sheet.fit(across, Math.min(Math.floor(wide), width), folds);
  };
  const fits = (height) => height(rowsOf(sheet.cells)) <= room;
  const first = asked || sheet.most(width);
  const best = widest(tried, fits, heightOfTwo, asked ? [first] : [first, 2, 4], width);
  let [across, wide, folds] = [best.across, best.wide, best.folds];
  if (whole) {
    const all = widest(tried, fits, heightOfChorus, asked ? [first] : [4, 2], width);
    if (all.fits && all.scale >= LEAST_WHOLE) [across, wide, folds] = [all.across, all.wide, all.folds];
  }
  tried(across, wide, folds);
}

// The way of laying out that fits and shows bars the largest.
function widest(tried, fits, height, acrosses, width) {
  let best = { scale: 0, across: acrosses[0], wide: width * LEAST_SHARE, folds: false, fits: false };
  const consider = (across, wide, folds) => {
    const scale = tried(across, wide, folds);
    if (!fits(height)) return false;
    // Of two that are about as large, the one with more bars side by side.
    if (scale > best.scale * (across > best.across ? 0.95 : 1.02)) {
      best = { scale, across, wide, folds, fits: true };
    }
    return true;
  };
  for (const across of new Set(acrosses)) {
    for (const folds of across === 1 ? [true, false] : [false]) {
      if (consider(across, width, folds)) {
        if (across === acrosses[0]) return best;
        continue;
      }
      let [least, most] = [width * LEAST_SHARE, width];
      for (let turn = 0; turn < TRIES; turn += 1) {
        const middle = (least + most) / 2;
        if (consider(across, middle, folds)) least = middle;
        else most = middle;
      }
    }
  }
  return best;
}
