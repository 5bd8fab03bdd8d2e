import type { AccountMotif, MotifViewpoint } from "../account.ts";
import type { Degree } from "../chart/index.ts";
import { type Finger, type LineNote, melodicLine, type PlacedNote } from "../take/index.ts";
import { binomialTail, falseDiscoveryRates } from "./chance.ts";
import { commonPrefixes } from "./common-prefix.ts";
import { visitRepeats } from "./repeats.ts";
import { suffixArray } from "./suffix-array.ts";
import { codesOf, OF_STEPS, symbolOf } from "./viewpoints.ts";

export type MotifNote = PlacedNote & {
  readonly degree: Degree | null;
  readonly finger: Finger | null;
  readonly phrase: string | null;
};

export function findMotifs(notes: readonly MotifNote[], _options: { seed: number }): AccountMotif[] {
  const line = melodicLine(notes);
  const views: MotifViewpoint[] = ["chromatic interval", "finger"];
  const found = views.flatMap((v) => repeatsIn(line, v));
  const tests = views.length * line.length;
  const q = falseDiscoveryRates(
    found.map((f) => f.p),
    tests,
  );
  const kept = found
    .map((f, i) => ({ ...f, q: q[i]! }))
    .filter((f) => f.q < 0.01)
    .sort((a, b) => b.starts.length * b.notes - a.starts.length * a.notes || a.p - b.p);
  const used = new Set<number>();
  const motifs: AccountMotif[] = [];
  for (const f of kept) {
    if (motifs.length === 10) break;
    const covered = f.starts.flatMap((s) => Array.from({ length: f.notes }, (_, k) => s + k));
    if (covered.filter((i) => used.has(i)).length > covered.length / 2) continue;
    for (const i of covered) used.add(i);
    motifs.push(motifOf(line, notes, f, `m${motifs.length + 1}`, covered.length));
  }
  return motifs;
}

interface Found {
  viewpoint: MotifViewpoint;
  starts: number[];
  notes: number;
  symbols: (number | string)[];
  expected: number;
  p: number;
}

function repeatsIn(line: readonly LineNote<MotifNote>[], viewpoint: MotifViewpoint): Found[] {
  const codes = codesOf(
    line.map((l) => l.note),
    viewpoint,
  );
  const n = codes.length;
  const seen = [...new Set(codes)].sort((a, b) => a - b);
  const rank = new Map(seen.map((c, i) => [c, i]));
  const text = codes.map((c) => rank.get(c)!);
  const sorted = suffixArray(text, seen.length);
  const shared = commonPrefixes(text, sorted);
  const count = new Map<number, number>();
  const single = new Array<number>(seen.length).fill(0);
  for (let i = 0; i < n; i++) {
    single[text[i]!]!++;
    if (i + 1 < n) {
      const key = text[i]! * seen.length + text[i + 1]!;
      count.set(key, (count.get(key) ?? 0) + 1);
    }
  }
  const extra = OF_STEPS[viewpoint] ? 1 : 0;
  const found: Found[] = [];
  visitRepeats(text, sorted, shared, 4 - extra, (length, from, to) => {
    const at = Array.from(sorted.subarray(from, to + 1)).sort((a, b) => a - b);
    if (text.subarray(at[0]!, at[0]! + length).some((s) => seen[s] === 0)) return;
    const starts: number[] = [];
    for (const s of at) if (starts.length === 0 || s >= starts[starts.length - 1]! + length) starts.push(s);
    if (starts.length < 2) return;
    let p = single[text[at[0]!]!]! / n;
    for (let k = 1; k < length; k++) {
      const [a, b] = [text[at[0]! + k - 1]!, text[at[0]! + k]!];
      p *= (count.get(a * seen.length + b) ?? 0) / single[a]!;
    }
    found.push({
      viewpoint,
      starts,
      notes: length + extra,
      symbols: Array.from(text.subarray(at[0]!, at[0]! + length), (s) => symbolOf(seen[s]!, viewpoint)),
      expected: n * p,
      p: binomialTail(starts.length - 1, n - 1, p),
    });
  });
  return found;
}

function motifOf(
  line: readonly LineNote<MotifNote>[],
  notes: readonly MotifNote[],
  found: Found,
  id: string,
  covered: number,
): AccountMotif {
  const first = found.starts[0]!;
  const choruses = new Map<number, number>();
  const occurrences = found.starts.map((start) => {
    const steps = line.slice(start, start + found.notes);
    const [a, b] = [notes[steps[0]!.first]!, notes[steps[steps.length - 1]!.last]!];
    const shifts = new Set(steps.map((s, k) => s.note.pitch - line[first + k]!.note.pitch));
    const shift = shifts.size === 1 ? [...shifts][0]! : null;
    choruses.set(a.chorus, (choruses.get(a.chorus) ?? 0) + 1);
    return {
      firstNote: a.id,
      lastNote: b.id,
      chorus: a.chorus,
      bar: a.bar,
      beat: a.beat,
      relation:
        shift === 0
          ? ("exact" as const)
          : found.viewpoint === "finger"
            ? ("same fingering" as const)
            : ("transposed" as const),
      change: "",
      transposition: shift,
      notes: steps.length,
      phrase: a.phrase,
    };
  });
  const heard = [...choruses.keys()].sort((x, y) => x - y);
  const lastChorus = notes.reduce((m, n) => Math.max(m, n.chorus), 0);
  const last = heard[heard.length - 1]!;
  const coverage = covered / line.length;
  return {
    id,
    viewpoint: found.viewpoint,
    pattern: found.symbols,
    length: found.notes,
    occurrences,
    expected: found.expected,
    q: Math.min(1, found.p * line.length),
    coverage,
    compactness: 1,
    weight: coverage,
    development: {
      firstHeard: { chorus: occurrences[0]!.chorus, bar: occurrences[0]!.bar },
      byChorus: heard.map((c) => ({ chorus: c, occurrences: choruses.get(c)! })),
      carriedOver: heard.slice(1),
      droppedFrom: last < lastChorus ? last + 1 : null,
    },
    answers: [],
  };
}
