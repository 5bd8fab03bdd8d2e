import { keyboardName } from "../pitch/index.ts";
import { type Note, type SourceBar, type Take, tickAt } from "../take/index.ts";
import { EMPTY_BAR, EMPTY_NOTE, type ScoreBar, type ScoreModel, type ScoreNote } from "./score-model.ts";

/**
 * The whole take as a page of notation, tick for tick, bars as played out: nothing is rounded and nothing added, so
 * that reading it again gives the same take. A recording without bars gets those that its meters claim.
 */
export function scoreOfTake(take: Take): ScoreModel {
  const bars = take.bars.length > 0 ? take.bars : claimedBars(take);
  const fifths = take.keys[0]?.fifths ?? 0;
  const contents = bars.map((): { notes: ScoreNote[]; chords: { tick: number; text: string }[] } => ({
    notes: [],
    chords: [],
  }));
  for (const note of take.notes) {
    const index = note.printed?.bar ?? barAt(bars, note.tick);
    contents[index]!.notes.push(scoreNote(note, note.tick - bars[index]!.tick, fifths));
  }
  for (const { tick, text } of take.chords) {
    const index = barAt(bars, tick);
    contents[index]!.chords.push({ tick: tick - bars[index]!.tick, text });
  }
  return {
    title: take.title,
    rights: take.texts.find(({ kind }) => kind === "copyright")?.text ?? null,
    ticksPerQuarter: take.ticksPerQuarter,
    parts: take.parts.map(({ id, name, staves, program }) => ({ id, name, staves, program })),
    meters: take.meters,
    keys: take.keys,
    tempos: take.tempoStated ? take.tempos : [],
    swing: take.swing,
    texts: take.texts.filter(({ kind }) => kind === "text" || kind === "marker" || kind === "cue"),
    pedal: take.pedal.map(({ seconds, down }) => ({ tick: tickAt(take, seconds), down })),
    bars: bars.map(
      ({ number, ticks, implicit }, index): ScoreBar => ({
        ...EMPTY_BAR,
        number,
        ticks,
        implicit,
        ...contents[index]!,
      }),
    ),
  };
}

function scoreNote(note: Note, tick: number, fifths: number): ScoreNote {
  const { printed } = note;
  return {
    ...EMPTY_NOTE,
    id: note.id,
    part: note.part,
    tick,
    ticks: note.ticks,
    spelling: printed?.spelling ?? keyboardName(note.pitch, fifths < 0 ? "flats" : "sharps"),
    staff: printed?.staff ?? 1,
    voice: printed?.voice ?? null,
    velocity: note.velocity,
    grace: printed?.grace ?? null,
    fingering: printed?.fingering ?? [],
    lyrics: printed?.lyric == null ? [] : [printed.lyric],
  };
}

function claimedBars(take: Take): SourceBar[] {
  const lastNote = take.notes.reduce((end, note) => Math.max(end, note.tick + note.ticks), 1);
  const end = take.chords.reduce((last, chord) => Math.max(last, chord.tick + 1), lastNote);
  const bars: SourceBar[] = [];
  let tick = 0;
  let meter = 0;
  while (tick < end) {
    while (take.meters[meter + 1] !== undefined && take.meters[meter + 1]!.tick <= tick) meter++;
    const { beats, unit } = take.meters[meter]!;
    const whole = Math.max(1, Math.round((beats * 4 * take.ticksPerQuarter) / unit));
    // A meter that begins inside a bar cuts it short.
    const next = take.meters[meter + 1]?.tick ?? Number.POSITIVE_INFINITY;
    const ticks = Math.min(whole, next - tick);
    bars.push({ number: String(bars.length + 1), tick, ticks, implicit: false, pass: 0 });
    tick += ticks;
  }
  return bars;
}

function barAt(bars: readonly SourceBar[], tick: number): number {
  let low = 0;
  let high = bars.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (bars[middle]!.tick <= tick) low = middle;
    else high = middle - 1;
  }
  return low;
}
