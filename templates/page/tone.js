// The guide: free reeds behind fixed resonances of mouth and hands, by the recipe of the clips.
// A note's pitch is exact once it has settled, unless its technique moves it.

const PARTIALS = 40;
const HIGHEST = 12000; // hertz: no partial above it is reckoned with
const LEVEL = 0.25; // root mean square of the middle note
const TOGETHER = 0.6; // several reeds at once: each is divided by their number to this power
const PUFF_SECONDS = 0.05;
const LEAST_LENGTH = 0.03; // seconds: shorter notes would click
const CURVE_STEP = 0.01; // seconds between two points of a note's course of loudness
const GOLDEN = 0.381966; // of a turn: apart are the courses of two neighbouring pitches

const hertz = (midi) => 440 * 2 ** ((midi - 69) / 12);

const waves = new WeakMap(); // by audio context: the waves of blown and of drawn reeds
const mouths = new WeakMap(); // by where the guide goes: the resonances in front of it
const noises = new WeakMap();

const strengthOf = (recipe, direction, n) => (n % 2 ? 1 : recipe.even) * n ** -direction.fall;

function reedWave(context, recipe, breath) {
  if (!waves.has(context)) waves.set(context, {});
  const made = waves.get(context);
  if (!made[breath]) {
    const cosine = new Float32Array(PARTIALS + 1);
    const sine = new Float32Array(PARTIALS + 1);
    for (let n = 1; n <= PARTIALS; n += 1) {
      const strength = strengthOf(recipe, recipe[breath], n);
      cosine[n] = strength * Math.sin(recipe.turn * n * n);
      sine[n] = strength * Math.cos(recipe.turn * n * n);
    }
    made[breath] = context.createPeriodicWave(cosine, sine, { disableNormalization: true });
  }
  return made[breath];
}

// The resonances, which do not move with the note: one row of filters for all notes of a breath.
function mouthOf(context, out, recipe, breath) {
  if (!mouths.has(out)) mouths.set(out, {});
  const made = mouths.get(out);
  if (!made[breath]) {
    const filters = recipe.resonances.map(({ hertz: at, q, decibels }) => {
      const filter = context.createBiquadFilter();
      filter.type = "peaking";
      filter.frequency.value = at * recipe[breath].moved;
      filter.Q.value = q;
      filter.gain.value = decibels;
      return filter;
    });
    filters.reduce((one, next) => one.connect(next)).connect(out);
    made[breath] = { into: filters[0], filters, levels: {} };
  }
  return made[breath];
}

// What a reed is multiplied by so that it has the level of its pitch behind the resonances.
function levelOf(mouth, recipe, breath, midi, lowpass) {
  if (!mouth.levels[midi]) {
    const count = Math.max(1, Math.min(PARTIALS, Math.floor(HIGHEST / hertz(midi))));
    const at = Float32Array.from({ length: count }, (_, i) => (i + 1) * hertz(midi));
    const gain = new Float32Array(count);
    const turned = new Float32Array(count);
    const strengths = Array.from(at, (_, i) => strengthOf(recipe, recipe[breath], i + 1));
    for (const filter of [...mouth.filters, lowpass]) {
      filter.getFrequencyResponse(at, gain, turned);
      gain.forEach((each, i) => {
        strengths[i] *= each;
      });
    }
    const rms = Math.sqrt(strengths.reduce((sum, each) => sum + each * each, 0) / 2);
    mouth.levels[midi] = 10 ** ((-recipe.softer / 20) * ((midi - recipe.middle) / 12)) / rms;
  }
  return mouth.levels[midi];
}

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

// The course of a note's loudness: the shape's, and the breath, which is never quite even.
function loudnessOf(recipe, shape, midi, length) {
  const points = along(shape.loudness, length);
  const count = Math.max(2, Math.ceil(length / CURVE_STEP) + 1);
  return Float32Array.from({ length: count }, (_, i) => {
    const at = (i / (count - 1)) * length;
    const grown = Math.min(1, at / recipe.settling);
    const course = recipe.swaying.reduce(
      (sum, each, number) =>
        sum +
        each.loudness * Math.sin(2 * Math.PI * (each.hertz * at + midi * (number + 1) * GOLDEN)),
      0,
    );
    return valueAt(points, at, 1) * (1 + grown * course);
  });
}

function valueAt(points, at, plain) {
  if (!points.length) return plain;
  const next = points.findIndex((point) => point.at > at);
  if (next === 0) return points[0].value;
  if (next < 0) return points.at(-1).value;
  const [one, other] = [points[next - 1], points[next]];
  return one.value + ((other.value - one.value) * (at - one.at)) / (other.at - one.at);
}

// A bend slides in, and lets go at the end; not where the technique moves the pitch.
function slideOf(recipe, slide, length) {
  const end = length + recipe.let_go[0][0];
  const coming = recipe.slide_in.filter(([at]) => at <= end);
  const going = recipe.let_go.filter(([at]) => length + at >= coming.at(-1)?.[0]);
  return [...coming, ...going.map(([at, share]) => [length + at, share])].map(([at, share]) => ({
    at,
    value: share * slide,
  }));
}

// Play one note of the guide into `out`, from `when`, for `seconds`, `semitones` away from what
// is written; gives the nodes that sound.
function playReed(context, out, note, recipe, shape, when, seconds, semitones) {
  const length = Math.max(seconds * shape.sounds, LEAST_LENGTH);
  const end = when + length;
  const breath = note.draw ? "draw" : "blow";
  const mouth = mouthOf(context, out, recipe, breath);
  const lowest = note.midi[0] + semitones;
  const envelope = context.createGain();
  const level = ((note.loudness ?? 1) * LEVEL) / note.midi.length ** TOGETHER;
  const slower = 2 ** ((recipe.slower * (recipe.middle - lowest)) / 12);
  const attack = Math.min(shape.attack * slower, length / 2);
  const release = Math.min(shape.release, length / 2);
  envelope.gain.setValueAtTime(0, when);
  envelope.gain.linearRampToValueAtTime(level, when + attack);
  envelope.gain.setValueAtTime(level, end - release);
  envelope.gain.linearRampToValueAtTime(0, end);
  envelope.connect(mouth.into);

  const loudness = context.createGain();
  loudness.gain.setValueCurveAtTime(loudnessOf(recipe, shape, lowest, length), when, length);
  const swayed = context.createGain();
  loudness.connect(swayed).connect(envelope);
  const filter = context.createBiquadFilter();
  filter.type = "lowpass";
  filter.Q.value = 0; // decibels
  filter.frequency.value = recipe.opened;
  const levels = note.midi.map((midi) =>
    levelOf(mouth, recipe, breath, midi + semitones, filter),
  );
  const opened = (bright) => recipe.closed * (recipe.opened / recipe.closed) ** bright;
  follow(filter.frequency, when, brightnessOf(recipe, shape, length), opened);
  filter.connect(loudness);

  const sounding = note.midi.map((midi, i) => {
    const reed = context.createOscillator();
    reed.setPeriodicWave(reedWave(context, recipe, breath));
    // The reeds of a chord are a little out, so that they beat.
    const away = note.midi.length > 1 ? (i % 2 ? recipe.beating : -recipe.beating) : 0;
    reed.frequency.value = hertz(midi + semitones);
    reed.detune.value = away;
    const pitch =
      note.slide && !shape.pitch.length
        ? slideOf(recipe, note.slide, length)
        : along(shape.pitch, length);
    follow(reed.detune, when, pitch, (cents) => cents + away);
    if (shape.turns && note.neighbour) shake(reed, midi, note.neighbour[i], shape, when, length);
    const own = context.createGain();
    own.gain.value = levels[i];
    reed.connect(own).connect(filter);
    reed.start(when);
    reed.stop(end + 0.01);
    return reed;
  });
  const reeds = [...sounding];
  if (shape.wave) sounding.push(sway(context, reeds, swayed, shape.wave, when, end));
  if (shape.puff) sounding.push(puff(context, out, level * shape.puff, when));
  return sounding;
}

// The shape's brightness, dull in the first moments of the note.
function brightnessOf(recipe, shape, length) {
  const points = along(shape.brightness, length);
  const times = [0, Math.min(recipe.opening, length), ...points.map(({ at }) => at)];
  return times
    .sort((one, other) => one - other)
    .map((at) => {
      const open = Math.min(1, recipe.dull + ((1 - recipe.dull) * at) / recipe.opening);
      return { at, value: valueAt(points, at, 1) * open };
    });
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
