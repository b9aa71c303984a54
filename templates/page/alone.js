// Two pages of one browser never sound together: the one that begins last goes on.

const SOUNDING = "formsheet.sounding";

class Alone {
  // `yielded`: called when another page begins to sound.
  constructor(yielded) {
    this.yielded = yielded;
    this.name = `${Date.now()}.${Math.random()}`;
    // Where one of the two ways is closed (a page from the disk, a full store), the other is open.
    try {
      this.channel = new BroadcastChannel(SOUNDING);
      this.channel.addEventListener("message", ({ data }) => this.hear(data));
    } catch {
      this.channel = null;
    }
    addEventListener("storage", ({ key, newValue }) => key === SOUNDING && this.hear(newValue));
  }

  begin() {
    const message = `${this.name} ${Date.now()}`;
    this.channel?.postMessage(message);
    try {
      localStorage.setItem(SOUNDING, message);
    } catch {
      // The channel is left.
    }
  }

  hear(message) {
    if (typeof message === "string" && message.split(" ")[0] !== this.name) this.yielded();
  }
}
