// What the microphone hears, as a list: frames with a pitch, and onsets. It is fed with samples in
// order; where they come from is another's business.

const HOP_SECONDS = 0.004; // between two looks at loudness
const PITCH_HOPS = 4; // hops between two looks at pitch
const RISE = 2.2; // an onset: so many times louder than a moment before
const BACK_HOPS = 8; // that moment
const FLOOR = 0.004; // of full scale: softer is silence
const REST_SECONDS = 0.07; // between two onsets
const CLEAR = 0.8; // least clarity of a pitch that counts

class Hearing {
  // `rate`: samples a second; `start`: the moment of the first sample, in seconds of a clock.
  constructor(rate, start = 0) {
    this.rate = rate;
    this.start = start;
    this.hop = Math.round(rate * HOP_SECONDS);
    this.frame = Math.round(rate * FRAME_SECONDS);
    this.kept = new Float32Array(0); // the last frame of samples, and what has no hop yet
    this.done = 0; // hops
    this.loud = [];
    this.frames = []; // { time, midi, clarity, loud }: time of the middle of the frame
    this.onsets = []; // seconds
  }

  push(samples) {
    const all = new Float32Array(this.kept.length + samples.length);
    all.set(this.kept);
    all.set(samples, this.kept.length);
    let at = this.kept.length - (this.waiting ?? 0);
    for (; at + this.hop <= all.length; at += this.hop) this.look(all, at + this.hop);
    this.waiting = all.length - at;
    const from = Math.max(0, at - this.frame);
    this.kept = all.slice(from);
  }

  // A hop ends at sample `end` of what is at hand.
  look(all, end) {
    let energy = 0;
    for (let i = end - this.hop; i < end; i += 1) energy += all[i] ** 2;
    const loud = Math.sqrt(energy / this.hop);
    this.done += 1;
    const time = this.start + this.done * this.hop / this.rate;
    const before = Math.min(...this.loud.slice(-BACK_HOPS), Infinity);
    this.loud.push(loud);
    if (this.loud.length > 64) this.loud.shift();
    const rises = loud > FLOOR && (before === Infinity || loud > RISE * Math.max(before, FLOOR / 2));
    if (rises && time - (this.onsets.at(-1) ?? -9) > REST_SECONDS) {
      this.onsets.push(time - this.hop / this.rate);
    }
    if (this.done % PITCH_HOPS || end < this.frame || loud <= FLOOR) return;
    const found = pitchOf(all.subarray(end - this.frame, end), this.rate);
    if (found) this.frames.push({ ...found, loud, time: time - FRAME_SECONDS / 2 });
  }

  // What is older than a moment is let go.
  forget(before) {
    this.frames = this.frames.filter((frame) => frame.time >= before);
    this.onsets = this.onsets.filter((onset) => onset >= before);
  }
}

// ---- Judging what was heard against what is due ---------------------------------------------

const IN_TUNE = 35; // cents: nearer is right; own choice, a third of the least step between notes
const IN_TIME = 0.06; // seconds: nearer is neither early nor late; own choice
const SETTLE = 0.35; // of a note: its slide and attack, which are not judged
const EARLY = 0.18; // seconds before it is due that a note may begin to be this note

// A note that was due, from what was heard. `due`: { start, end } in seconds of the same clock with
// the latency taken off, `midi` (one pitch, or several for a block or split), `bend` in half
// steps; `reeds`: [words, midi] of all that the harp plays.
function judged(hearing, due, reeds) {
  const long = due.end - due.start;
  const onset = nearest(hearing.onsets, due.start, Math.min(EARLY, long));
  if (due.midi.length > 1) {
    return { verdict: onset === null ? "missed" : "heard", cents: null, late: lateBy(onset, due) };
  }
  const within = hearing.frames.filter(({ time, clarity }) =>
    clarity >= CLEAR && time >= due.start + SETTLE * long && time <= due.end - 0.02);
  const all = hearing.frames.filter(({ time, clarity }) =>
    clarity >= CLEAR && time >= due.start && time <= due.end);
  const frames = within.length >= 2 ? within : all;
  if (!frames.length) return { verdict: "missed", cents: null, late: null };
  const midi = median(frames.map((frame) => frame.midi));
  const cents = 100 * (midi - due.midi[0]);
  const late = lateBy(onset ?? firstAt(hearing.frames, midi, due), due);
  if (Math.abs(cents) <= IN_TUNE) return { verdict: "right", cents, late };
  if (due.bend && Math.abs(cents) < 100 * due.bend + 60) {
    return { verdict: cents > 0 ? "shallow" : "deep", cents, late };
  }
  const others = reeds.filter((each) => Math.abs(each[1] - midi) < 0.5 && each[1] !== due.midi[0]);
  if (Math.abs(cents) > 60 && others.length) {
    return { verdict: "other", other: others.map((each) => each[0]).join(" or "), cents, late };
  }
  return { verdict: cents > 0 ? "sharp" : "flat", cents, late };
}

// When a pitch was first heard on from a little before a note is due: in a legato nothing rises.
function firstAt(frames, midi, due) {
  const near = frames.find(({ time, midi: heard, clarity }) => clarity >= CLEAR &&
    time > due.start - EARLY && time < due.end && Math.abs(heard - midi) < 0.6);
  return near ? near.time : null;
}

function lateBy(onset, due) {
  return onset === null ? null : onset - due.start;
}

function nearest(times, moment, most) {
  const found = times.filter((time) => time > moment - EARLY && time < moment + Math.max(most, 0.1));
  if (!found.length) return null;
  return found.reduce((one, other) =>
    Math.abs(other - moment) < Math.abs(one - moment) ? other : one);
}

function median(numbers) {
  const sorted = [...numbers].sort((one, other) => one - other);
  const half = sorted.length >> 1;
  return sorted.length % 2 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

// The latency: for clicks at moments, how much later the microphone heard them (seconds); null
// where fewer than three of four were heard, or they do not agree.
function latencyOf(clicks, onsets) {
  const found = clicks
    .map((click) => onsets.find((onset) => onset > click - 0.05 && onset < click + 0.45))
    .map((onset, at) => (onset === undefined ? null : onset - clicks[at]))
    .filter((each) => each !== null);
  if (found.length < 3) return null;
  const middle = median(found);
  return found.filter((each) => Math.abs(each - middle) < 0.03).length >= 3 ? middle : null;
}
