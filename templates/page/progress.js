// What the student has reached, lick by lick: kept on this device, shown, written to a file,
// cleared.

const DAYS_KEPT = 400; // of a lick

class Progress {
  // `id`: of the lesson, so that pages from one disk do not mix.
  constructor(lesson, root) {
    this.lesson = lesson;
    this.name = `progress.${lesson.id}`;
    this.lines = [...root.querySelectorAll("[data-reached]")];
    this.licks = kept(this.name, {});
    // Another window with the same page.
    addEventListener("storage", ({ key }) => {
      if (key !== PREFIX + this.name) return;
      this.licks = kept(this.name, {});
      this.show();
    });
  }

  // A time round of a lick was played at a tempo (beats a minute).
  note(key, tempo) {
    const today = dayOf(new Date());
    const found = this.licks[key] ?? { reached: 0, days: [] };
    const reached = Math.max(found.reached, Math.round(tempo * 10) / 10);
    const days = [...new Set([...found.days, today])].sort().slice(-DAYS_KEPT);
    this.licks[key] = { reached, days };
    keep(this.name, this.licks);
    this.show();
  }

  get empty() {
    return Object.keys(this.licks).length === 0;
  }

  clear() {
    this.licks = {};
    keep(this.name, null);
    this.show();
  }

  words(key) {
    const found = this.licks[key];
    if (!found) return "";
    const { reached, days } = found;
    const often = days.length === 1 ? `on ${days[0]}` : `on ${days.length} days, last ${days.at(-1)}`;
    return `Reached ${Math.round(reached)} beats a minute · played ${often}`;
  }

  show() {
    for (const line of this.lines) {
      line.textContent = this.words(line.dataset.reached);
      line.hidden = !line.textContent;
    }
    byId("progress").hidden = this.empty;
  }

  // The file: a table that a spreadsheet opens, a line for each lick.
  table() {
    const quoted = (text) => `"${String(text).replaceAll('"', '""')}"`;
    const lines = this.lesson.licks
      .filter((lick) => this.licks[lick.key])
      .map((lick) => {
        const { reached, days } = this.licks[lick.key];
        return [document.title, lick.name, reached, this.lesson.facts.tempo, days.length,
          days[0], days.at(-1), days.join(" ")];
      });
    const head = ["tune", "lick", "reached (beats a minute)", "tempo of the tune", "days",
      "first day", "last day", "all days"];
    return [head, ...lines].map((line) => line.map(quoted).join(",")).join("\r\n") + "\r\n";
  }

  save() {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob(["\ufeff", this.table()], { type: "text/csv" }));
    link.download = `${document.title} - progress.csv`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  }
}

// The day on the student's own calendar, as 2031-05-04.
function dayOf(date) {
  const two = (number) => String(number).padStart(2, "0");
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
