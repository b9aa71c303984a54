// The band and the clicks: plain sounds that leave room for the guide.

// Drums by their General MIDI number: noise through a filter, or a tone that falls.
const DRUMS = {
  36: { tone: [120, 46], seconds: 0.16, level: 0.9 },
  37: { tone: [900, 700], noise: ["bandpass", 1800], seconds: 0.05, level: 0.3 },
  38: { tone: [210, 160], noise: ["highpass", 1400], seconds: 0.14, level: 0.4 },
  42: { noise: ["highpass", 7500], seconds: 0.05, level: 0.22 },
  49: { noise: ["highpass", 4500], seconds: 0.9, level: 0.25 },
  51: { noise: ["bandpass", 6500], seconds: 0.22, level: 0.25 },
};
const CLICK_HERTZ = { 76: 1500, 77: 1000 }; // accented, plain
const CLICK_SECONDS = 0.045;
const CLICK_LEVEL = 0.6;

// Levels of the voices, so that each is as loud beside the guide as it is in the clips.
const BAND_LEVELS = { bass: 0.572, chord: 0.438, drum: 0.464 };
const FADING = { bass: 3.5, chord: 2.0 }; // a second: as strings of the clips fade

// Play an event of the band or a click into `out`; gives the nodes that sound. `balance` is the
// gain of the band in this lesson.
function playBand(context, out, event, when, seconds, semitones, balance = 1) {
  const loudness = (event.loudness ?? 1) * (BAND_LEVELS[event.voice] ?? 1) * balance;
  if (event.voice === "drum") return playDrum(context, out, DRUMS[event.midi[0]], loudness, when);
  if (event.voice === "click") {
    return playClick(context, out, event.midi[0], event.loudness ?? 1, when);
  }
  const bass = event.voice === "bass";
  return event.midi.map((midi) => {
    return pluck(context, out, midi + semitones, loudness, when, seconds, bass);
  });
}

function fading(context, out, level, when, seconds) {
  const gain = context.createGain();
  gain.gain.setValueAtTime(0, when);
  gain.gain.linearRampToValueAtTime(level, when + 0.004);
  gain.gain.exponentialRampToValueAtTime(level / 200, when + seconds);
  gain.connect(out);
  return gain;
}

function pluck(context, out, midi, level, when, seconds, bass) {
  const tone = context.createOscillator();
  tone.type = bass ? "triangle" : "sawtooth";
  tone.frequency.value = hertz(midi);
  const filter = context.createBiquadFilter();
  filter.type = "lowpass";
  filter.frequency.value = bass ? 700 : 1300;
  const gain = context.createGain();
  const release = Math.min(0.03, seconds / 2);
  const held = Math.max(seconds - release, 0.009);
  const left = Math.exp(-held * (bass ? FADING.bass : FADING.chord));
  gain.gain.setValueAtTime(0, when);
  gain.gain.linearRampToValueAtTime(level, when + 0.008);
  gain.gain.exponentialRampToValueAtTime(level * left, when + held);
  gain.gain.linearRampToValueAtTime(0, when + seconds);
  tone.connect(filter).connect(gain).connect(out);
  tone.start(when);
  tone.stop(when + seconds + 0.01);
  return tone;
}

function playDrum(context, out, drum, loudness, when) {
  const sounding = [];
  if (!drum) return sounding;
  const gain = fading(context, out, drum.level * loudness, when, drum.seconds);
  if (drum.tone) {
    const tone = context.createOscillator();
    tone.frequency.setValueAtTime(drum.tone[0], when);
    tone.frequency.exponentialRampToValueAtTime(drum.tone[1], when + drum.seconds);
    tone.connect(gain);
    sounding.push(tone);
  }
  if (drum.noise) {
    const source = context.createBufferSource();
    source.buffer = noise(context);
    source.loop = true;
    const filter = context.createBiquadFilter();
    [filter.type, filter.frequency.value] = drum.noise;
    source.connect(filter).connect(gain);
    sounding.push(source);
  }
  for (const node of sounding) {
    node.start(when);
    node.stop(when + drum.seconds);
  }
  return sounding;
}

function playClick(context, out, number, loudness, when) {
  const tone = context.createOscillator();
  tone.type = "square";
  tone.frequency.value = CLICK_HERTZ[number];
  tone.connect(fading(context, out, loudness * CLICK_LEVEL, when, CLICK_SECONDS));
  tone.start(when);
  tone.stop(when + CLICK_SECONDS);
  return [tone];
}
