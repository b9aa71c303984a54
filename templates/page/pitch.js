// The pitch of a moment of sound, by the McLeod pitch method (P. McLeod and G. Wyvill, "A smarter
// way to find pitch", International Computer Music Conference 2005): the normalised square
// difference function, its first peak that is nearly as high as the highest, placed by a parabola.

const LOWEST_HERTZ = 95; // under the lowest reed of a low harp
const HIGHEST_HERTZ = 3400; // over the highest
const NEARLY = 0.88; // of the highest peak: the paper's k, 0.8 to 1
const FRAME_SECONDS = 0.042; // of sound that a pitch is found in
const LONG_LAG = 160; // samples: periods shorter than half of it are measured over several

// Gives `{ midi, clarity }` (midi with its fraction, clarity 0 to 1) of samples at a rate, or null
// where there is no pitch.
function pitchOf(samples, rate) {
  const most = Math.min(Math.ceil(rate / LOWEST_HERTZ), samples.length >> 1);
  const least = Math.floor(rate / HIGHEST_HERTZ);
  const difference = normalisedDifference(samples, most + 1);
  const peaks = keyMaxima(difference, least, most);
  if (!peaks.length) return null;
  const highest = Math.max(...peaks.map((peak) => peak.height));
  const { lag, height } = peaks.find((peak) => peak.height >= NEARLY * highest);
  const period = finer(peaks, lag);
  return { midi: 69 + 12 * Math.log2(rate / period / 440), clarity: Math.min(height, 1) };
}

// A short period is measured over several of them, for a parabola is rough where a peak has but a
// few samples. Strong upper partials have peaks of their own beside the one that is looked for.
function finer(peaks, lag) {
  const times = Math.floor(LONG_LAG / lag);
  if (times < 2) return lag;
  const away = (peak) => Math.abs(peak.lag - times * lag);
  const far = peaks.reduce((one, other) => (away(other) < away(one) ? other : one));
  return away(far) < lag / 4 ? far.lag / times : lag;
}

// n'(lag) of the paper: 2 sum(x[i] x[i + lag]) / sum(x[i]^2 + x[i + lag]^2), for lags under `lags`.
function normalisedDifference(samples, lags) {
  const { length } = samples;
  let energy = 0;
  for (const x of samples) energy += x * x;
  let both = 2 * energy;
  const found = new Float32Array(lags);
  for (let lag = 0; lag < lags; lag += 1) {
    let product = 0;
    for (let i = 0; i < length - lag; i += 1) product += samples[i] * samples[i + lag];
    found[lag] = both > 1e-9 ? (2 * product) / both : 0;
    both -= samples[lag] ** 2 + samples[length - 1 - lag] ** 2;
  }
  return found;
}

// The highest point between each rise through zero and the fall after it.
function keyMaxima(difference, least, most) {
  const peaks = [];
  let lag = 1;
  while (lag < most && difference[lag] > 0) lag += 1; // the peak at 0 is every sound's
  let best = 0;
  for (; lag < most; lag += 1) {
    if (difference[lag] <= 0) {
      if (best) peaks.push(placed(difference, best));
      best = 0;
    } else if (
      lag >= least && difference[lag] >= difference[lag - 1] &&
      difference[lag] > difference[lag + 1] && (!best || difference[lag] > difference[best])
    ) best = lag;
  }
  if (best) peaks.push(placed(difference, best));
  return peaks;
}

// Between the samples: the top of the parabola through a peak and its neighbours.
function placed(difference, at) {
  const [before, here, after] = [difference[at - 1], difference[at], difference[at + 1]];
  const bend = before - 2 * here + after;
  const shift = bend ? (0.5 * (before - after)) / bend : 0;
  return { lag: at + shift, height: here - 0.25 * (before - after) * shift };
}
