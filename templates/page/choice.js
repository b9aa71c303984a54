// What to play: the tune, a chorus, a lick, a join, or bars that the student taps.

const places = [
  { ...lesson.tune, name: "The whole tune", kind: "tune" },
  ...lesson.choruses.map((place) => ({ ...place, kind: "chorus" })),
  ...lesson.licks.map((place) => ({ ...place, kind: "lick" })),
  ...lesson.joins.map((place, number) => ({ ...place, kind: "join", number })),
];
const GROUPS = { chorus: "Choruses", lick: "Licks", join: "Moves and joins" };

function fillPlaces() {
  const groups = {};
  places.forEach((place, number) => {
    const where = place.where ? `, ${place.where}` : "";
    const option = new Option(place.name + where, number);
    if (place.kind === "tune") byId("what").append(option);
    else {
      groups[place.kind] ??= Object.assign(document.createElement("optgroup"), {
        label: GROUPS[place.kind],
      });
      groups[place.kind].append(option);
    }
  });
  byId("what").append(...Object.values(groups));
}

function barsName(first, last) {
  const [from, to] = [lesson.bars[first], lesson.bars[last]];
  const chorus = lesson.choruses.length ? ` of chorus ${to.chorus}` : "";
  if (first === last) return `Bar ${to.number}${chorus}`;
  const since = from.chorus === to.chorus ? "" : ` of chorus ${from.chorus}`;
  return `Bars ${from.number}${since} to ${to.number}${chorus}`;
}

// A tap or a drag plays; a handle or a key changes what plays, if it does.
function chooseBars(first, last, how) {
  setLoop(true);
  const plays = how === "tap" || how === "drag";
  choose({ first, last, kind: "bars", name: barsName(first, last) }, { plays });
  tell(`${barsName(first, last)}, round and round`);
}

function choose(place, { plays = false } = {}) {
  state.place = place;
  const number = places.indexOf(place);
  byId("what").querySelector("[value=range]")?.remove();
  if (number < 0) byId("what").append(new Option(place.name, "range"));
  byId("what").value = number < 0 ? "range" : number;
  sheet.show(place.kind === "tune" ? null : place);
  const cells = [place.first, place.last].map((index) => lesson.bars[index].cell);
  range.show(place.kind === "bars" ? cells : null);
  joins.choose(place.kind === "join" ? place.number : null);
  if (place.kind === "join") setTempo(joins.tempo(place.number));
  else if (place.kind === "lick") setTempo(lickTempo(place));
  else setPercent(mine.percent);
  showPractice();
  if (plays || player.playing) start();
}

function start() {
  player.play({
    excerpt: excerptOf(lesson, state.place.first, state.place.last),
    loops: mine.loops,
    countIn: Number(mine.countIn),
    countAgain: settings.countAgain,
    answers: settings.answers,
  });
}

function playPlace(place) {
  if (player.playing) player.stop();
  choose(place);
  if (place.kind !== "tune") setLoop(true);
  start();
}

// On to the next lick (`by`: 1) or back (-1), as from a headset; from elsewhere, to the first.
function nextLick(by) {
  const licks = places.filter((place) => place.kind === "lick");
  if (!licks.length) return;
  const at = licks.indexOf(state.place);
  playPlace(licks[at < 0 ? 0 : (at + by + licks.length) % licks.length]);
}
