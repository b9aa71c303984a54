// Both hands are on the harp: the screen stays lit, and keys of a headset or of the lock screen
// play, stop and lead to the next lick.

const SILENT_SECONDS = 10; // some browsers show no media keys for less than five
const SILENT_RATE = 8000; // samples a second

class HandsFree {
  // `actions`: the functions `play`, `stop` and `lick` (called with +1 or -1).
  constructor(actions) {
    this.actions = actions;
    this.lock = null;
    this.on = false;
    // A phone's silent switch does not silence what is played back (W3C Audio Session).
    if (navigator.audioSession) navigator.audioSession.type = "playback";
    const handlers = {
      play: actions.play,
      pause: actions.stop,
      stop: actions.stop,
      nexttrack: () => actions.lick(1),
      previoustrack: () => actions.lick(-1),
    };
    for (const [name, handler] of Object.entries(handlers)) {
      try {
        navigator.mediaSession?.setActionHandler(name, handler);
      } catch {
        // A browser that does not know this key.
      }
    }
  }

  // It plays: `words` are shown on a lock screen.
  async begin(words, title) {
    this.on = true;
    this.describe(words, title);
    this.element ??= this.silence();
    this.element.play().catch(() => {}); // not allowed without a press: the keys are missed alone
    await this.light();
  }

  end() {
    this.on = false;
    this.element?.pause();
    if (navigator.mediaSession) navigator.mediaSession.playbackState = "paused";
    this.lock?.release().catch(() => {});
    this.lock = null;
  }

  describe(words, title) {
    if (!navigator.mediaSession || !window.MediaMetadata) return;
    navigator.mediaSession.metadata = new MediaMetadata({ title: words, artist: title });
    navigator.mediaSession.playbackState = "playing";
  }

  // Keep the screen lit (W3C Screen Wake Lock); asked for anew when the page is seen again.
  async light() {
    if (!this.on || document.hidden || (this.lock && !this.lock.released)) return;
    try {
      const lock = await navigator.wakeLock?.request("screen");
      if (this.on) this.lock = lock;
      else lock?.release();
    } catch {
      this.lock = null; // refused: low battery, or a browser that has none
    }
  }

  // Browsers give media keys to a media element only: one that plays silence, round and round.
  silence() {
    const samples = SILENT_SECONDS * SILENT_RATE;
    const bytes = new Uint8Array(44 + samples).fill(128, 44);
    const view = new DataView(bytes.buffer);
    const text = (at, letters) => [...letters].forEach((each, i) => { bytes[at + i] = each.charCodeAt(0); });
    text(0, "RIFF");
    view.setUint32(4, 36 + samples, true);
    text(8, "WAVEfmt ");
    view.setUint32(16, 16, true);
    view.setUint16(20, 1, true); // PCM
    view.setUint16(22, 1, true); // one channel
    view.setUint32(24, SILENT_RATE, true);
    view.setUint32(28, SILENT_RATE, true);
    view.setUint16(32, 1, true);
    view.setUint16(34, 8, true); // bits
    text(36, "data");
    view.setUint32(40, samples, true);
    let letters = "";
    for (let at = 0; at < bytes.length; at += 8192) {
      letters += String.fromCharCode(...bytes.subarray(at, at + 8192));
    }
    const element = new Audio(`data:audio/wav;base64,${btoa(letters)}`);
    element.loop = true;
    // Stopped from outside: a call, or a headset that is unplugged.
    element.addEventListener("pause", () => this.on && element.paused && this.actions.stop());
    return element;
  }
}
