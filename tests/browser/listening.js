// Listens in: an audio context whose clock is the page's own (which a test sets going), and a
// record of everything that is started in it. What was started can be rendered afterwards.

(() => {
  const RATE = 44100;
  const SECONDS = 20; // that can be rendered
  const heard = [];
  window.heard = heard;

  window.AudioContext = class extends OfflineAudioContext {
    constructor() {
      super({ numberOfChannels: 1, length: RATE * SECONDS, sampleRate: RATE });
      this.born = performance.now();
      window.listened = this;
    }

    get currentTime() {
      return (performance.now() - this.born) / 1000;
    }

    get state() {
      return "running";
    }

    resume() {
      return Promise.resolve();
    }
  };

  const { setPeriodicWave } = OscillatorNode.prototype;
  const withReed = new WeakSet();
  OscillatorNode.prototype.setPeriodicWave = function (wave) {
    withReed.add(this);
    setPeriodicWave.call(this, wave);
  };
  const records = new WeakMap();
  const { start, stop } = AudioScheduledSourceNode.prototype;
  const startBuffer = AudioBufferSourceNode.prototype.start;
  const recorded = (begin) =>
    function (when) {
      const record = {
        when,
        until: null,
        now: window.listened.currentTime,
        hertz: this.frequency?.value ?? null,
        kind: withReed.has(this) ? "reed" : (this.type ?? "noise"),
      };
      records.set(this, record);
      heard.push(record);
      begin.call(this, when);
    };
  AudioScheduledSourceNode.prototype.start = recorded(start);
  AudioBufferSourceNode.prototype.start = recorded(startBuffer);
  AudioScheduledSourceNode.prototype.stop = function (when) {
    records.get(this).until = when;
    stop.call(this, when);
  };

  // The samples of what was started: 32-bit floats as base64.
  window.rendered = async () => {
    const samples = (await window.listened.startRendering()).getChannelData(0);
    const bytes = new Uint8Array(samples.buffer);
    let text = "";
    for (let i = 0; i < bytes.length; i += 8192) {
      text += String.fromCharCode(...bytes.subarray(i, i + 8192));
    }
    return btoa(text);
  };
})();
