// The sheet: bars to choose, and the mark that follows the sound.

const LEAST_BAR = 230; // CSS pixels: room for a chord, a letter and a few letters of a title

class Sheet {
  constructor(lesson, root) {
    this.lesson = lesson;
    this.root = root;
    this.cells = [...root.querySelectorAll(".bar")];
    this.across = 1;
    this.version = 0; // of the layout
    this.standing = null;
    this.cursor = document.createElement("span");
    this.cursor.className = "cursor";
    // For each drawing, the bars of the tune (indices) that are played from it.
    this.played = this.cells.map(() => []);
    lesson.bars.forEach((bar, index) => this.played[bar.cell].push(index));
    this.focused = this.cells.findIndex((_, cell) => this.choosable(cell));
    if (this.cells[this.focused]) this.cells[this.focused].tabIndex = 0;
    this.cells.forEach((cell, number) => {
      cell.addEventListener("focus", () => this.rove(number));
    });
    root.addEventListener("keydown", (event) => this.key(event));
    // The space bar plays, on a bar as elsewhere; Enter chooses it.
    root.addEventListener("keyup", (event) => event.key === " " && event.preventDefault());
  }

  // How many bars of this width (CSS pixels) stand side by side with figures that can be read.
  most(width) {
    const { cells } = this.lesson;
    const least = Math.max(LEAST_BAR, ...cells.map((each, at) => this.choosable(at) ? each.least : 0));
    return [4, 2].find((across) => width / across >= least) ?? 1;
  }

  // Show so many bars side by side in a width: of each drawing what its line needs, and in two
  // halves (`folds`) where the whole would be too small. Gives CSS pixels a millimetre of the
  // smallest drawing.
  fit(across, width, folds) {
    this.across = across;
    this.version += 1;
    this.standing = null;
    let smallest = Infinity;
    this.cells.forEach((cell, number) => {
      const { width: wide, least, fold, windows } = this.lesson.cells[number];
      const [top, high] = windows[across];
      const halves = folds && fold && across === 1 && width < least;
      const parts = halves ? [[0, fold], [fold, wide - fold]] : [[0, wide]];
      const ink = cell.querySelector(".ink");
      const scale = Math.min(least / wide, width / Math.max(fold, wide - fold));
      if (this.choosable(number)) {
        smallest = Math.min(smallest, halves ? scale : width / across / wide);
      }
      cell.classList.toggle("folded", halves);
      const shown = [...ink.querySelectorAll(".part")];
      if (shown.length > parts.length) shown.pop().remove();
      else if (shown.length < parts.length) {
        const half = document.createElement("span");
        half.className = "part";
        half.append(shown[0].querySelector("svg").cloneNode(true));
        ink.append(half);
        shown.push(half);
      }
      shown.forEach((part, at) => {
        const [left, length] = parts[at];
        const lip = halves ? 0.2 : 0; // half a bar line
        part.querySelector("svg").setAttribute(
          "viewBox", `${left - (at ? 0 : lip)} ${top} ${length + lip} ${high}`);
        part.style.width = halves ? `${scale * length}px` : "";
      });
      cell.folds = parts.map(([left, length]) => [left / wide, length / wide]);
    });
    return smallest;
  }

  // The rows of bars as they stand in the document, measured once for each layout.
  get rows() {
    this.standing ??= rowsOf(this.cells);
    return this.standing;
  }

  // The row in which a bar (index) stands.
  rowOf(index) {
    const { cell } = this.lesson.bars[index];
    return this.rows.findIndex((row) => row.numbers.includes(cell));
  }

  // Where a row stands in the window now.
  boxOf(row) {
    const boxes = this.rows[row].numbers.map((each) => this.cells[each].getBoundingClientRect());
    return {
      top: Math.min(...boxes.map((box) => box.top)),
      bottom: Math.max(...boxes.map((box) => box.bottom)),
    };
  }

  // A pick-up bar before the tune is part of bar 1.
  choosable(cell) {
    return this.lesson.bars[this.played[cell][0]].number > 0;
  }

  // Show the bars of a place.
  show(place) {
    this.tint((number) => place !== null && this.choosable(number) &&
      this.played[number].some((index) => index >= place.first && index <= place.last));
  }

  // Show which bars (their numbers on the page) are played.
  tint(inside) {
    this.cells.forEach((cell, number) => {
      const within = inside(number);
      cell.classList.toggle("within", within);
      cell.setAttribute("aria-pressed", String(within));
    });
  }

  rove(number) {
    this.cells[this.focused].tabIndex = -1;
    this.focused = number;
    this.cells[number].tabIndex = 0;
  }

  key(event) {
    if (!event.target.matches(".bar")) return;
    if (event.shiftKey || event.ctrlKey || event.metaKey || event.altKey) return;
    const step = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -this.across, ArrowDown: this.across };
    const edge = { Home: 0, End: this.cells.length - 1 };
    let to = edge[event.key];
    if (event.key in step) to = this.focused + step[event.key];
    if (to === undefined) return;
    event.preventDefault();
    to = Math.min(Math.max(to, 0), this.cells.length - 1);
    if (!this.choosable(to)) to = Math.max(this.focused, 1);
    this.cells[to].focus();
  }

  // Chords named for a harp, on the bars and in what a screen reader says.
  name(harp) {
    for (const letter of this.root.querySelectorAll("[data-letter]")) {
      letter.textContent = harp.letters[letter.dataset.letter];
    }
    this.cells.forEach((cell, number) => {
      const { before, chords, after } = this.lesson.spoken[number];
      const named = chords.map((numeral) => harp.spoken[numeral]).join(", then ");
      cell.querySelector("[data-spoken]").textContent = before + named + after;
    });
  }

  // Mark what sounds at a beat of the tune; null: nothing does. Gives the bar's index.
  mark(beat, smooth) {
    const { bars } = this.lesson;
    const index = beat === null ? -1 : Math.max(0, bars.findLastIndex((bar) => bar.start <= beat));
    const cell = this.cells[bars[index]?.cell];
    if (cell !== this.marked) {
      this.marked?.removeAttribute("aria-current");
      this.marked?.classList.remove("sounding");
      this.marked = cell;
      cell?.setAttribute("aria-current", "true");
      cell?.classList.add("sounding");
      if (!cell) this.cursor.remove();
    }
    if (cell) this.place(cell, bars[index].moments, beat, smooth);
    return index;
  }

  place(cell, moments, beat, smooth) {
    const at = Math.max(0, moments.findLastIndex((moment) => moment[0] <= beat + 1e-6));
    const [from, x] = moments[at];
    const [to, next] = moments[at + 1] ?? [from + 1, x];
    const share = smooth ? Math.min(Math.max((beat - from) / (to - from), 0), 1) : 0;
    const folds = cell.folds ?? [[0, 1]];
    const half = Math.max(0, folds.findLastIndex(([left]) => left <= x));
    const part = cell.querySelectorAll(".part")[half];
    if (this.cursor.parentElement !== part) part.append(this.cursor);
    const [left, length] = folds[half];
    const place = (name, value) => {
      const inside = Math.min((value - left) / length, 1);
      this.cursor.style.setProperty(name, `${(inside * 100).toFixed(2)}%`);
    };
    place("--note", x);
    place("--till", next);
    place("--line", x + (next - x) * share);
    this.cursor.classList.toggle("rests", !this.struck(beat));
  }

  // The place of a beat in a drawing that plays bar `index`: the part of it (from 0, where it is
  // broken in two), how far along that, and how wide the note is there: shares of it, 0 to 1.
  spot(index, beat) {
    const { cell, moments } = this.lesson.bars[index];
    const at = Math.max(0, moments.findLastIndex((moment) => moment[0] <= beat + 1e-6));
    const folds = this.cells[cell].folds ?? [[0, 1]];
    const half = Math.max(0, folds.findLastIndex(([left]) => left <= moments[at][1]));
    const [left, length] = folds[half];
    const x = moments[at][1];
    const till = Math.min(moments[at + 1]?.[1] ?? 1, left + length);
    return { half, share: (x - left) / length, wide: (till - x) / length };
  }

  // Put a sign to a note, on the side of the comb that its breath leaves free: `long` where that
  // is no wider than the note, else `short`.
  sign(cell, { half, share, wide }, kind, breath, long, short) {
    const sign = document.createElement("span");
    sign.className = `${kind} at-${breath}`;
    sign.textContent = long;
    sign.style.setProperty("--place", `${(share * 100).toFixed(2)}%`);
    const part = cell.querySelectorAll(".part")[half];
    part.append(sign);
    if (sign.offsetWidth > wide * part.offsetWidth) sign.textContent = short;
    return sign;
  }

  // Whether a note sounds at a beat.
  struck(beat) {
    return this.lesson.sound.guide.some(
      (note) => note.start <= beat + 1e-6 && beat < note.start + note.length,
    );
  }
}
