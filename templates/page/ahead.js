// Reading ahead: the line that sounds and the one that comes next are in view together. Lines
// stand still; the window moves by whole lines. Where the next line stands elsewhere on the page
// (a loop returns, a chorus begins again), a copy of it is set below the one that sounds.

class Ahead {
  constructor(lesson, sheet) {
    this.lesson = lesson;
    this.sheet = sheet;
    this.copy = null;
    this.seen = "";
  }

  // The bar (index) that is played after another; -1: none.
  after(index, { excerpt, loops }) {
    if (index < excerpt.last) return index + 1;
    return loops ? excerpt.first : -1;
  }

  // The first bar to be played that stands in another row than bar `index`; -1: none.
  beyond(index, wish) {
    const { sheet } = this;
    const row = sheet.rowOf(index);
    let next = this.after(index, wish);
    for (let left = wish.excerpt.last - wish.excerpt.first + 1; left > 0 && next >= 0; left -= 1) {
      if (sheet.rowOf(next) !== row) return next;
      next = this.after(next, wish);
    }
    return -1;
  }

  // Bar `index` sounds, or is the first to sound: have it and what follows in view, above the dock.
  // Called for each frame: heights are asked for only when something else is to be shown.
  show(index, wish, dock) {
    const { sheet } = this;
    const row = sheet.rowOf(index);
    const next = this.beyond(index, wish);
    const seen = [row, next < 0 ? -1 : sheet.rowOf(next), sheet.version].join();
    if (seen === this.seen) return;
    this.clear();
    this.seen = seen;
    const room = window.innerHeight - dock.offsetHeight;
    let boxes = [sheet.boxOf(row)];
    if (next >= 0) {
      const after = sheet.boxOf(sheet.rowOf(next));
      if (heightOf([...boxes, after]) <= room) boxes.push(after);
      else boxes.push(this.setCopy(row, next, wish));
    }
    const whole = this.rowsOf(wish).map((each) => sheet.boxOf(each));
    if (heightOf([...whole, ...boxes]) <= room) boxes = [...whole, ...boxes];
    const top = Math.min(...boxes.map((box) => box.top));
    const bottom = Math.max(...boxes.map((box) => box.bottom));
    if (top >= -1 && bottom <= room + 1) return;
    window.scrollTo({ top: Math.max(0, Math.floor(window.scrollY + top)), behavior: "instant" });
  }

  // The rows of all that is played.
  rowsOf({ excerpt }) {
    const rows = new Set();
    for (let index = excerpt.first; index <= excerpt.last; index += 1) {
      rows.add(this.sheet.rowOf(index));
    }
    return [...rows];
  }

  // A copy of the row of bar `next`, from that bar on, below a row; gives its box.
  setCopy(row, next, wish) {
    const { sheet, lesson } = this;
    const bars = [next];
    while (bars.length < sheet.across) {
      const index = this.after(bars.at(-1), wish);
      if (index < 0 || sheet.rowOf(index) !== sheet.rowOf(next) || index <= bars.at(-1)) break;
      bars.push(index);
    }
    const copy = document.createElement("div");
    copy.className = "again";
    copy.inert = true;
    copy.setAttribute("aria-hidden", "true");
    const caption = document.createElement("p");
    const { number } = lesson.bars[next];
    caption.textContent = number ? `Then bar ${number}` : "Then from the pick-up";
    copy.append(caption);
    for (const index of bars) {
      const { cell } = lesson.bars[index];
      const bar = sheet.cells[cell].cloneNode(true);
      bar.dataset.copy = cell;
      for (const name of ["data-bar", "aria-current", "aria-pressed"]) bar.removeAttribute(name);
      bar.classList.remove("sounding", "within");
      bar.querySelectorAll(".cursor, .turning").forEach((each) => each.remove());
      copy.append(bar);
    }
    sheet.cells[sheet.rows[row].numbers.at(-1)].after(copy);
    this.copy = copy;
    return copy.getBoundingClientRect();
  }

  clear() {
    this.copy?.remove();
    this.copy = null;
    this.seen = "";
  }
}

function heightOf(boxes) {
  const tops = boxes.map((box) => box.top);
  return Math.max(...boxes.map((box) => box.bottom)) - Math.min(...tops);
}
