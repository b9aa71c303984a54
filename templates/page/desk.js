// What the other parts of the page share: the lesson, the settings, the player, the sheet.

const lesson = JSON.parse(document.getElementById("lesson").textContent);
const byId = (id) => document.getElementById(id);
const calm = matchMedia("(prefers-reduced-motion: reduce)");

const settings = kept("settings", {
  guide: 80, band: 50, clicks: 40, countAgain: false, follow: true, across: "0", paper: "device",
});
const mine = kept(`lesson.${lesson.id}`, {
  percent: 100, harp: null, countIn: lesson.facts.countIn, loops: false, steps: {}, licks: {},
});
const state = { place: null, frame: 0, sounding: 0 };

const player = new Player(lesson, { begun: showPlaying, ended: showPlaying });
const sheet = new Sheet(lesson, byId("sheet"), chooseBars);
const ahead = new Ahead(lesson, sheet);
const joins = new Joins(lesson, document, mine.steps);
