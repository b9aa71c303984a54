// What the other parts of the page share: the lesson, the settings, the player, the sheet.

const lesson = JSON.parse(document.getElementById("lesson").textContent);
const byId = (id) => document.getElementById(id);
const calm = matchMedia("(prefers-reduced-motion: reduce)");

const settings = kept("settings", {
  guide: 80, band: 50, clicks: 40, countAgain: false, answers: false, stepEvery: 0, checkWith: "clicks", follow: true, across: "0", paper: "device",
});
const mine = kept(`lesson.${lesson.id}`, {
  percent: 100, harp: null, countIn: lesson.facts.countIn, loops: false, steps: {}, licks: {},
});
const state = { place: null, frame: 0, sounding: 0 };

const player = new Player(lesson, { begun: showPlaying, ended: showPlaying, again: roundOver, over: notePlayed,
  due: (event, when, seconds) => selfCheck.expect(event, when, seconds),
});
const sheet = new Sheet(lesson, byId("sheet"));
const range = new BarRange(lesson, sheet, chooseBars);
const ahead = new Ahead(lesson, sheet);
const breath = new BreathSign(lesson, sheet);
const progress = new Progress(lesson, document);
const joins = new Joins(lesson, document, mine.steps);
const alone = new Alone(() => {
  if (!player.playing) return;
  player.stop();
  tell("Stopped: another page plays");
});
const handsFree = new HandsFree({
  play: () => player.playing || start(),
  stop: () => player.stop(),
  lick: nextLick,
});
