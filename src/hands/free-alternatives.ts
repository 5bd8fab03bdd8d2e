import type { HandFit } from "../account.ts";
import type { PlacedNote } from "../take/index.ts";
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import { fingeringsWithin } from "./fingerings.ts";
import type { HandLine } from "./hand-line.ts";
import { LINE_FINGERING, PATH_WEIGHTS } from "./line-weights.ts";

type FreeAlternative = NonNullable<HandFit["freeAlternatives"]>[number];

/** Longest stretch whose other fingerings are told together; more would be a list of combinations. */
const LONGEST = 12;
/** Fingerings looked at, and told, for each stretch. */
const LOOKED_AT = 12;
const TOLD = 3;
/** Notes on either side whose fingers stay as they are: three notes in a row have costs together. */
const CONTEXT = 2;

/**
 * For notes outside every placement, other fingers that cost at most `PLACEMENT_COSTS.alternatives` points more, what
 * is around them left as it is; each from the first to the last note that it fingers otherwise. Printed fingers and
 * keys struck together have no alternative here.
 */
export function freeAlternatives(
  notes: readonly PlacedNote[],
  lines: readonly HandLine[],
): FreeAlternative[] {
  const rows = lines.flatMap((line) =>
    stretchesOf(line).flatMap(([start, end]) => othersOf(notes, line, start, end)),
  );
  return rows.sort((a, b) => a.first - b.first || a.row.cost - b.row.cost).map(({ row }) => row);
}

/** Stretches of events, first and after the last, that are played free of a placement and hang together. */
function stretchesOf(line: HandLine): [number, number][] {
  const stretches: [number, number][] = [];
  line.events.forEach((event, i) => {
    const played = event.notes.length === 1 ? line.played.get(event.notes[0]!) : undefined;
    if (played === undefined || played.run !== null || played.printed || played.finger === null) return;
    const open = stretches[stretches.length - 1];
    if (open !== undefined && open[1] === i && event.ease < 1 && i - open[0] < LONGEST) open[1] = i + 1;
    else stretches.push([i, i + 1]);
  });
  return stretches;
}

function othersOf(
  notes: readonly PlacedNote[],
  line: HandLine,
  start: number,
  end: number,
): { first: number; row: FreeAlternative }[] {
  const [from, to] = [Math.max(0, start - CONTEXT), Math.min(line.events.length, end + CONTEXT)];
  const events = line.events.slice(from, to);
  const chosen = events.map((event) => line.played.get(event.notes[event.notes.length - 1]!)!.finger);
  if (chosen.includes(null)) return [];
  const keys = events.map((event) => event.keys[event.keys.length - 1]!);
  const inside = (k: number) => from + k >= start && from + k < end;
  const { points } = line.strain.points;
  const found = fingeringsWithin(keys, COST.alternatives, LOOKED_AT, {
    ...LINE_FINGERING,
    own: (k, finger) => points[6 * (from + k) + finger]!,
    fixed: chosen.map((finger, k) => (inside(k) ? null : finger)),
    ease: events.map((event, k) => (k === 0 ? 1 : Math.min(1 - PATH_WEIGHTS.together.apart, event.ease))),
  });
  // Where the chosen fingers are not the cheapest (a slide, a change on a repeated key), what they cost is what counts.
  const own = found.find(({ fingers }) => fingers.every((finger, k) => finger === chosen[k]))?.cost;
  if (own === undefined) return [];
  const told: { first: number; row: FreeAlternative }[] = [];
  for (const { fingers, cost } of found) {
    const differing = fingers.flatMap((finger, k) => (finger === chosen[k] ? [] : [k]));
    const dearer = cost - own;
    if (differing.length === 0 || dearer > COST.alternatives) continue;
    const [a, b] = [differing[0]!, differing[differing.length - 1]!];
    const first = events[a]!.notes[0]!;
    told.push({
      first,
      row: {
        firstNote: notes[first]!.id,
        lastNote: notes[events[b]!.notes[0]!]!.id,
        fingers: fingers.slice(a, b + 1),
        cost: Math.max(0, dearer),
      },
    });
    if (told.length === TOLD) break;
  }
  return told;
}
