// How fast: the tempo, and the ladder of the join that is practised.

const TEMPO_STEP = 4; // per cent, of a press
const [SLOWEST, FASTEST] = [40, 120]; // per cent

function percentOf(tempo) {
  return (100 * tempo) / lesson.facts.tempo;
}

function setTempo(tempo) {
  player.setTempo(tempo);
  const percent = Math.round(percentOf(tempo));
  const slider = byId("tempo");
  slider.min = Math.min(SLOWEST, percent);
  slider.value = percent;
  const words = `${Math.round(tempo)} beats a minute, ${percent} per cent`;
  slider.setAttribute("aria-valuetext", words);
  byId("tempo-words").textContent = `${Math.round(tempo)} · ${percent}%`;
}

// A lick has a tempo of its own: the one it was left at, at first the one at which it is easy.
function lickTempo(place) {
  const percent = mine.licks[place.key];
  return percent ? (lesson.facts.tempo * percent) / 100 : place.start;
}

function setPercent(percent) {
  const place = state.place;
  const lick = place?.kind === "lick";
  const least = Math.min(SLOWEST, percentOf(lick ? place.start : lesson.facts.start));
  const bounded = Math.min(Math.max(percent || 100, least), FASTEST);
  setTempo((lesson.facts.tempo * bounded) / 100);
  if (joins.current === null) {
    if (lick) mine.licks[place.key] = bounded;
    else mine.percent = bounded;
    remember();
  }
}

function nudge(steps) {
  setPercent(Number(byId("tempo").value) + steps * TEMPO_STEP);
  tell(byId("tempo").getAttribute("aria-valuetext"));
}

function showPractice() {
  const practising = joins.current !== null;
  byId("practice").hidden = !practising;
  document.documentElement.classList.toggle("practising", practising);
  if (!player.playing) showReady();
}

// Where the student is on the ladder of a join.
function ladderWords(number) {
  const { ladder } = lesson.joins[number];
  const left = ladder.length - 1 - joins.step(number);
  return left ? `At ${joins.tempo(number)}, on the way to ${ladder.at(-1)}` : "At the tempo of the tune";
}

function judge(by) {
  const number = joins.current;
  const moved = joins.move(number, by);
  setTempo(joins.tempo(number));
  remember();
  showPractice();
  const tempo = `${joins.tempo(number)} beats a minute`;
  if (moved) tell(by > 0 ? `A step faster: ${tempo}` : `A step slower: ${tempo}`);
  else tell(by > 0 ? "That is the tempo of the tune. On to the next join." : `Stay at ${tempo}`);
}

// A time round is over; one of a lick counts as progress. By the student's wish the tempo goes up by itself after so many, on from
// whatever tempo sounds; a call and its answer count as one.
function roundOver(rounds) {
  notePlayed();
  const done = settings.answers ? rounds / 2 : rounds;
  if (!Number.isInteger(done)) return;
  const every = Number(settings.stepEvery);
  if (every && done % every === 0) stepUp();
}

// A time round of a lick counts at the slowest tempo that it had.
function notePlayed() {
  if (state.place.kind === "lick") progress.note(state.place.key, player.slowest);
}

function stepUp() {
  const number = joins.current;
  if (number !== null) {
    const rung = lesson.joins[number].ladder.findIndex((tempo) => tempo > player.tempo + NEAR);
    if (rung < 0) return;
    joins.move(number, rung - joins.step(number));
    setTempo(joins.tempo(number));
    remember();
  } else {
    const percent = percentOf(player.tempo);
    if (percent >= 100) return;
    setPercent(Math.min(100, percent + TEMPO_STEP));
  }
  tell(byId("tempo").getAttribute("aria-valuetext"));
}
