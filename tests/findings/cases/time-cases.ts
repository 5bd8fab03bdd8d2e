import { eighths } from "../account-builder.ts";
import { first, phrasesAt, type RuleCases, rhythm, swing, talk, timing } from "./case-kit.ts";

const tracked = (variation: number, drift: number) => ({
  notes: talk(),
  over: { alignment: { method: "tracked" as const }, ...rhythm({ tempoStability: { variation, drift } }) },
});

/** Pins on bar lines of two seconds; from bar 6 on each stands some beats further on in the form. */
const pinnedOn = (beats: number) => ({
  notes: talk(),
  over: {
    alignment: {
      method: "anchored" as const,
      anchors: [1, 4, 5, 6, 7, 11].map((bar) => {
        const place = 4 * (bar - 1) + (bar < 6 ? 0 : beats);
        return { seconds: 2 * bar, chorus: 1, bar: Math.floor(place / 4) + 1, beat: (place % 4) + 1 };
      }),
    },
  },
});

const swings = (second: number) => ({
  notes: talk(16),
  choruses: 2,
  over: { choruses: [{ swing: swing(1.3, 1.4, 1.5) }, { swing: swing(second - 0.1, second, second + 0.1) }] },
});

/** The fourth note of each phrase, on an off-beat, is held over the next beat. */
const heldOffBeats = talk().map((note, i) => (i % 5 === 3 ? { ...note, beats: 1 } : note));

export const TIME_CASES: RuleCases = {
  "swing-settled": {
    fires: { notes: talk(), over: rhythm({ swing: swing(1.6, 1.7, 1.85) }) },
    near: { notes: talk(), over: rhythm({ swing: swing(1.3, 1.7, 2.08) }) },
  },
  "swing-unsettled": {
    fires: { notes: talk(), over: rhythm({ swing: swing(1, 1.5, 2.4) }) },
    near: { notes: talk(), over: rhythm({ swing: swing(1, 1.5, 2.3) }) },
  },
  "swing-changes-by-chorus": { fires: swings(1.9), near: swings(1.8) },
  // Of three quarters of a beat nobody would say that a beat is missing; pins lie near bar lines, not on them.
  "form-left": { fires: pinnedOn(1.1), near: pinnedOn(0.6) },
  "tempo-steady": { fires: tracked(0.015, 1), near: tracked(0.018, 1) },
  "tempo-drifts": { fires: tracked(0.03, 5), near: tracked(0.03, 3.5) },
  "tempo-uneven": { fires: tracked(0.07, 1), near: tracked(0.055, 1) },
  "early-against-the-beat": {
    fires: { notes: talk(), over: rhythm({ timing: timing(-40, -25, -10) }) },
    near: { notes: talk(), over: rhythm({ timing: timing(-40, -18, -10) }) },
  },
  "late-against-the-beat": {
    fires: { notes: talk(), over: rhythm({ timing: timing(10, 25, 40) }) },
    near: { notes: talk(), over: rhythm({ timing: timing(10, 18, 40) }) },
  },
  "time-varies-by-hand": {
    fires: { notes: talk(), over: rhythm({ timing: timing(-50, 0, 50) }) },
    near: { notes: talk(), over: rhythm({ timing: timing(-40, 0, 40) }) },
  },
  "off-beat-life": {
    fires: { notes: heldOffBeats, over: rhythm({ syncopation: 0.15 }) },
    near: { notes: heldOffBeats, over: rhythm({ syncopation: 0.1 }) },
  },
  // Eight phrases of five: 32 steps of an eighth; every fifth step made a quarter leaves 0.8.
  "one-note-value": {
    fires: { notes: talk() },
    near: {
      notes: Array.from({ length: 8 }, (_, k) => [
        ...eighths(k * 6, [65, 69, 67, 72]),
        { at: k * 6 + 2, pitch: 70, beats: 1 },
        { at: k * 6 + 3, pitch: 69, beats: 0.5 },
      ]).flat(),
    },
  },
  "note-values-mixed": {
    fires: {
      notes: Array.from({ length: 8 }, (_, k) => [
        { at: k * 6, pitch: 65, beats: 0.5 },
        { at: k * 6 + 0.5, pitch: 69, beats: 1 },
        { at: k * 6 + 1.5, pitch: 67, beats: 1.5 },
        { at: k * 6 + 3, pitch: 65, beats: 0.5 },
      ]).flat(),
    },
    near: {
      notes: Array.from({ length: 8 }, (_, k) => [
        { at: k * 6, pitch: 65, beats: 0.5 },
        { at: k * 6 + 0.5, pitch: 69, beats: 1 },
        { at: k * 6 + 1.5, pitch: 67, beats: 0.5 },
        { at: k * 6 + 2, pitch: 65, beats: 0.5 },
      ]).flat(),
    },
  },
};

/** A shape was chosen: only then can a hand leave it. */
const SHAPES = { shapes: ["third-and-steps"] };

export const LIMIT_CASES: RuleCases = {
  "take-is-short": { fires: { notes: talk().slice(0, 23) }, near: { notes: talk().slice(0, 24) } },
  "bars-uncertain": {
    fires: { notes: talk(), over: { alignment: { confidence: 0.55 } } },
    near: { notes: talk(), over: { alignment: { confidence: 0.65 } } },
  },
  "free-time": {
    fires: { notes: talk(), over: { alignment: { method: "rubato" } } },
    near: { notes: talk(), over: { alignment: { method: "tracked" } } },
  },
  "hand-not-explained": {
    fires: {
      notes: first(talk(), 20, { placement: null }),
      over: { handFit: { share: 0.55 }, options: SHAPES },
    },
    near: { notes: phrasesAt([0, 6, 12, 18, 24]), over: { handFit: { share: 0.62 }, options: SHAPES } },
  },
};
