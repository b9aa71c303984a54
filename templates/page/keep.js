// What the page remembers on this device. Where it may not, it goes on without.

const PREFIX = "formsheet.";

function kept(name, usual) {
  try {
    const found = JSON.parse(localStorage.getItem(PREFIX + name));
    return { ...usual, ...found };
  } catch {
    return { ...usual };
  }
}

function keep(name, value) {
  try {
    localStorage.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    // Private browsing or a full store: the page works on.
  }
}
