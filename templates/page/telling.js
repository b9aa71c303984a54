// What is shown and announced while it plays.

const SHORT_BAR = 2; // beats: of so short a bar alone, the next would come into view too late
const STEP_EARLY = 0.15; // beats before such a bar ends at which what follows it comes into view

function tell(words) {
  byId("live").textContent = words;
}

function showPlaying() {
  const { playing } = player;
  document.documentElement.classList.toggle("playing", playing);
  byId("play-word").textContent = playing ? "Stop" : "Play";
  if (playing) {
    tell(`Playing: ${state.place.said ?? state.place.name}, ${Math.round(player.tempo)} beats a minute`);
    cancelAnimationFrame(state.frame);
    state.frame = requestAnimationFrame(showPlace);
    ahead.clear();
    state.sounding = player.wish.excerpt.opens;
    if (settings.follow) keepAhead(state.sounding);
    alone.begin();
    selfCheck.begin();
    handsFree.begin(state.place.name, document.title);
  } else {
    ahead.clear();
    breath.clear();
    handsFree.end();
    selfCheck.end();
    tell("Stopped");
    sheet.mark(null, false);
    showReady();
  }
}

// What will be heard at the next press of Play.
function showReady() {
  if (joins.current !== null) {
    write(ladderWords(joins.current));
    return;
  }
  const count = Number(mine.countIn);
  const counted = count ? `${count} bar${count > 1 ? "s" : ""} counted in` : "no count-in";
  write(`${mine.loops ? "Round and round" : "Once through"}, ${counted}`);
}

function showPlace() {
  if (!player.playing) return;
  state.frame = requestAnimationFrame(showPlace);
  const place = player.place();
  if (!place) return;
  const { starts, beat } = place;
  const { excerpt } = player.wish;
  const counting = beat < starts - 1e-6;
  const sounded = Math.min(beat, excerpt.end - 1e-6);
  const silent = beat < starts - excerpt.lead - 1e-6;
  const index = sheet.mark(silent ? null : sounded, !calm.matches);
  if (counting) showCount(beat - starts);
  else showBar(index, place.answer);
  state.sounding = silent ? excerpt.opens : readBar(sounded, index, excerpt);
  if (settings.follow) keepAhead(state.sounding);
  breath.show(beat, player.wish);
}

// The bar (index) that is read while bar `index` sounds: that one, and soon enough the next.
function readBar(beat, index, excerpt) {
  if (lesson.facts.beats > SHORT_BAR) return index;
  const soon = beat + STEP_EARLY;
  if (soon < excerpt.end) return Math.max(index, lesson.bars.findLastIndex((bar) => bar.start <= soon));
  return player.goesOn() ? excerpt.first : index;
}

// The bar that sounds, or will, and the line after it are in view.
function keepAhead(index) {
  const wish = { ...player.wish, loops: player.goesOn() };
  ahead.show(index, wish, byId("dock"));
}

function showCount(beat) {
  const { beats } = lesson.facts;
  const number = ((Math.floor(beat + 1e-6) % beats) + beats) % beats;
  write(`Count ${Array.from({ length: number + 1 }, (_, each) => each + 1).join(" ")}`);
}

function showBar(index, answer) {
  const { number, chorus } = lesson.bars[index];
  const words = lesson.choruses.length ? `Bar ${number}, chorus ${chorus}` : `Bar ${number}`;
  write(answer ? `Your turn: ${words}` : words);
}

function write(words) {
  if (byId("now").textContent !== words) byId("now").textContent = words;
}
