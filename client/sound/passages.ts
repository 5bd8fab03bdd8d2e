/** Which stretches of the take a selection means to the ear. */
import type { AccountIndex } from "../shell/account-index.ts";
import type { Selection } from "../shell/selection.ts";

/** From and to in performed seconds. */
export interface Passage {
  readonly from: number;
  readonly to: number;
}

export function passagesOf(index: AccountIndex, selection: Selection): Passage[] {
  const bars = index.analysis.alignment.bars;
  const barPassages = (places: readonly { chorus: number; bar: number }[]): Passage[] =>
    join(
      places.flatMap(({ chorus, bar }) => {
        const time = index.bar(chorus, bar);
        if (!time) return [];
        // A note played just before its bar line belongs to its bar all the same, and the next bar's early one does not.
        const first = index.inBar(chorus, bar)[0]?.onset ?? time.start;
        const after = index.solo.find((note) => note.onset > first && follows(note, chorus, bar));
        return [{ from: Math.min(time.start, first), to: Math.min(time.end, after?.onset ?? time.end) }];
      }),
    );
  switch (selection.kind) {
    case "none": {
      const first = Math.min(bars[0]?.start ?? 0, index.solo[0]?.onset ?? 0);
      const last = index.analysis.notes.reduce((end, note) => Math.max(end, note.onset + note.duration), 0);
      return [{ from: Math.max(0, first), to: Math.max(last, bars.at(-1)?.end ?? 0) }];
    }
    case "chorus":
      return barPassages(bars.filter((bar) => bar.chorus === selection.chorus));
    case "bar":
      return barPassages(
        index.choruses
          .filter((chorus) => selection.chorus === null || chorus === selection.chorus)
          .map((chorus) => ({ chorus, bar: selection.bar })),
      );
    case "finding": {
      const finding = index.finding.get(selection.finding);
      if (finding && finding.bars.length > 0) return barPassages(finding.bars);
      return notePassages(index, selection);
    }
    case "motif": {
      const motif = index.motif.get(selection.motif);
      return (motif?.occurrences ?? []).flatMap((occurrence) => {
        const notes = index.between(occurrence.firstNote, occurrence.lastNote);
        const [first, last] = [notes[0], notes.at(-1)];
        return first && last ? [{ from: first.onset, to: last.onset + last.duration }] : [];
      });
    }
    default:
      return notePassages(index, selection);
  }
}

/** Neighbouring notes are one passage. */
function notePassages(index: AccountIndex, selection: Selection): Passage[] {
  const ids = index.notesOf(selection) ?? new Set<string>();
  const passages: { from: number; to: number; order: number }[] = [];
  for (const note of index.solo) {
    if (!ids.has(note.id)) continue;
    const order = index.order.get(note.id)!;
    const last = passages.at(-1);
    if (last && last.order === order - 1) {
      last.to = Math.max(last.to, note.onset + note.duration);
      last.order = order;
    } else passages.push({ from: note.onset, to: note.onset + note.duration, order });
  }
  return passages.map(({ from, to }) => ({ from, to }));
}

function join(passages: readonly Passage[]): Passage[] {
  const sorted = [...passages].sort((a, b) => a.from - b.from);
  const joined: { from: number; to: number }[] = [];
  for (const passage of sorted) {
    const last = joined.at(-1);
    if (last && passage.from - last.to < 0.05) last.to = Math.max(last.to, passage.to);
    else joined.push({ ...passage });
  }
  return joined;
}

const follows = (note: { readonly chorus: number; readonly bar: number }, chorus: number, bar: number) =>
  note.chorus > chorus || (note.chorus === chorus && note.bar > bar);
