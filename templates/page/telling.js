// What is shown and announced while it plays.

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
    state.sounding = player.wish.excerpt.first;
    if (settings.follow) keepAhead(player.wish.excerpt.first);
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
  state.sounding = silent ? excerpt.first : index;
  if (settings.follow) keepAhead(state.sounding);
  breath.show(beat, player.wish);
}

// The bar that sounds, or will, and the line after it are in view.
function keepAhead(index) {
  const wish = { ...player.wish, loops: player.goesOn() };
  ahead.show(index, wish, byId("dock").offsetHeight);
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
