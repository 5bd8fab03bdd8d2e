import type { AccountNote, Finding, FindingHeading, Goal } from "../account.ts";
import { degreeName } from "../chart/index.ts";
import type { PracticeKind } from "../practice/kinds.ts";
import {
  count,
  countInWords,
  intervalInWords,
  placesInWords,
  shareInWords,
  timesInWords,
} from "../words/index.ts";
import { between, type Facts, ids, motifStarts } from "./facts.ts";

/** What a take has to show for a goal. */
interface Shown {
  readonly met: boolean;
  /** 0 to 1: how much of the goal was reached. */
  readonly reached: number;
  readonly heading: FindingHeading;
  /** What was heard, as the end of a sentence. */
  readonly heard: string;
  readonly notes: readonly AccountNote[];
  readonly practice: PracticeKind;
}

/** What teacher and student agreed on comes before anything else; in the order in which the goals were set. */
export function checkGoals(goals: readonly Goal[], facts: Facts): Finding[] {
  return goals.map((goal, i) => {
    const id = `goal-${i + 1}`;
    const shown = goal.check === null ? null : checkedGoal(goal.check, facts);
    if (shown === null) {
      return {
        id,
        heading: "phrasing and shape",
        kind: "notice",
        weight: 1,
        text: `Goal: “${goal.text}”. This one is for teacher and student to judge.`,
        evidence: [],
        bars: [],
        practice: null,
      };
    }
    const where = placesInWords(shown.notes, facts.account.alignment.choruses);
    const at = where === "" ? "" : ` (${where})`;
    return {
      id,
      heading: shown.heading,
      kind: shown.met ? "works" : "practise",
      weight: 1 + (1 - shown.reached),
      text: `Goal: “${goal.text}”. ${shown.met ? "Reached" : shown.reached > 0 ? "On the way" : "Not yet"}: ${shown.heard}${at}.`,
      evidence: ids(shown.notes),
      bars: barsOf(shown.notes),
      practice: shown.met
        ? null
        : {
            title: goal.text,
            text: "The goal of the week, slowly and by itself, before it goes back into a chorus.",
            kind: shown.practice,
          },
    };
  });
}

type Check = NonNullable<Goal["check"]>;

type Checker<Kind extends Check["kind"]> = (check: Extract<Check, { kind: Kind }>, facts: Facts) => Shown;

/** What each kind of goal asks of a take. */
const CHECKERS: { readonly [Kind in Check["kind"]]: Checker<Kind> } = {
  placement(check, facts) {
    const notes = notesOnPlacement(check, facts);
    const chord = check.numeral === null ? "" : ` on the ${check.numeral} chord`;
    return {
      met: notes.length >= check.least,
      reached: Math.min(1, notes.length / check.least),
      heading: "keyboard technique",
      heard: `${count(notes.length, "note")} with the hand on the ${degreeName(check.anchorDegree)}${chord}`,
      notes,
      practice: "placements",
    };
  },
  rests(check, facts) {
    const { account } = facts;
    const value = account.rhythm.rests;
    const ends = facts.phrases.flatMap(({ phrase, notes }) =>
      phrase.restSeconds > 0 ? notes.slice(-1) : [],
    );
    return {
      met: value >= check.least,
      reached: Math.min(1, value / check.least),
      heading: "phrasing and shape",
      heard: `${shareInWords(value)} of the time is rest`,
      notes: ends,
      practice: "rests",
    };
  },
  runs(check, facts) {
    const { solo } = facts;
    const inside = new Set(facts.runs.flatMap(({ notes }) => ids(notes)));
    const value = inside.size / Math.max(1, solo.length);
    return {
      met: value <= check.most,
      reached: value <= check.most ? 1 : check.most / value,
      heading: "melodic and motivic development",
      heard: `${shareInWords(value)} of the notes are in scale runs`,
      notes: solo.filter((note) => inside.has(note.id)),
      practice: "call and answer",
    };
  },
  motif(check, facts) {
    const { account } = facts;
    const best = account.motifs
      .filter((motif) => motif.length >= 4)
      .sort((a, b) => b.occurrences.length - a.occurrences.length)[0];
    const times = best?.occurrences.length ?? 0;
    return {
      met: times >= check.least,
      reached: Math.min(1, times / check.least),
      heading: "melodic and motivic development",
      heard: times === 0 ? "no idea of four notes returns" : `one idea is heard ${timesInWords(times)}`,
      notes: best === undefined ? [] : motifStarts(facts, best),
      practice: "motif to every placement",
    };
  },
  slides(check, facts) {
    const { account } = facts;
    const { taken } = account.handFit.slides;
    return {
      met: taken.length >= check.least,
      reached: Math.min(1, taken.length / check.least),
      heading: "keyboard technique",
      heard: `you slide ${timesInWords(taken.length)}`,
      notes: taken.flatMap((one) => facts.byId.get(one.to) ?? []),
      practice: "slides",
    };
  },
  range(check, facts) {
    const { account, solo } = facts;
    const { low, high } = account.register;
    const value = low === null || high === null ? 0 : high - low;
    return {
      met: value >= check.least,
      reached: Math.min(1, value / check.least),
      heading: "range",
      heard: `the line spans ${intervalInWords(value)}`,
      notes: solo.filter((note) => note.pitch === low || note.pitch === high),
      practice: "register ladder",
    };
  },
  "guide tones"(check, facts) {
    const met = facts.entries.filter((entry) => entry.after < 1);
    const good = met.filter((entry) => entry.note.guideTone).map((entry) => entry.note);
    const value = good.length / Math.max(1, met.length);
    return {
      met: met.length > 0 && value >= check.least,
      reached: check.least === 0 ? 1 : Math.min(1, value / check.least),
      heading: "harmonic awareness",
      heard: `${timesInWords(good.length)} in ${met.length} changes a third or a seventh meets the new chord`,
      notes: good,
      practice: "guide tones",
    };
  },
  answers(check, facts) {
    const answers = facts.phrases.filter(({ phrase }) => phrase.answers !== null);
    const value = answers.length / Math.max(1, facts.phrases.length);
    return {
      met: value >= check.least,
      reached: check.least === 0 ? 1 : Math.min(1, value / check.least),
      heading: "phrasing and shape",
      heard: `${countInWords(answers.length)} of ${facts.phrases.length} phrases ${answers.length === 1 ? "answers" : "answer"} the one before`,
      notes: answers.flatMap(({ notes }) => notes.slice(0, 1)),
      practice: "call and answer",
    };
  },
};

function checkedGoal<Kind extends Check["kind"]>(check: Extract<Check, { kind: Kind }>, facts: Facts): Shown {
  const checker: Checker<Kind> = CHECKERS[check.kind as Kind];
  return checker(check, facts);
}

function notesOnPlacement(check: Extract<Check, { kind: "placement" }>, facts: Facts): AccountNote[] {
  const numerals = new Map(
    facts.account.chart.bars.flatMap((bar) =>
      bar.chords.map((chord) => [chord.symbol, chord.numeral] as const),
    ),
  );
  return facts.account.placements
    .filter((one) => one.anchorDegree === check.anchorDegree)
    .filter((one) => check.shape === null || one.shape === check.shape)
    .flatMap((one) => between(facts.solo, facts.place, one))
    .filter(
      (note) => check.numeral === null || plain(numerals.get(note.chord ?? "")) === plain(check.numeral),
    );
}

/** "IV7" and "IV" are the same chord to a teacher. */
function plain(numeral: string | undefined): string {
  return (numeral ?? "").replace(/[^IViv/b#]/g, "").replace(/m$/, "");
}

function barsOf(notes: readonly AccountNote[]): Finding["bars"] {
  const bars = new Map(notes.map(({ chorus, bar }) => [`${chorus}:${bar}`, { chorus, bar }]));
  return [...bars.values()];
}
