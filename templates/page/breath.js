// The coming turn of breath: a sign at the note with which it turns, shown before it sounds.

const TURN_AHEAD = 2; // beats before it sounds

class BreathSign {
  constructor(lesson, sheet) {
    this.lesson = lesson;
    this.sheet = sheet;
    this.signs = [];
    this.shown = null;
  }

  // The turns of what is played: notes of the guide that ask for the other breath than the one
  // before them; the first of a loop follows the last.
  turnsOf(excerpt, loops) {
    const notes = excerpt.events.filter((event) => event.voice === "guide");
    return notes.filter((note, at) => {
      const before = at ? notes[at - 1] : loops && !note.once && notes.at(-1);
      return !before || before.breath !== note.breath;
    });
  }

  // Show the turn that comes within the next beats, if any.
  show(beat, wish) {
    if (this.of !== wish.excerpt || this.loops !== wish.loops) {
      [this.of, this.loops] = [wish.excerpt, wish.loops];
      this.turns = this.turnsOf(wish.excerpt, wish.loops);
    }
    const { excerpt, loops } = wish;
    const period = excerpt.end + excerpt.rest - excerpt.start;
    const comes = (note) => {
      const away = note.start - beat;
      return away <= 1e-6 && loops ? away + period : away;
    };
    const next = this.turns.find((note) => comes(note) > 1e-6 && comes(note) <= TURN_AHEAD) ?? null;
    if (next === this.shown && this.version === this.sheet.version && this.standing()) return;
    this.clear();
    [this.shown, this.version] = [next, this.sheet.version];
    if (next) this.place(next);
  }

  // Whether the sign is where it was put, for copies of bars come and go.
  standing() {
    return !this.shown || document.querySelectorAll(".again").length === this.copies;
  }

  place(note) {
    const { bars } = this.lesson;
    const index = Math.max(0, bars.findLastIndex((bar) => bar.start <= note.start + 1e-6));
    const { cell } = bars[index];
    const spot = this.sheet.spot(index, note.start);
    this.copies = document.querySelectorAll(".again").length;
    const copies = document.querySelectorAll(`.again [data-copy="${cell}"]`);
    const arrow = note.breath === "blow" ? "↑" : "↓";
    for (const bar of [this.sheet.cells[cell], ...copies]) {
      this.signs.push(
        this.sheet.sign(bar, spot, "turning", note.breath, `${arrow} ${note.breath}`, arrow));
    }
  }

  clear() {
    for (const sign of this.signs) sign.remove();
    this.signs = [];
    this.shown = null;
  }
}
