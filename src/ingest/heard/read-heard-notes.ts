import { othersIn, PIANO_SHARE } from "../../listen/company.ts";
import { type Heard, type HeardNote, readHeard } from "../../listen/heard.ts";
import { isSure, type Note, Problem, type Take, type Warning } from "../../take/index.ts";
import { counted, percent } from "../../words/index.ts";

/** A note is taken when it is more likely there than not. */
const LEAST = 0.5;

const TICKS = 480;
/** Time is told in seconds; ticks are those of the default tempo of a MIDI file, 120 quarter notes a minute. */
const QUARTERS_PER_MINUTE = 120;
const TICKS_A_SECOND = (TICKS * QUARTERS_PER_MINUTE) / 60;

/**
 * A take of what was heard in a recording: one part, no beat and no bar of its own. Notes that are less likely there
 * than not are left out, and counted in a warning; the document keeps them.
 *
 * @throws Problem when the document is broken or holds no note that is likely enough
 */
export function readHeardNotes(bytes: Uint8Array): Take {
  const heard = readHeard(bytes);
  const likely = heard.notes
    .filter((note) => note.certainty >= LEAST)
    .sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
  if (likely.length === 0) {
    throw new Problem(
      "no-notes",
      "No note was heard surely enough",
      null,
      "Record the piano from nearer by, in a quiet room.",
    );
  }
  return {
    format: "sound",
    title: null,
    ticksPerQuarter: TICKS,
    notes: likely.map(noteOf),
    parts: [{ id: "heard", name: "Piano", staves: 1, program: 0, notes: likely.length }],
    tempos: [{ tick: 0, seconds: 0, quartersPerMinute: QUARTERS_PER_MINUTE }],
    tempoStated: false,
    meters: [{ tick: 0, beats: 4, unit: 4 }],
    keys: [],
    bars: [],
    chords: [],
    texts: [],
    pedal: [...heard.pedal],
    swing: null,
    warnings: [...warningsOf(heard.notes, likely), ...warningsOfOthers(heard)],
  };
}

function noteOf(note: HeardNote, index: number): Note {
  const { pitch, onset, velocity, certainty, doubt } = note;
  const duration = Math.max(0.01, note.end - onset);
  return {
    id: `n${index + 1}`,
    pitch,
    onset,
    duration,
    // The foot cannot be told from the finger by ear: what rings on is held.
    sounding: duration,
    velocity,
    tick: Math.round(onset * TICKS_A_SECOND),
    ticks: Math.max(1, Math.round(duration * TICKS_A_SECOND)),
    part: "heard",
    printed: null,
    heard: { certainty, doubt },
  };
}

function warningsOf(all: readonly HeardNote[], likely: readonly HeardNote[]): Warning[] {
  const sure = likely.filter(isSure).length;
  const warnings: Warning[] = [
    {
      code: "heard-from-sound",
      message: `The notes were heard in a recording: ${sure} of ${counted(likely.length, "note")} surely. Findings rest on these.`,
      where: null,
    },
  ];
  const left = all.length - likely.length;
  if (left > 0) {
    warnings.push({
      code: "unlikely-notes",
      message: `${counted(left, "sound")} that may have been notes ${left === 1 ? "was" : "were"} left out, because they more likely were not.`,
      where: null,
    });
  }
  for (const [doubt, what] of [
    ["octave ghost", "may only be overtones of lower ones struck with them"],
    ["re-strike", "may only be the key before them ringing on"],
  ] as const) {
    const doubted = likely.filter((note) => note.doubt === doubt && !isSure(note)).length;
    if (doubted === 0) continue;
    warnings.push({
      code: doubt === "octave ghost" ? "octave-ghosts" : "re-strikes",
      message: `${counted(doubted, "note")} ${what}.`,
      where: null,
    });
  }
  return warnings;
}

/** Others' notes are not told from the piano's: where they are loud enough to be heard, it is said. */
function warningsOfOthers({ company }: Heard): Warning[] {
  if (!company || company.piano >= PIANO_SHARE.warned) return [];
  return [
    {
      code: "others-heard-too",
      message: `Of what sounds in the recording, ${percent(1 - company.piano)} is not the piano but ${othersIn(company)}: their notes may stand among those heard.`,
      where: null,
    },
  ];
}
