// The guide's reed-like tone. Pitch is exact: only a technique moves it, by its shape.

const PARTIALS = 24; // odd and even ones, falling off gently by the recipe of the sound clips
const LEVEL = 0.5;
const OPEN_HERTZ = 9000; // lowpass over the note where all partials are let out
const DARK_HERTZ = 420; // and where the shape's brightness is 0
const DULL = 0.6; // how bright a note is at its start
const PUFF_SECONDS = 0.05;
const LEAST_LENGTH = 0.03; // seconds: shorter notes would click

const hertz = (midi) => 440 * 2 ** ((midi - 69) / 12);

const waves = new WeakMap(); // one reed wave an audio context
const noises = new WeakMap();

function reedWave(context, recipe) {
  if (!waves.has(context)) {
    const cosine = new Float32Array(PARTIALS + 1);
    const sine = new Float32Array(PARTIALS + 1);
    for (let n = 1; n <= PARTIALS; n += 1) {
      const strength = (n % 2 ? 1 : recipe.even) * n ** -recipe.fall;
      cosine[n] = strength * Math.sin(recipe.turn * n * n);
      sine[n] = strength * Math.cos(recipe.turn * n * n);
    }
    waves.set(context, context.createPeriodicWave(cosine, sine));
  }
  return waves.get(context);
}

// A note grows bright in its first moments.
const opening = (recipe) => [
  { value: DULL, seconds: 0, share: 0 },
  { value: 1, seconds: recipe.opening, share: 0 },
];

// Half a second of noise, the same each time.
function noise(context) {
  if (!noises.has(context)) {
    const buffer = context.createBuffer(1, context.sampleRate / 2, context.sampleRate);
    const samples = buffer.getChannelData(0);
    let state = 1;
    for (let i = 0; i < samples.length; i += 1) {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      samples[i] = state / 2 ** 31 - 1;
    }
    noises.set(context, buffer);
  }
  return noises.get(context);
}

// A curve of a shape as moments and values in a note of so many seconds: points that would go
// back in time meet.
function along(curve, length) {
  let last = 0;
  return curve.map((point) => {
    last = Math.max(last, Math.min(Math.max(point.share * length + point.seconds, 0), length));
    return { at: last, value: point.value };
  });
}

function follow(parameter, when, points, scale = (value) => value) {
  if (!points.length) return;
  parameter.setValueAtTime(scale(points[0].value), when);
  for (const point of points) parameter.linearRampToValueAtTime(scale(point.value), when + point.at);
}

// Play one note of the guide into `out`, from `when`, for `seconds`, `semitones` away from what
// is written; gives the nodes that sound.
function playReed(context, out, note, recipe, shape, when, seconds, semitones) {
  const length = Math.max(seconds * shape.sounds, LEAST_LENGTH);
  const end = when + length;
  const envelope = context.createGain();
  const level = ((note.loudness ?? 1) * LEVEL) / Math.sqrt(note.midi.length);
  const attack = Math.min(shape.attack, length / 2);
  const release = Math.min(shape.release, length / 2);
  envelope.gain.setValueAtTime(0, when);
  envelope.gain.linearRampToValueAtTime(level, when + attack);
  envelope.gain.setValueAtTime(level, end - release);
  envelope.gain.linearRampToValueAtTime(0, end);
  envelope.connect(out);

  let into = envelope;
  if (shape.loudness.length || shape.wave?.loudness) {
    const loudness = context.createGain();
    loudness.connect(into);
    follow(loudness.gain, when, along(shape.loudness, length));
    into = loudness;
  }
  const filter = context.createBiquadFilter();
  filter.type = "lowpass";
  filter.Q.value = 0.5;
  filter.frequency.value = OPEN_HERTZ;
  const opened = (bright) => DARK_HERTZ * (OPEN_HERTZ / DARK_HERTZ) ** bright;
  const brightness = shape.brightness.length ? shape.brightness : opening(recipe);
  follow(filter.frequency, when, along(brightness, length), opened);
  filter.connect(into);

  const sounding = note.midi.map((midi, i) => {
    const reed = context.createOscillator();
    reed.setPeriodicWave(reedWave(context, recipe));
    reed.frequency.value = hertz(midi + semitones);
    follow(reed.detune, when, along(shape.pitch, length));
    if (shape.turns && note.neighbour) shake(reed, midi, note.neighbour[i], shape, when, length);
    const own = context.createGain();
    own.gain.value = 10 ** ((-recipe.softer / 20) * ((midi + semitones - recipe.middle) / 12));
    reed.connect(own).connect(filter);
    reed.start(when);
    reed.stop(end + 0.01);
    return reed;
  });
  const reeds = [...sounding];
  if (shape.wave) sounding.push(sway(context, reeds, into, shape.wave, when, end));
  if (shape.puff) sounding.push(puff(context, out, level * shape.puff, when));
  return sounding;
}

// The note and its neighbour by turns, evenly.
function shake(reed, midi, neighbour, shape, when, length) {
  if (neighbour === undefined) return;
  const turns = Math.max(1, Math.floor(length * shape.turns));
  for (let turn = 0; turn < turns; turn += 1) {
    const cents = turn % 2 ? (neighbour - midi) * 100 : 0;
    reed.detune.setValueAtTime(cents, when + (turn * length) / turns);
  }
}

// A wavering of pitch and loudness that grows from nothing.
function sway(context, reeds, loudness, wave, when, end) {
  const slow = context.createOscillator();
  slow.frequency.value = wave.hertz;
  const begins = when + wave.after;
  const grown = (depth) => {
    const gain = context.createGain();
    gain.gain.setValueAtTime(0, begins);
    gain.gain.linearRampToValueAtTime(depth, begins + wave.growth);
    slow.connect(gain);
    return gain;
  };
  if (wave.cents) {
    const pitch = grown(wave.cents);
    for (const reed of reeds) pitch.connect(reed.detune);
  }
  if (wave.loudness) grown(wave.loudness).connect(loudness.gain);
  slow.start(begins);
  slow.stop(Math.max(end, begins) + 0.01);
  return slow;
}

function puff(context, out, level, when) {
  const source = context.createBufferSource();
  source.buffer = noise(context);
  const fade = context.createGain();
  fade.gain.setValueAtTime(level, when);
  fade.gain.linearRampToValueAtTime(0, when + PUFF_SECONDS);
  source.connect(fade).connect(out);
  source.start(when);
  source.stop(when + PUFF_SECONDS);
  return source;
}
