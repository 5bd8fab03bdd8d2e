import type { AccountNote } from "../../../src/account.ts";
import { barByBar, first, PHRASE, type RuleCases, talk } from "./case-kit.ts";

/** Bars of the quick-change blues in which the chord has just changed. */
const CHANGES = [1, 2, 3, 5, 7, 9, 10, 11, 12];

/** The first `count` changes are met with a third. */
const met = (count: number) => ({
  notes: barByBar((bar, note) =>
    note === 0 && CHANGES.indexOf(bar) < count && CHANGES.includes(bar) ? { guideTone: true } : {},
  ),
});

type Labels = Partial<Pick<AccountNote, "role" | "lineRole" | "strength" | "target" | "degree">>;

const labelled = (count: number, labels: Labels, phrases = 8) => ({
  notes: first(talk(phrases), count, labels),
});

/** Phrases of which the first `count` end outside: a note that the line leaves by step does not hang. */
const hanging = (count: number) =>
  talk(8, (k, i) => (k < count && i === PHRASE.length - 1 ? { role: "outside", lineRole: "free" } : {}));

export const HARMONIC_CASES: RuleCases = {
  "guide-tones-meet-changes": { fires: met(5), near: met(4) },
  "changes-passed-by": { fires: met(1), near: met(2) },
  // C7 holds two bars of the form: with five notes in each, ten without a third; with three, six.
  "third-of-a-chord-unplayed": {
    fires: {
      notes: [
        ...barByBar((bar) => ({ role: bar === 9 || bar === 12 ? "fifth" : "third" })),
        { at: 33.5, pitch: 67, beats: 0.5 },
        { at: 34, pitch: 65, beats: 0.5 },
        { at: 45.5, pitch: 67, beats: 0.5 },
        { at: 46, pitch: 65, beats: 0.5 },
      ].sort((a, b) => a.at - b.at),
    },
    near: { notes: barByBar((bar) => ({ role: bar === 9 || bar === 12 ? "fifth" : "third" })) },
  },
  "avoid-notes-leaned-on": {
    fires: labelled(2, { role: "avoid", strength: 1, lineRole: "free" }),
    near: labelled(2, { role: "avoid", strength: 1, lineRole: "free" }, 11),
  },
  "outside-notes-resolved": {
    fires: {
      notes: first(first(talk(), 4, { role: "outside", lineRole: "free" }), 3, { lineRole: "approach" }),
    },
    near: {
      notes: first(first(talk(), 4, { role: "outside", lineRole: "free" }), 2, { lineRole: "approach" }),
    },
  },
  "outside-notes-left-hanging": {
    fires: { notes: hanging(3) },
    near: { notes: hanging(2) },
  },
  "enclosures-used": {
    fires: {
      notes: talk(8, (k, i) => (k < 2 && i < 2 ? { lineRole: "enclosure", target: `n${k * 5 + 3}` } : {})),
    },
    near: {
      notes: talk(8, (k, i) => (k < 1 && i < 2 ? { lineRole: "enclosure", target: `n${k * 5 + 3}` } : {})),
    },
  },
  "approaches-land": {
    fires: labelled(4, { lineRole: "approach" }),
    near: labelled(3, { lineRole: "approach" }),
  },
  "anticipations-used": {
    fires: labelled(3, { lineRole: "anticipation" }),
    near: labelled(2, { lineRole: "anticipation" }),
  },
  "blue-notes-speak": { fires: labelled(3, { role: "blue" }), near: labelled(2, { role: "blue" }) },
  "blues-without-blue-notes": {
    fires: labelled(3, { role: "third", degree: "3" }),
    near: {
      notes: first(first(talk(), 3, { role: "third", degree: "3" }), 1, { role: "blue", blueInKey: true }),
    },
  },
  "roots-too-safe": { fires: labelled(13, { role: "root" }), near: labelled(12, { role: "root" }) },
  "colours-held": {
    fires: labelled(4, { role: "tension", lineRole: "held colour", degree: "9" }),
    near: labelled(3, { role: "tension", lineRole: "held colour", degree: "9" }),
  },
};
