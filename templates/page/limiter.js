// The last of the chain: however the levels stand, nothing leaves the page above full scale.

const LINEAR = 0.7; // up to here a sample passes unchanged
const CEILING = 0.98;
const WIDEST = 4; // of full scale: what comes in above it is taken as that
const POINTS = 8193;

// Compressed where it is loud, then bounded: straight to LINEAR, from there bent towards CEILING.
function limiter(context) {
  const compressor = context.createDynamicsCompressor();
  compressor.threshold.value = -9;
  compressor.ratio.value = 8;
  const into = context.createGain();
  into.gain.value = 1 / WIDEST;
  const bend = context.createWaveShaper();
  bend.curve = Float32Array.from({ length: POINTS }, (_, at) => {
    const x = WIDEST * ((2 * at) / (POINTS - 1) - 1);
    const over = Math.abs(x) - LINEAR;
    const room = CEILING - LINEAR;
    return over <= 0 ? x : Math.sign(x) * (LINEAR + room * Math.tanh(over / room));
  });
  compressor.connect(into).connect(bend).connect(context.destination);
  return compressor;
}
