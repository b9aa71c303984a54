// The range of bars that is played: a tap on a bar, a drag from bar to bar, two handles, keys.

class BarRange {
  // `chosen`: called with the indices of the first and last bar, and how they were chosen: "tap",
  // "drag", "handle" or "key".
  constructor(lesson, sheet, chosen) {
    this.lesson = lesson;
    this.sheet = sheet;
    this.chosen = chosen;
    this.cells = null; // the first and the last drawing of a range; null: there is none
    this.handles = ["First bar", "Last bar"].map((name, end) => this.handle(name, end));
    sheet.root.append(...this.handles);
    sheet.cells.forEach((cell, number) => {
      cell.addEventListener("click", () => this.tap(number));
      cell.addEventListener("pointerdown", (event) => this.press(event, number));
    });
    sheet.root.addEventListener("keydown", (event) => this.key(event));
  }

  handle(name, end) {
    const made = document.createElement("div");
    made.className = `handle ${end ? "end" : "start"}`;
    made.tabIndex = 0;
    made.hidden = true;
    made.setAttribute("role", "slider");
    made.setAttribute("aria-label", name);
    made.addEventListener("pointerdown", (event) => {
      event.preventDefault();
      made.focus();
      this.drag(event, made, (number) => this.moved(end, number), () => this.settle("handle"));
    });
    return made;
  }

  tap(number) {
    if (this.dragged) {
      this.dragged = false; // the click that ends a drag
      return;
    }
    if (this.sheet.choosable(number)) this.settle("tap", [number, number]);
  }

  // A mouse or a pen draws a range; a finger scrolls the page, and has the handles.
  press(event, number) {
    this.dragged = false;
    if (event.pointerType === "touch" || event.button !== 0 || !this.sheet.choosable(number)) return;
    let range = null;
    this.drag(
      event, this.sheet.cells[number],
      (over) => {
        if (over === number && !range) return;
        range = [Math.min(number, over), Math.max(number, over)];
        this.show(range);
      },
      () => {
        if (!range) return;
        this.dragged = true;
        setTimeout(() => { this.dragged = false; }, 0);
        this.settle("drag", range);
      },
    );
  }

  // Follow a pointer from bar to bar until it is let go.
  drag(event, target, over, done) {
    const { pointerId } = event;
    const move = (moved) => {
      if (moved.pointerId !== pointerId) return;
      const number = this.barAt(moved.clientX, moved.clientY);
      if (number !== null) over(number);
    };
    const end = (ended) => {
      if (ended.pointerId !== pointerId) return;
      for (const name of ["pointerup", "pointercancel"]) removeEventListener(name, end);
      removeEventListener("pointermove", move);
      done();
    };
    addEventListener("pointermove", move);
    for (const name of ["pointerup", "pointercancel"]) addEventListener(name, end);
  }

  // The bar (its number on the page) at a point of the window, or null.
  barAt(x, y) {
    const bar = document.elementsFromPoint(x, y).find((each) => each.matches(".bar[data-bar]"));
    const number = bar ? Number(bar.dataset.bar) : -1;
    return number >= 0 && this.sheet.choosable(number) ? number : null;
  }

  // One end of the range is now at a bar; the ends never pass each other.
  moved(end, number) {
    const range = [...this.cells];
    range[end] = end ? Math.max(number, range[0]) : Math.min(number, range[1]);
    this.show(range);
  }

  settle(how, cells = this.cells) {
    const { played } = this.sheet;
    this.chosen(played[cells[0]][0], played[cells[1]][0], how);
  }

  key(event) {
    const end = this.handles.indexOf(event.target);
    const step = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (end >= 0 && step && !event.shiftKey) this.move(end, step);
    else if (end < 0 && event.shiftKey && event.key === "Enter") this.reach(this.sheet.focused);
    else if (end < 0 && event.shiftKey && ["ArrowLeft", "ArrowRight"].includes(event.key)) {
      const to = this.sheet.focused + step;
      if (!this.sheet.cells[to] || !this.sheet.choosable(to)) return;
      if (!this.cells) this.show([this.sheet.focused, this.sheet.focused]);
      this.sheet.cells[to].focus();
      this.reach(to);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  }

  move(end, step) {
    const to = this.cells[end] + step;
    if (!this.sheet.cells[to] || !this.sheet.choosable(to)) return;
    this.moved(end, to);
    this.settle("handle");
  }

  // The nearer end of the range, or the one that is passed, comes to a bar.
  reach(number) {
    if (!this.cells) this.cells = [number, number];
    const [first, last] = this.cells;
    const ends = number <= first || number - first < last - number ? [number, last] : [first, number];
    this.settle("key", ends);
  }

  // Show a range of drawings with its handles; null: there is none.
  show(cells) {
    this.cells = cells;
    this.handles.forEach((each) => { each.hidden = !cells; });
    if (!cells) return;
    this.sheet.tint((number) => number >= cells[0] && number <= cells[1]);
    const all = [...this.sheet.cells.keys()].filter((each) => this.sheet.choosable(each));
    this.handles.forEach((handle, end) => {
      const at = cells[end];
      handle.setAttribute("aria-valuemin", 1);
      handle.setAttribute("aria-valuemax", all.length);
      handle.setAttribute("aria-valuenow", all.indexOf(at) + 1);
      handle.setAttribute("aria-valuetext", barsName(this.sheet.played[at][0], this.sheet.played[at][0]));
    });
    this.stand();
  }

  // Put the handles to the ends of the range, after a change of the layout.
  stand() {
    if (!this.cells) return;
    const sheet = this.sheet.root.getBoundingClientRect();
    this.handles.forEach((handle, end) => {
      const bar = this.sheet.cells[this.cells[end]].getBoundingClientRect();
      const x = (end ? bar.right : bar.left) - sheet.left;
      handle.style.left = `${Math.min(Math.max(x, 12), sheet.width - 12)}px`;
      handle.style.top = `${bar.bottom - sheet.top}px`;
    });
  }
}
