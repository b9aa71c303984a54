// A stretch of whole bars to be played, once or round and round, in beats of the tune.

const NEAR = 1e-6; // beats

// The notes of bars `first` to `last` (indices, both counted), with the pick-up that leads in;
// the pick-up of what follows is not part of them. `opens`: the bar in which the pick-up stands,
// else `first`. Where the end leaves no room for the
// pick-up of the next time round, a bar of rest is added (`rest`, in beats).
function excerptOf(lesson, first, last) {
  const { sound, bars, facts } = lesson;
  const start = bars[first].start;
  const end = bars[last].start + facts.beats;
  const guide = sound.guide
    .filter((note) => note.home >= first && note.home <= last)
    .map((note) => ({ ...note, length: Math.min(note.length, end - note.start) }));
  const within = (event) => event.start > start - NEAR && event.start < end - NEAR;
  const leadOf = (notes) =>
    Math.max(0, start - Math.min(start, ...notes.map((note) => note.start)));
  const lead = leadOf(guide);
  const sounds = Math.max(start, ...guide.map((note) => note.start + note.length));
  const wanted = sounds + leadOf(guide.filter((note) => !note.once)) - end;
  const rest = wanted > NEAR ? Math.ceil((wanted - NEAR) / facts.beats) * facts.beats : 0;
  const band = [...sound.band, ...sound.clicks].filter(within);
  const events = [...guide, ...band].sort((one, other) => one.start - other.start);
  const opens = Math.max(0, bars.findLastIndex((bar) => bar.start <= start - lead + NEAR));
  return { first, last, opens, start, end, lead, rest, events };
}

// How many bars are counted for a wish of `bars`: the pick-up is played in the last of them, and
// where it would leave less than half a bar to count, one more is counted.
function countedBars(lesson, excerpt, bars) {
  const { beats } = lesson.facts;
  if (!bars || !excerpt.lead) return bars;
  return bars * beats - excerpt.lead >= beats / 2 ? bars : bars + 1;
}

// One time round as a run of events from beat `from` to beat `to`. `counted`: bars of clicks
// before it; `returns`: the next time round follows without a count, so its pick-up is heard,
// unless it is played only once. `voiced`: whether the harmonica sounds, and in the next time
// round (`nextVoiced`).
function roundOf(lesson, excerpt, round) {
  const { counted, leads, loops, returns, voiced = true, nextVoiced = true } = round;
  const { beats } = lesson.facts;
  const clicks = Array.from({ length: counted }, (_, bar) =>
    lesson.sound.count.map((click) => ({
      ...click,
      voice: "count",
      start: click.start + excerpt.start + (bar - counted) * beats,
    })),
  ).flat();
  const to = excerpt.end + (loops ? excerpt.rest : 0);
  const period = to - excerpt.start;
  const isLead = (event) => event.start < excerpt.start - NEAR;
  const events = excerpt.events
    .filter((event) => leads || !isLead(event))
    .map((event) => (voiced || event.voice !== "guide" ? event : { ...event, silent: true }));
  const next = returns
    ? excerpt.events
        .filter((event) => isLead(event) && !event.once)
        .map((note) => ({ ...note, start: note.start + period, silent: !nextVoiced, place: note.start }))
    : [];
  return {
    from: excerpt.start - Math.max(counted * beats, leads ? excerpt.lead : 0),
    to,
    events: [...clicks, ...events, ...next].sort((one, other) => one.start - other.start),
  };
}
