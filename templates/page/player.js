// The player: converts rounds of events to seconds at a tempo and schedules them on the audio
// clock a little ahead. Times are computed from the start of their stretch, so nothing drifts.

const TICK = 30; // milliseconds between two rounds of scheduling
const AHEAD = 0.18; // seconds
const AHEAD_HIDDEN = 2.5; // seconds; timers of a hidden page run about once a second
const START = 0.12; // seconds from the press to the first sound
const FADE = 0.02; // seconds
const RING = 0.6; // seconds after the end, for the decay of drums
const LATE = 0.06; // seconds: events later than this, after a stall, are skipped
// Seconds between two questions for the latency of the output, which are dear: the sound waits for
// the answer. It is 0 until the output runs.
const LATENCY_EVERY = 5;
const LATENCY_FIRST = 0.5;
const COUNT_LEVEL = 0.4; // least level of the count-in, however low the clicks are set

class Player {
  // `callbacks`: the functions `begun` and `ended`; `again`: a time round is over (how many are),
  // the next is about to be handed on, and its tempo may be set; `over`: the last one is; `due`: a
  // note of the guide (the event, its moment, its seconds), sounded or not.
  constructor(lesson, callbacks) {
    this.lesson = lesson;
    this.callbacks = callbacks;
    this.levels = { guide: 0.8, band: 0.5, clicks: 0.3 };
    this.tempo = lesson.facts.tempo;
    this.slowest = this.tempo; // since the time round began
    this.moved = { guide: 0, band: 0 }; // semitones, for another harp
    this.context = null;
    this.latency = 0; // of the output, in seconds
    this.asked = -LATENCY_EVERY; // when it was asked for
    this.stretches = [];
  }

  get playing() {
    return this.stretches.length > 0;
  }

  // `wish`: the excerpt, whether it loops, bars of count-in, whether each round is counted in, and
  // whether every second time round is the student's (`answers`: the band alone).
  play(wish) {
    this.halt();
    this.wake();
    this.wish = wish;
    this.take = this.openTake();
    this.round = 0;
    const counted = countedBars(this.lesson, wish.excerpt, wish.countIn);
    this.begin(this.context.currentTime + START, counted, true);
    this.timer = setInterval(() => this.tick(), TICK);
    this.callbacks.begun();
    this.tick();
  }

  stop() {
    if (!this.playing) return;
    this.halt();
    this.callbacks.ended();
  }

  halt() {
    clearInterval(this.timer);
    this.stretches = [];
    if (!this.take) return;
    const { out, sounding } = this.take;
    const now = this.context.currentTime;
    out.gain.setValueAtTime(1, now);
    out.gain.linearRampToValueAtTime(0, now + FADE);
    for (const node of sounding) node.stop(now + FADE);
    this.take = null;
  }

  // A browser lets sound begin only in answer to the listener.
  wake() {
    if (!this.context) {
      this.context = new AudioContext({ latencyHint: "interactive" });
      this.out = limiter(this.context);
    }
    if (this.context.state !== "running") this.context.resume();
  }

  // What is played from one press to the next goes through gains of its own, so that stopping
  // silences it at once.
  openTake() {
    const gain = (value, into) => {
      const made = this.context.createGain();
      made.gain.value = value;
      made.connect(into);
      return made;
    };
    const out = gain(1, this.out);
    const mixer = { count: gain(COUNT_LEVEL, out) };
    for (const [name, level] of Object.entries(this.levels)) mixer[name] = gain(level ** 2, out);
    return { out, mixer, sounding: new Set() };
  }

  // Squared: even steps of a slider are then about even to the ear.
  setLevels(levels) {
    this.levels = { ...levels };
    if (!this.take) return;
    for (const [name, level] of Object.entries(levels)) {
      this.take.mixer[name].gain.setTargetAtTime(level ** 2, this.context.currentTime, 0.02);
    }
  }

  // A new tempo holds from where the look ahead has come to.
  setTempo(tempo) {
    this.tempo = tempo;
    this.slowest = Math.min(this.slowest, tempo);
    const last = this.stretches.at(-1);
    if (!last || last.done >= last.to) return;
    if (last.done === last.from) {
      last.spb = 60 / tempo;
      return;
    }
    const time = timeOf(last, last.done);
    this.stretches.push({ ...last, time, from: last.done, spb: 60 / tempo });
    last.to = last.done;
  }

  begin(time, counted, leads) {
    const { excerpt, countAgain, answers } = this.wish;
    const loops = this.goesOn();
    const round = roundOf(this.lesson, excerpt, {
      counted,
      leads,
      loops,
      returns: loops && !countAgain,
      voiced: !answers || this.round % 2 === 0,
      nextVoiced: !answers || this.round % 2 === 1,
    });
    this.slowest = this.tempo; // in this time round
    this.stretches.push({
      ...round,
      time,
      spb: 60 / this.tempo,
      done: round.from,
      next: 0,
      starts: excerpt.start,
      answer: Boolean(answers) && this.round % 2 === 1,
    });
  }

  // Whether another time round follows the one that is at hand: a call has its answer.
  goesOn() {
    return this.wish.loops || (Boolean(this.wish.answers) && this.round % 2 === 0);
  }

  // The page is seen again, or not: look ahead at once, and as far as that asks.
  look() {
    this.wake();
    this.tick();
  }

  tick() {
    const now = this.context.currentTime;
    const until = now + (document.hidden ? AHEAD_HIDDEN : AHEAD);
    for (;;) {
      const last = this.stretches.at(-1);
      const upTo = Math.min(last.to, beatOf(last, until));
      if (upTo > last.done) this.schedule(last, upTo);
      if (last.done < last.to) break;
      const end = timeOf(last, last.to);
      if (!this.goesOn()) {
        if (now > end + RING) {
          this.callbacks.over();
          this.stop();
        }
        return;
      }
      if (end >= until) break;
      this.round += 1;
      this.callbacks.again(this.round);
      const again = this.wish.countAgain;
      const counted = again ? countedBars(this.lesson, this.wish.excerpt, this.wish.countIn) : 0;
      this.begin(end, counted, again);
    }
    this.forget();
  }

  schedule(stretch, upTo) {
    const { events } = stretch;
    for (; stretch.next < events.length; stretch.next += 1) {
      const event = events[stretch.next];
      if (event.start >= upTo - 1e-9) break;
      const when = timeOf(stretch, event.start);
      if (when > this.context.currentTime - LATE) {
        this.sound(event, when, event.length * stretch.spb);
      }
    }
    stretch.done = upTo;
  }

  sound(event, when, seconds) {
    const { context, moved } = this;
    const { mixer, sounding } = this.take;
    const { sound } = this.lesson;
    let nodes;
    if (event.voice === "guide") {
      this.callbacks.due(event, when, seconds);
      if (event.silent) return;
      const shape = sound.shapes[event.technique] ?? sound.plain;
      nodes = playReed(context, mixer.guide, event, sound.reed, shape, when, seconds, moved.guide);
    } else {
      const into = { click: mixer.clicks, count: mixer.count }[event.voice] ?? mixer.band;
      const played = event.voice === "count" ? { ...event, voice: "click" } : event;
      nodes = playBand(context, into, played, when, seconds, moved.band, sound.balance);
    }
    for (const node of nodes) {
      sounding.add(node);
      node.addEventListener("ended", () => sounding.delete(node));
    }
  }

  // Stretches that have been heard are let go, but for the one that sounds.
  forget() {
    const heard = this.heard();
    while (this.stretches.length > 1 && this.stretches[1].time <= heard) this.stretches.shift();
  }

  // The moment of the audio clock that is heard now.
  heard() {
    const { currentTime } = this.context;
    if (currentTime >= this.asked + (this.latency ? LATENCY_EVERY : LATENCY_FIRST)) {
      this.latency = this.context.outputLatency || 0;
      this.asked = currentTime;
    }
    return currentTime - this.latency;
  }

  // What is heard now: the beat, the first beat after the count-in, whether it is the student's
  // turn. Null before and after.
  place() {
    if (!this.playing) return null;
    const heard = this.heard();
    const stretch = this.stretches.findLast((each) => each.time <= heard);
    if (!stretch) return null;
    const beat = beatOf(stretch, heard);
    return beat > stretch.to ? null : { beat, starts: stretch.starts, answer: stretch.answer };
  }
}

function timeOf(stretch, beat) {
  return stretch.time + (beat - stretch.from) * stretch.spb;
}

function beatOf(stretch, time) {
  return stretch.from + (time - stretch.time) / stretch.spb;
}
