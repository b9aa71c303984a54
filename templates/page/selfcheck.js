// The self-check: with the microphone, each note that is due against the one that is heard. All is
// worked out here; no sound is kept, nothing leaves the device.

const LISTEN_TICK = 15; // milliseconds
const BUFFER = 8192; // samples that may pass between two looks
const AFTER = 0.12; // seconds after a note's end until it is judged
const CALIBRATION = { clicks: 4, apart: 0.5, first: 0.4 }; // seconds
const LISTED = 64; // results
// Voice processing would take a held note for noise.
const RAW = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };

const REFUSALS = {
  missing: "This browser gives no microphone to a page that is opened as a file. Open the page " +
    "by its secure web address, or in another browser.",
  NotAllowedError: "The browser refused the microphone. Allow it for this page. Some browsers " +
    "always refuse it to a file: then open the page by its secure web address.",
  NotFoundError: "No microphone was found.",
  NotReadableError: "Another program holds the microphone.",
};

class SelfCheck {
  // `callbacks`: `changed` (it listens, or no more), `told` (words), `result` (a verdict and the
  // event it is about), `begun` (a list begins anew).
  constructor(lesson, player, callbacks) {
    Object.assign(this, { lesson, player, callbacks });
    this.latency = 0;
    this.calibrated = false;
    this.stream = null;
    this.due = [];
  }

  get on() {
    return this.stream !== null;
  }

  async listen() {
    const media = navigator.mediaDevices;
    if (!media?.getUserMedia) {
      this.callbacks.told(REFUSALS.missing);
      return;
    }
    this.player.wake(); // while the press still counts
    if (navigator.audioSession) navigator.audioSession.type = "play-and-record";
    try {
      this.stream = await media.getUserMedia({ audio: RAW });
    } catch (error) {
      this.callbacks.told(REFUSALS[error.name] ?? `No microphone: ${error.message}`);
      return;
    }
    const { context } = this.player;
    this.source = context.createMediaStreamSource(this.stream);
    this.analyser = context.createAnalyser();
    this.analyser.fftSize = BUFFER;
    this.source.connect(this.analyser);
    this.samples = new Float32Array(BUFFER);
    this.read = context.currentTime;
    this.hearing = new Hearing(context.sampleRate, this.read);
    this.timer = setInterval(() => this.tick(), LISTEN_TICK);
    for (const track of this.stream.getTracks()) {
      track.addEventListener("ended", () => this.close());
    }
    this.callbacks.changed();
    this.callbacks.told(this.calibrated
      ? "It listens. Play with the clicks."
      : "It listens. Calibrate first: early and late are not told before.");
  }

  close() {
    if (!this.stream) return;
    clearInterval(this.timer);
    for (const track of this.stream.getTracks()) track.stop();
    this.source.disconnect();
    if (navigator.audioSession) navigator.audioSession.type = "playback";
    this.stream = null;
    this.due = [];
    this.callbacks.changed();
    this.callbacks.told("The microphone is off.");
  }

  // Four clicks: how much later than they are due the microphone hears them, or the student's
  // claps with them.
  calibrate() {
    if (!this.on) return;
    this.player.stop();
    const { context } = this.player;
    const { clicks, apart, first } = CALIBRATION;
    const moments = Array.from({ length: clicks }, (_, at) => context.currentTime + first + at * apart);
    for (const when of moments) playClick(context, this.player.out, 76, 1, when);
    this.callbacks.told("Four clicks: let the microphone hear them, or clap with them.");
    setTimeout(() => {
      if (!this.on) return;
      const found = latencyOf(moments, this.hearing.onsets);
      if (found === null) {
        this.callbacks.told("The clicks were not heard. Turn them up, or clap with them, and calibrate again.");
        return;
      }
      this.latency = found;
      this.calibrated = true;
      this.callbacks.told(`Calibrated: what you play arrives ${Math.round(found * 1000)} ms later.`);
    }, 1000 * (first + clicks * apart + 0.3));
  }

  // A note of the guide is due at a moment of the audio clock, sounded or not.
  expect(event, when, seconds) {
    if (this.on) this.due.push({ event, when, seconds });
  }

  // It stops: what had been handed on and is not heard any more is not due.
  end() {
    if (this.on) this.due = this.due.filter(({ when }) => when <= this.player.context.currentTime);
  }

  // Another stretch begins.
  begin() {
    this.due = [];
    if (this.on) this.callbacks.begun();
  }

  tick() {
    const { currentTime, sampleRate } = this.player.context;
    const passed = Math.round((currentTime - this.read) * sampleRate);
    if (passed <= 0) return;
    this.read = currentTime;
    this.analyser.getFloatTimeDomainData(this.samples);
    if (passed > BUFFER) this.hearing.push(new Float32Array(passed - BUFFER));
    this.hearing.push(this.samples.subarray(Math.max(0, BUFFER - passed)));
    const heard = currentTime - this.latency;
    while (this.due.length && this.due[0].when + this.due[0].seconds + AFTER < heard) {
      this.judge(this.due.shift());
    }
    const oldest = this.due[0]?.when ?? heard;
    this.hearing.forget(Math.min(oldest, heard) - 4);
  }

  judge({ event, when, seconds }) {
    const moved = this.player.moved.guide;
    const due = {
      start: when + this.latency,
      end: when + this.latency + seconds,
      midi: event.midi.map((midi) => midi + moved),
      bend: event.bend ?? 0,
    };
    const reeds = this.lesson.sound.reeds.map(([words, midi]) => [words, midi + moved]);
    this.callbacks.result(judged(this.hearing, due, reeds), event);
  }
}

// ---- In words ---------------------------------------------------------------------------------

function verdictWords(found, event, timed) {
  const cents = Math.round(Math.abs(found.cents ?? 0));
  const what = {
    right: "right",
    heard: "played",
    missed: "nothing heard",
    shallow: `the bend is ${cents} cents too shallow`,
    deep: `the bend is ${cents} cents too deep`,
    sharp: `${cents} cents too high`,
    flat: `${cents} cents too low`,
    other: `${found.other} was heard`,
  }[found.verdict];
  return `${event.tab}: ${what}${timed ? lateWords(found.late) : ""}`;
}

function lateWords(late) {
  if (late === null) return "";
  if (Math.abs(late) <= IN_TIME) return ", in time";
  return `, ${Math.round(Math.abs(late) * 1000)} ms ${late > 0 ? "late" : "early"}`;
}

const check = { right: 0, all: 0, signs: new Map() };

const selfCheck = new SelfCheck(lesson, player, {
  changed: () => {
    byId("listen").setAttribute("aria-pressed", String(selfCheck.on));
    byId("calibrate").disabled = !selfCheck.on;
    player.setLevels(levels());
  },
  told: (words) => { byId("check-words").textContent = words; },
  begun: () => {
    [check.right, check.all] = [0, 0];
    byId("check-list").replaceChildren();
    clearVerdicts();
  },
  result: showVerdict,
});

function showVerdict(found, event) {
  check.all += 1;
  if (["right", "heard"].includes(found.verdict)) check.right += 1;
  byId("check-words").textContent = `Right: ${check.right} of ${check.all}`;
  const place = event.place ?? event.start; // a pick-up of the next time round stands at its own
  const index = Math.max(0, lesson.bars.findLastIndex((bar) => bar.start <= place + NEAR));
  const item = document.createElement("li");
  const { number } = lesson.bars[index];
  item.textContent = `${number ? `Bar ${number}` : "Pick-up"}, ${verdictWords(found, event, selfCheck.calibrated)}`;
  byId("check-list").prepend(item);
  while (byId("check-list").children.length > LISTED) byId("check-list").lastChild.remove();
  signVerdict(found, event, place, index);
}

// At the note in the sheet: good, or what was heard, or by how many cents too high or too low.
function signVerdict(found, event, place, index) {
  check.signs.get(place)?.remove();
  const cell = sheet.cells[lesson.bars[index].cell];
  const spot = sheet.spot(index, place);
  if (["right", "heard"].includes(found.verdict)) {
    check.signs.set(place, sheet.sign(cell, spot, "verdict right", event.breath, "good", "✓"));
    return;
  }
  const cents = Math.round(found.cents ?? 0);
  const off = `${cents > 0 ? "+" : "−"}${Math.abs(cents)}`;
  const words = found.other ?? (found.cents === null ? "–" : off);
  check.signs.set(place, sheet.sign(cell, spot, "verdict", event.breath, words, "×"));
}

function clearVerdicts() {
  for (const sign of check.signs.values()) sign.remove();
  check.signs.clear();
}

function bindCheck() {
  byId("listen").addEventListener("click", () => selfCheck.on ? selfCheck.close() : selfCheck.listen());
  byId("calibrate").addEventListener("click", () => selfCheck.calibrate());
  bind("check-with", settings.checkWith, "change", (value) => {
    settings.checkWith = value;
    player.setLevels(levels());
  });
}
