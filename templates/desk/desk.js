"use strict";
// Keeps the page up to date: on an event it fetches itself again and replaces what differs.

const LARGEST = 1.5; // times the size of the paper
const LEAST_PAUSE = 150; // milliseconds between two fetches, while a whole folder is being read
const ASK_AGAIN = 3000; // milliseconds after which a stream of news that was refused is asked for again

const home = new URL("../", document.currentScript.src); // every address begins with the key
const about = document.body.dataset;
const place = document.getElementById("sheet");
const lost = document.getElementById("lost");
let number = Number(about.number);
let source = null;
let fetching = false;
let again = false;
let pressed = false;

function listen() {
  if (source || document.hidden) return;
  source = new EventSource(new URL(`events?since=${number}`, home));
  source.onopen = () => { lost.hidden = true; };
  source.onerror = () => {
    lost.hidden = false;
    if (source?.readyState === EventSource.CLOSED) {
      source = null;
      setTimeout(listen, ASK_AGAIN);
    }
  };
  source.onmessage = (event) => {
    const news = JSON.parse(event.data);
    number = news.number;
    if (!about.name || news.names.includes(about.name)) refresh();
  };
}

// A browser has few connections to one server: a hidden page closes its own.
function rest() {
  if (!document.hidden) return listen();
  source?.close();
  source = null;
}

async function refresh() {
  if (fetching || pressed) { again = true; return; }
  fetching = true;
  try {
    const answer = await fetch(location.pathname);
    const text = await answer.text();
    if (pressed) again = true;
    else if (answer.ok) take(new DOMParser().parseFromString(text, "text/html"));
  } catch {
    // The stream of news says that the server is lost, and when it is back.
  }
  setTimeout(() => {
    fetching = false;
    catchUp();
  }, LEAST_PAUSE);
}

function catchUp() {
  if (!again) return;
  again = false;
  refresh();
}

// A link that is replaced while the button is down is not followed: the page waits until it is up.
function press(event) {
  if (event.type === "pointerdown") { pressed = event.button === 0; return; }
  setTimeout(() => { pressed = false; catchUp(); });
}

function take(page) {
  const focused = document.activeElement?.getAttribute("href");
  document.title = page.title;
  const live = document.getElementById("live");
  const news = page.getElementById("live");
  if (!live.isEqualNode(news)) live.replaceWith(news); // what is the same keeps its selection
  if (focused) document.querySelector(`a[href="${CSS.escape(focused)}"]`)?.focus();
  const coming = page.getElementById("sheet");
  if (!place || !coming) return;
  place.className = coming.className;
  if (coming.dataset.number !== place.dataset.number) {
    place.dataset.number = coming.dataset.number;
    show();
  }
}

// The new sheet is set out of sight and then takes the place of the old one: nothing flickers.
function show() {
  const wanted = place?.dataset.number;
  if (!wanted || wanted === "0") return;
  const frame = document.createElement("iframe");
  frame.className = "coming";
  frame.title = "The sheet";
  frame.src = new URL(`sheet/${about.name}?number=${wanted}`, home);
  frame.addEventListener("load", async () => {
    fit(frame);
    await frame.contentDocument.fonts.ready;
    if (place.dataset.number !== wanted) return frame.remove();
    for (const old of place.querySelectorAll("iframe")) if (old !== frame) old.remove();
    frame.className = "";
    fit(frame);
    place.dataset.shown = wanted;
  });
  place.append(frame);
}

// As wide as the window.
function fit(frame) {
  const inside = frame.contentDocument;
  if (!inside?.body) return;
  const room = place.clientWidth;
  const { width, height } = inside.body.getBoundingClientRect();
  frame.style.width = `${width}px`;
  frame.style.height = `${height}px`;
  const scale = Math.min(room / width, LARGEST);
  frame.style.transform = `scale(${scale})`;
  frame.style.marginLeft = `${Math.max(0, (room - width * scale) / 2)}px`;
  place.style.height = `${height * scale + place.offsetHeight - place.clientHeight}px`;
}

if (place) {
  new ResizeObserver(() => {
    const frame = place.querySelector("iframe:not(.coming)");
    if (frame && frame.dataset.room !== String(place.clientWidth)) {
      frame.dataset.room = place.clientWidth;
      fit(frame);
    }
  }).observe(place);
  show();
}
for (const type of ["pointerdown", "pointerup", "pointercancel", "contextmenu", "blur"]) addEventListener(type, press, true);
document.addEventListener("visibilitychange", rest);
addEventListener("pageshow", listen);
addEventListener("pagehide", () => { source?.close(); source = null; });
listen();
