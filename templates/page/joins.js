// Joins and hard moves practised one by one: each has a ladder of tempos, and the step that the student is on.

class Joins {
  // `steps`: for each join, by its key, the step it was left on.
  constructor(lesson, root, steps) {
    this.joins = lesson.joins;
    this.rows = [...root.querySelectorAll("[data-join]")];
    this.steps = steps;
    this.current = null;
    this.joins.forEach((_, number) => this.show(number));
  }

  step(number) {
    const join = this.joins[number];
    return Math.min(this.steps[join.key] ?? 0, join.ladder.length - 1);
  }

  tempo(number) {
    return this.joins[number].ladder[this.step(number)];
  }

  // Up a step or down; gives whether there was one.
  move(number, by) {
    const before = this.step(number);
    const after = Math.min(Math.max(before + by, 0), this.joins[number].ladder.length - 1);
    this.steps[this.joins[number].key] = after;
    this.show(number);
    return after !== before;
  }

  choose(number) {
    this.current = number;
    this.rows.forEach((row, each) => row.classList.toggle("current", each === number));
  }

  show(number) {
    const row = this.rows[number];
    const { ladder } = this.joins[number];
    const step = this.step(number);
    [...row.querySelectorAll(".ladder span")].forEach((rung, each) => {
      rung.classList.toggle("done", each < step);
      rung.classList.toggle("at", each === step);
    });
    row.querySelector("[data-details]").textContent =
      `Step ${step + 1} of ${ladder.length}: ${ladder[step]} beats a minute`;
  }
}
