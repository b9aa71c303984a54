// Links into the page: #porch opens the lick of that name, #porch@60bpm at a tempo, #porch@80%
// at a share of the tune's; #tune and #bars-3-6 likewise.

function asked(hash) {
  let text = hash.replace(/^#/, "");
  try {
    text = decodeURIComponent(text);
  } catch {
    // "80%" as it is typed: not encoded
  }
  const found = /^(.+?)(?:@(\d+(?:\.\d+)?)(bpm|%))?$/.exec(text.trim());
  if (!found) return null;
  const place = placeNamed(found[1]);
  if (!place) return null;
  const amount = Number(found[2]);
  const percent = !found[2] ? null : found[3] === "%" ? amount : percentOf(amount);
  return { place, percent };
}

function placeNamed(name) {
  const folded = name.toLowerCase();
  if (folded === "tune") return places[0];
  const lick = places.find((place) => place.kind === "lick" && place.key.toLowerCase() === folded);
  if (lick) return lick;
  const bars = /^bars?-(\d+)(?:-(\d+))?$/.exec(folded);
  if (!bars) return null;
  const index = (number) => lesson.bars.findIndex((bar) => bar.number === Number(number));
  const [first, last] = [index(bars[1]), index(bars[2] ?? bars[1])];
  if (first < 0 || last < first) return null;
  return { first, last, kind: "bars", name: barsName(first, last) };
}

// Open what the address asks for; gives whether it asks for anything that is here.
function openAddress() {
  const wanted = asked(location.hash);
  if (!wanted) return false;
  if (player.playing) player.stop();
  setLoop(wanted.place.kind !== "tune");
  choose(wanted.place);
  if (wanted.percent !== null) setPercent(wanted.percent);
  sheet.cells[lesson.bars[wanted.place.first].cell].scrollIntoView({ block: "start" });
  tell(`${wanted.place.said ?? wanted.place.name}, ${byId("tempo").getAttribute("aria-valuetext")}`);
  return true;
}
