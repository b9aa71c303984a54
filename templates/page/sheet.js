// The sheet: bars to choose, and the mark that follows the sound.

class Sheet {
  // `chosen`: called with the indices of the first and last bar that the student chose.
  constructor(lesson, root, chosen) {
    this.lesson = lesson;
    this.root = root;
    this.chosen = chosen;
    this.cells = [...root.querySelectorAll(".bar")];
    this.across = 1;
    this.anchor = null; // the bar of a first tap
    this.cursor = document.createElement("span");
    this.cursor.className = "cursor";
    // For each drawing, the bars of the tune (indices) that are played from it.
    this.played = this.cells.map(() => []);
    lesson.bars.forEach((bar, index) => this.played[bar.cell].push(index));
    this.focused = this.cells.findIndex((_, cell) => this.choosable(cell));
    if (this.cells[this.focused]) this.cells[this.focused].tabIndex = 0;
    this.cells.forEach((cell, number) => {
      cell.addEventListener("click", () => this.tap(number));
      cell.addEventListener("focus", () => this.rove(number));
    });
    root.addEventListener("keydown", (event) => this.key(event));
    // The space bar plays, on a bar as elsewhere; Enter chooses it.
    root.addEventListener("keyup", (event) => event.key === " " && event.preventDefault());
  }

  // A pick-up bar before the tune is part of bar 1.
  choosable(cell) {
    return this.lesson.bars[this.played[cell][0]].number > 0;
  }

  tap(number) {
    if (!this.choosable(number)) return;
    const first = this.anchor ?? number;
    this.anchor = this.anchor === null ? number : null;
    const [from, to] = first <= number ? [first, number] : [number, first];
    this.chosen(this.played[from][0], this.played[to][0]);
  }

  // Show the bars of a place; `open`: a second tap may still widen the choice.
  show(place, open) {
    if (!open) this.anchor = null;
    this.cells.forEach((cell, number) => {
      const inside =
        place !== null &&
        this.choosable(number) &&
        this.played[number].some((index) => index >= place.first && index <= place.last);
      cell.classList.toggle("within", inside);
      cell.setAttribute("aria-pressed", String(inside));
    });
  }

  rove(number) {
    this.cells[this.focused].tabIndex = -1;
    this.focused = number;
    this.cells[number].tabIndex = 0;
  }

  key(event) {
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
      cell.setAttribute("aria-label", before + named + after);
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
      if (cell) cell.querySelector(".ink").append(this.cursor);
      else this.cursor.remove();
    }
    if (cell) this.place(bars[index].moments, beat, smooth);
    return index;
  }

  place(moments, beat, smooth) {
    const at = Math.max(0, moments.findLastIndex((moment) => moment[0] <= beat + 1e-6));
    const [from, x] = moments[at];
    const [to, next] = moments[at + 1] ?? [from + 1, x];
    const share = smooth ? Math.min(Math.max((beat - from) / (to - from), 0), 1) : 0;
    this.cursor.style.setProperty("--note", `${(x * 100).toFixed(2)}%`);
    this.cursor.style.setProperty("--line", `${((x + (next - x) * share) * 100).toFixed(2)}%`);
    this.cursor.classList.toggle("rests", !this.struck(beat));
  }

  // Whether a note sounds at a beat.
  struck(beat) {
    return this.lesson.sound.guide.some(
      (note) => note.start <= beat + 1e-6 && beat < note.start + note.length,
    );
  }

  // Bring the marked bar into view, above what covers the foot of the window.
  reveal(covered, gently) {
    if (!this.marked || this.marked === this.revealed) return;
    this.revealed = this.marked;
    const box = this.marked.getBoundingClientRect();
    const room = window.innerHeight - covered;
    if (box.top >= 0 && box.bottom <= room) return;
    const top = window.scrollY + box.top - Math.max(0, (room - box.height) / 3);
    window.scrollTo({ top, behavior: gently ? "smooth" : "auto" });
  }
}
