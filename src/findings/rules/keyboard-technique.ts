import type { AccountPlacement } from "../../account.ts";
import { classOf, type Degree, parseChord, scaleNamed } from "../../chart/index.ts";
import { between, type Facts, ids } from "../facts.ts";
import { beyond, type Rule } from "../rule.ts";
import {
  countInWords,
  degreeInWords,
  intervalInWords,
  listInWords,
  placesInWords,
  shareInWords,
  timesInWords,
} from "../words.ts";

const FINGER_NAMES = ["", "thumb", "index finger", "middle finger", "ring finger", "little finger"] as const;

/** "the index finger on the fifth". */
function placementInWords(placement: Pick<AccountPlacement, "anchorFinger" | "anchorDegree">): string {
  const finger = FINGER_NAMES[placement.anchorFinger];
  return placement.anchorDegree === null
    ? `the ${finger} in one place`
    : `the ${finger} on the ${degreeInWords(placement.anchorDegree)}`;
}

/** A place that the student's own shape has on a chord and that was never used. */
interface UnusedStand {
  readonly chord: string;
  readonly anchor: string;
  readonly anchorDegree: Degree;
  /** Notes played on the chord in known places. */
  readonly played: number;
}

/**
 * Unused places of shapes that are used on the same chord, as far as the keys that the student strikes in that shape
 * belong to the chord's scale or its blue notes: a major third over a minor chord is nobody's second home.
 */
function unusedStands(facts: Facts): UnusedStand[] {
  const { account } = facts;
  const offsets = new Map<string, Set<number>>();
  for (const placement of account.placements) {
    const known = offsets.get(placement.shape) ?? new Set<number>();
    for (const note of between(facts.solo, facts.place, placement)) {
      if (note.placement === placement.id && note.slide === null)
        known.add(note.pitch - placement.anchorPitch);
    }
    offsets.set(placement.shape, known);
  }
  const scales = new Map(
    account.chart.bars.flatMap((bar) => bar.chords.map((one) => [one.symbol, one.scale])),
  );
  return account.handFit.byChord.flatMap(({ chord, used, unused }) => {
    const played = used.reduce((sum, one) => sum + one.notes, 0);
    const shapes = new Set(used.map((one) => one.shape));
    return unused
      .filter((one) => shapes.has(one.shape))
      .filter((one) => belongs(chord, scales.get(chord), one.anchor, [...(offsets.get(one.shape) ?? [])]))
      .map(({ anchor, anchorDegree }) => ({ chord, anchor, anchorDegree, played }));
  });
}

function belongs(
  symbol: string,
  scale: string | undefined,
  anchor: string,
  offsets: readonly number[],
): boolean {
  const chord = parseChord(symbol);
  if (chord === null || scale === undefined) return false;
  const tones = new Set([...scaleNamed(scale).tones, ...chord.tones.map((tone) => tone.semitones)]);
  // The blue third of a dominant chord is what half of the shapes are for.
  if (chord.quality === "dominant") tones.add(3);
  const above = classOf(anchor) - chord.rootClass;
  return offsets.every((offset) => tones.has((((above + offset) % 12) + 12) % 12));
}

/** Neighbouring fingers one after the other, up or down: five-finger practice rather than an idea. */
function isScale(fingers: readonly number[]): boolean {
  const steps = fingers.slice(1).map((finger, i) => finger - fingers[i]!);
  const turns = steps.filter((step, i) => i > 0 && step !== steps[i - 1]).length;
  return steps.every((step) => Math.abs(step) === 1) && turns <= 1;
}

function notesOf(facts: Facts, placements: readonly AccountPlacement[]) {
  return placements.flatMap((placement) => between(facts.solo, facts.place, placement));
}

export const KEYBOARD_TECHNIQUE: readonly Rule[] = [
  {
    id: "placements-both-used",
    heading: "keyboard technique",
    kind: "works",
    measure: "chords on which two or more fitting placements are used",
    threshold: 1,
    reason: "Each chord has at least two places for the hand (on the root and on the fifth) [practice].",
    least: { notes: 24 },
    importance: 0.65,
    find(facts, threshold) {
      const rich = facts.account.handFit.byChord.filter(
        (one) => one.used.filter((use) => use.notes >= 4).length >= 2,
      );
      if (rich.length < threshold || facts.account.handFit.share < 0.6) return null;
      const chords = new Set(rich.map((one) => one.chord));
      const placements = facts.account.placements.filter(
        (one) => one.chord !== null && chords.has(one.chord) && one.fitsChord,
      );
      const notes = notesOf(facts, placements);
      return {
        strength: beyond(rich.length, threshold - 1, 3),
        evidence: ids(notes.slice(0, 24)),
        words: {
          chords: listInWords(rich.slice(0, 3).map((one) => one.chord)),
          places: placesInWords(notes, facts.account.alignment.choruses),
        },
      };
    },
    wording: [
      "On {chords} you know more than one place for the hand and you use them ({places}).",
      "The hand moves with a plan: on {chords} it stands in more than one placement (see {places}).",
    ],
    practice: null,
  },
  {
    id: "one-placement-only",
    heading: "keyboard technique",
    kind: "practise",
    measure: "share of the placed notes that are played from one pitch of the anchor finger",
    threshold: 0.7,
    reason: "Seven notes in ten from one place of the hand, over more than one chord [practice].",
    least: { notes: 32 },
    importance: 0.9,
    find(facts, threshold) {
      const total = facts.account.placements.reduce((sum, one) => sum + one.notes, 0);
      if (total < 24) return null;
      const byPlace = new Map<string, AccountPlacement[]>();
      for (const placement of facts.account.placements) {
        const key = `${placement.shape}:${placement.anchorPitch}`;
        byPlace.set(key, [...(byPlace.get(key) ?? []), placement]);
      }
      const count = (list: readonly AccountPlacement[]) => list.reduce((sum, one) => sum + one.notes, 0);
      const favourite = [...byPlace.values()].sort((a, b) => count(b) - count(a))[0]!;
      const share = count(favourite) / total;
      if (share < threshold) return null;
      const other = facts.account.handFit.byChord.flatMap((one) =>
        one.unused.map((unused) => ({ ...unused, chord: one.chord })),
      )[0];
      return {
        strength: beyond(share, threshold, 0.3),
        evidence: ids(notesOf(facts, favourite).slice(0, 32)),
        words: {
          share: shareInWords(share),
          placement: placementInWords(favourite[0]!),
          other: other
            ? `on ${other.chord} the same shape also stands on ${other.anchor}, its ${degreeInWords(other.anchorDegree)}`
            : "try the next octave first",
        },
      };
    },
    wording: [
      "{share} of the notes come from one place of the hand ({placement}). You know it well now; {other}.",
      "The hand stays where it is: {share} of the notes with {placement}. Keep the fingers as they are and move the whole hand: {other}.",
    ],
    practice: {
      kind: "placements",
      title: "Every place on every chord",
      text: "Chord by chord, first in free time, then with the click: the shape on each of its places.",
    },
  },
  {
    id: "placement-unused",
    heading: "keyboard technique",
    kind: "practise",
    measure: "notes on a chord of which a fitting placement is never used",
    threshold: 12,
    reason: "With twelve notes on a chord there was time for both places [practice].",
    least: { notes: 32 },
    importance: 0.55,
    find(facts, threshold) {
      if (facts.account.handFit.share < 0.6) return null;
      for (const unused of unusedStands(facts)) {
        const notes = facts.solo.filter((note) => note.chord === unused.chord);
        if (unused.played < threshold) continue;
        return {
          strength: beyond(unused.played, threshold, 30),
          evidence: ids(notes.slice(0, 16)),
          words: {
            chord: unused.chord,
            anchor: unused.anchor,
            degree: degreeInWords(unused.anchorDegree),
            places: placesInWords(notes, facts.account.alignment.choruses),
          },
        };
      }
      return null;
    },
    wording: [
      "On {chord} the hand has another home that you have not visited: the same shape placed on {anchor}, the {degree}. Try it in {places}.",
    ],
    practice: {
      kind: "placements",
      title: "{chord}: the place on {anchor}",
      text: "The shape on {anchor} over {chord}, up and down, then your own phrase from there.",
    },
  },
  {
    id: "common-placement-kept",
    heading: "keyboard technique",
    kind: "works",
    measure: "share of the chord changes with a common placement at which the hand kept it",
    threshold: 0.5,
    reason: "Half of them: the economy is in the hand [practice].",
    least: { notes: 24 },
    importance: 0.6,
    find(facts, threshold) {
      const { common } = facts.account.handFit.shifts;
      const taken = common.filter((one) => one.taken);
      if (common.length < 4 || taken.length / common.length < threshold) return null;
      const notes = facts.solo.filter((note) =>
        taken.some((one) => one.chorus === note.chorus && one.bar === note.bar),
      );
      return {
        strength: beyond(taken.length / common.length, threshold, 0.5),
        evidence: ids(notes.slice(0, 24)),
        words: {
          times: countInWords(taken.length),
          places: placesInWords(notes, facts.account.alignment.choruses),
        },
      };
    },
    wording: [
      "At {times} changes the hand stays where it is because the place serves both chords ({places}): economical and calm.",
    ],
    practice: null,
  },
  {
    id: "common-placement-left",
    heading: "keyboard technique",
    kind: "practise",
    measure: "share of the chord changes with a common placement at which the hand kept it",
    threshold: 0.2,
    reason: "Four in five were not used [practice].",
    least: { notes: 32 },
    importance: 0.45,
    find(facts, threshold) {
      const { common } = facts.account.handFit.shifts;
      const taken = common.filter((one) => one.taken);
      if (common.length < 5 || taken.length / common.length > threshold) return null;
      const left = common.filter((one) => !one.taken);
      const notes = facts.solo.filter((note) =>
        left.some((one) => one.chorus === note.chorus && one.bar === note.bar),
      );
      return {
        strength: beyond(taken.length / common.length, threshold, -0.2),
        evidence: ids(notes.slice(0, 24)),
        words: {
          times: countInWords(left.length),
          places: placesInWords(notes, facts.account.alignment.choruses),
        },
      };
    },
    wording: [
      "{times} chord changes could be played without moving the hand, and it moves ({places}). Find the place that both chords share and stay there once.",
    ],
    practice: {
      kind: "shared placements",
      title: "The hand stays, the chord moves",
      text: "At each change, the place that serves both chords, played across the bar line.",
    },
  },
  {
    id: "slides-taken",
    heading: "keyboard technique",
    kind: "works",
    measure: "slides from a black key into the white key above it",
    threshold: 2,
    reason: "Twice shows it is in the hand [practice].",
    least: { notes: 16 },
    importance: 0.6,
    find(facts, threshold) {
      const { taken } = facts.account.handFit.slides;
      if (taken.length < threshold) return null;
      const notes = taken.map((one) => facts.byId.get(one.to)).filter((note) => note !== undefined);
      return {
        strength: beyond(taken.length, threshold - 1, 5),
        evidence: taken.flatMap((one) => [one.from, one.to]),
        words: {
          times: timesInWords(taken.length),
          places: placesInWords(notes, facts.account.alignment.choruses),
        },
      };
    },
    wording: [
      "You slide off the black key into the note above, {times} ({places}): it sounds sung, and it belongs to this instrument alone.",
    ],
    practice: null,
  },
  {
    id: "slides-missed",
    heading: "keyboard technique",
    kind: "practise",
    measure: "slides that the keys allow in the places of the hand that were used, none of them played",
    threshold: 4,
    reason: "Four chances in one take [practice].",
    least: { notes: 32 },
    importance: 0.5,
    find(facts, threshold) {
      const { taken, possible, missed } = facts.account.handFit.slides;
      if (taken.length > 0 || possible < threshold || missed.length === 0) return null;
      const notes = missed.map((id) => facts.byId.get(id)).filter((note) => note !== undefined);
      return {
        strength: beyond(possible, threshold, 8),
        evidence: [...missed],
        words: {
          times: countInWords(possible),
          places: placesInWords(notes, facts.account.alignment.choruses),
        },
      };
    },
    wording: [
      "The keys offer {times} slides from black to white where your hand stands ({places}), and none is taken yet. Let the fourth finger fall off the black key once in each phrase.",
    ],
    practice: {
      kind: "slides",
      title: "Off the black key",
      text: "Short black, long white, one finger: on every place where the keys allow it.",
    },
  },
  {
    id: "fingering-moved",
    heading: "keyboard technique",
    kind: "works",
    measure: "notes in the longest fingering that is played in two places",
    threshold: 5,
    reason:
      "Four fingers return in most takes by chance alone (8 in 10 of generated ones); five and more are the hand's own way of developing an idea [practice].",
    least: { notes: 24 },
    importance: 0.45,
    find(facts, threshold) {
      const moved = facts.account.handFit.moved.filter(
        (one) => one.fingers.length >= threshold && one.firstNotes.length >= 2 && !isScale(one.fingers),
      );
      if (moved.length === 0) return null;
      const best = [...moved].sort(
        (a, b) => b.firstNotes.length * b.fingers.length - a.firstNotes.length * a.fingers.length,
      )[0]!;
      const notes = best.firstNotes.map((id) => facts.byId.get(id)).filter((note) => note !== undefined);
      const evidence = notes.flatMap((note) => {
        const start = facts.place.get(note.id);
        return start === undefined ? [] : ids(facts.solo.slice(start, start + best.fingers.length));
      });
      return {
        strength: beyond(best.fingers.length + best.firstNotes.length, threshold + 1, 6),
        evidence: [...new Set(evidence)],
        words: {
          fingers: best.fingers.join(" "),
          places: placesInWords(notes, facts.account.alignment.choruses),
        },
      };
    },
    wording: [
      "The fingering {fingers} returns in another place of the keyboard ({places}): the hand carries the idea, not only the ear.",
    ],
    practice: null,
  },
  {
    id: "shifts-come-late",
    heading: "keyboard technique",
    kind: "practise",
    measure: "chord changes after which the hand still stands in the last chord's place",
    threshold: 3,
    reason: "Once or twice may be meant; three times is late [practice].",
    least: { notes: 32 },
    importance: 0.6,
    find(facts, threshold) {
      const { late } = facts.account.handFit.shifts;
      const notes = late.map((id) => facts.byId.get(id)).filter((note) => note !== undefined);
      const places = new Set(notes.map((note) => `${note.chorus}:${note.bar}`));
      if (places.size < threshold) return null;
      return {
        strength: beyond(places.size, threshold, 6),
        evidence: [...late],
        words: {
          times: countInWords(places.size),
          places: placesInWords(notes, facts.account.alignment.choruses),
        },
      };
    },
    wording: [
      "In {times} bars the chord has moved and the hand has not yet ({places}). Shift in the rest before the change, with the eyes first.",
    ],
    practice: {
      kind: "shared placements",
      title: "There before the chord",
      text: "Rest on beat four, shift in the rest, play on the new chord.",
    },
  },
  {
    id: "shifts-wide",
    heading: "keyboard technique",
    kind: "notice",
    measure: "median distance of a shift, semitones",
    threshold: 9,
    reason: "More than a sixth each time; the neighbouring place is a fourth or a fifth away [practice].",
    least: { notes: 32 },
    importance: 0.35,
    find(facts, threshold) {
      const { median, count } = facts.account.handFit.shifts;
      if (median === null || count < 6 || median < threshold) return null;
      const notes = facts.account.placements
        .filter((one) => Math.abs(one.shift ?? 0) >= threshold)
        .map((one) => facts.byId.get(one.firstNote))
        .filter((note) => note !== undefined);
      return {
        strength: beyond(median, threshold, 6),
        evidence: ids(notes),
        words: {
          distance: intervalInWords(median),
          places: placesInWords(notes, facts.account.alignment.choruses),
        },
      };
    },
    wording: [
      "The hand travels far, {distance} in a typical shift ({places}). A nearer place of the same chord may do, and leaves more time.",
    ],
    practice: null,
  },
  {
    id: "wide-stretch",
    heading: "keyboard technique",
    kind: "notice",
    measure: "stretches beyond the comfortable span of a pair of fingers",
    threshold: 1,
    reason:
      "Comfortable spans after Parncutt, Sloboda, Clarke, Raekallio & Desain 1997; caution comes before any other advice.",
    least: {},
    importance: 0.9,
    find(facts, threshold) {
      const { caution } = facts.account.handFit;
      // From one place to another the hand moves; only inside a place does it stretch.
      const stretches = facts.account.handFit.stretches.filter(
        (one) => facts.byId.get(one.from)?.placement === facts.byId.get(one.to)?.placement,
      );
      if (stretches.length < threshold || caution === null) return null;
      const notes = stretches.map((one) => facts.byId.get(one.from)).filter((note) => note !== undefined);
      return {
        strength: beyond(stretches.length, threshold - 1, 6),
        evidence: [...new Set(stretches.flatMap((one) => [one.from, one.to]))],
        words: { places: placesInWords(notes, facts.account.alignment.choruses) },
      };
    },
    wording: [
      "There are wide stretches between neighbouring fingers ({places}), if the fingering is as we think. Small hands leave the outer finger out; stop at pain, numbness or tingling and ask a licensed clinician or an experienced teacher. This page gives no medical advice.",
    ],
    practice: null,
  },
];
