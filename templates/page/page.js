// The page: its controls and keys, and how it begins.

function setHarp(number) {
  const harp = lesson.harps[number] ?? lesson.harps.find((each) => each.semitones === 0);
  byId("harp").value = lesson.harps.indexOf(harp);
  byId("song-key").textContent = harp.key;
  player.moved = { guide: harp.semitones, band: harp.band };
  sheet.name(harp);
}

function setLoop(loops) {
  mine.loops = loops;
  byId("loop").setAttribute("aria-pressed", String(loops));
  if (player.playing) player.wish.loops = loops;
  else showReady();
  remember();
}

function remember() {
  mine.steps = joins.steps;
  keep("settings", settings);
  keep(`lesson.${lesson.id}`, mine);
}

// The page leaves room at its foot for the player.
// Where a short phone has one row for it, what is touched seldom stands in the panel.
function fitDock() {
  const short = matchMedia("(max-width: 36rem) and (max-height: 43rem), (max-height: 20rem)").matches;
  byId("dock").classList.toggle("short", short);
  const [row, panel] = [document.querySelector(".dock .main"), byId("panel")];
  const home = short ? panel : row;
  for (const id of ["slide", "loop"]) {
    if (byId(id).parentElement !== home) home.append(byId(id));
  }
  document.body.style.setProperty("--dock", `${byId("dock").offsetHeight}px`);
}

function fitAcross() {
  fitDock();
  const room = window.innerHeight - byId("dock").offsetHeight;
  ahead.clear();
  breath.clear();
  clearVerdicts();
  layOut(sheet, room, Number(settings.across), document.documentElement.classList.contains("full"));
  range.stand();
  if (player.playing && settings.follow) keepAhead(state.sounding);
}

// The bars alone, as large as all of a chorus can be.
function setFull(on) {
  document.documentElement.classList.toggle("full", on);
  byId("full").setAttribute("aria-pressed", String(on));
  fitAcross();
  if (!on) return;
  window.scrollTo(0, 0);
  tell("Full view. F or the button leads back.");
}

function setPaper(paper) {
  if (paper === "device") delete document.documentElement.dataset.paper;
  else document.documentElement.dataset.paper = paper;
}

function toggle() {
  if (player.playing) player.stop();
  else start();
}

function onKey(event) {
  // A control that has the focus keeps the keys that it understands itself.
  const own = event.target.closest("select, input, textarea, summary, button:not(.bar)");
  const shifted = event.shiftKey && !own?.matches("select, input");
  const letters = plain(event) && !own?.matches("select"); // which looks for entries by letters
  if (event.key === "Escape") player.stop();
  else if (event.key === " " && (!own || own.type === "range")) toggle();
  else if (shifted && event.key === "ArrowUp") nudge(1);
  else if (shifted && event.key === "ArrowDown") nudge(-1);
  else if (event.shiftKey && event.key === "Home") playWhole();
  else if (event.key === "n" && letters) nextLick(1);
  else if (event.key === "f" && letters) setFull(byId("full").ariaPressed !== "true");
  else return;
  event.preventDefault();
}

function plain(event) {
  return !(event.ctrlKey || event.metaKey || event.altKey);
}

function playWhole() {
  setLoop(false);
  choose(places[0]);
  tell("The whole tune");
}

function bind(id, value, event, changed) {
  const control = byId(id);
  if (control.type === "checkbox") control.checked = value;
  else control.value = value;
  control.addEventListener(event, () => {
    changed(control.type === "checkbox" ? control.checked : control.value);
    remember();
  });
}

function levels() {
  const muted = selfCheck.on && settings.checkWith === "clicks" ? ["guide", "band"] : [];
  return Object.fromEntries(["guide", "band", "clicks"].map((name) =>
    [name, muted.includes(name) ? 0 : settings[name] / 100]));
}

function bindSettings() {
  for (const name of ["guide", "band", "clicks"]) {
    bind(`level-${name}`, settings[name], "input", (value) => {
      settings[name] = Number(value);
      player.setLevels(levels());
    });
  }
  bind("count-in", mine.countIn, "change", (value) => {
    mine.countIn = Number(value);
    if (!player.playing) showReady();
  });
  bind("count-again", settings.countAgain, "change", (on) => {
    settings.countAgain = on;
    if (player.playing) player.wish.countAgain = on;
  });
  bind("answers", settings.answers, "change", (on) => {
    settings.answers = on;
    if (player.playing) start();
    else showReady();
  });
  bind("step-every", settings.stepEvery, "change", (value) => { settings.stepEvery = Number(value); });
  bind("follow", settings.follow, "change", (on) => { settings.follow = on; });
  bind("across", settings.across, "change", (value) => { settings.across = value; fitAcross(); });
  bind("paper", settings.paper, "change", (value) => { settings.paper = value; setPaper(value); });
  bind("harp", 0, "change", (value) => { mine.harp = Number(value); setHarp(mine.harp); });
}

function bindControls() {
  byId("play").addEventListener("click", toggle);
  byId("loop").addEventListener("click", () => {
    setLoop(!mine.loops);
    tell(mine.loops ? "Round and round" : "Once through");
  });
  byId("more").addEventListener("click", () => {
    const open = byId("panel").hidden;
    byId("panel").hidden = !open;
    byId("more").setAttribute("aria-expanded", String(open));
    fitDock();
  });
  byId("full").addEventListener("click", () => setFull(byId("full").ariaPressed !== "true"));
  byId("what").addEventListener("change", ({ target }) => {
    const place = places[target.value];
    if (!place) return;
    setLoop(place.kind !== "tune" && place.kind !== "chorus");
    choose(place);
  });
  byId("tempo").addEventListener("input", ({ target }) => setPercent(Number(target.value)));
  byId("slower").addEventListener("click", () => nudge(-1));
  byId("faster").addEventListener("click", () => nudge(1));
  byId("start-tempo").addEventListener("click", () => {
    setPercent(percentOf(lesson.facts.start));
    tell(byId("tempo").getAttribute("aria-valuetext"));
  });
  byId("went-well").addEventListener("click", () => judge(1));
  byId("not-yet").addEventListener("click", () => judge(-1));
  for (const [name, kind] of [["practise", "join"], ["lick", "lick"]]) {
    const listed = places.filter((place) => place.kind === kind);
    for (const button of document.querySelectorAll(`[data-${name}]`)) {
      button.addEventListener("click", () => playPlace(listed[button.dataset[name]]));
    }
  }
  byId("save-progress").addEventListener("click", () => progress.save());
  byId("clear-progress").addEventListener("click", () => {
    byId("clear-progress").hidden = true;
    byId("clearing").hidden = false;
    byId("clear-no").focus();
  });
  for (const [id, clears] of [["clear-yes", true], ["clear-no", false]]) {
    byId(id).addEventListener("click", () => {
      if (clears) progress.clear();
      byId("clearing").hidden = true;
      byId("clear-progress").hidden = false;
      byId(clears ? "licks-title" : "clear-progress").focus();
      tell(clears ? "Progress cleared" : "Progress kept");
    });
  }
  document.addEventListener("keydown", onKey);
  window.addEventListener("hashchange", openAddress);
  window.addEventListener("resize", fitAcross);
  document.addEventListener("visibilitychange", () => {
    if (!player.playing) return;
    player.look();
    handsFree.light();
  });
}

document.documentElement.classList.add("runs");
fillPlaces();
bindSettings();
bindControls();
bindCheck();
setPaper(settings.paper);
player.setLevels(levels());
setHarp(mine.harp);
const whole = mine.loops;
choose(places[0]);
setPercent(mine.percent);
setLoop(whole);
fitAcross();
progress.show();
openAddress();
