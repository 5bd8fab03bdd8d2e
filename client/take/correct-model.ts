/** What can be put right of a note or of a bar's chords, each as one change with its way back. */
import type { AccountNote, Analysis, Correction } from "../../src/account.ts";
import { barText, chartText, parseChart } from "../../src/chart/index.ts";
import { isSure } from "../../src/take/index.ts";
import { capital, fingerName, placeInWords, withAccidentals } from "../../src/words/index.ts";
import type { Answer } from "./question-model.ts";

const FINGERS = [1, 2, 3, 4, 5] as const;

/** What is said of a note so far, as it would be sent; of most notes nothing but the name. */
function correctionOf({ corrections }: Analysis, source: string): Correction {
  const known = corrections.find((one) => one.note === source);
  if (known === undefined) return { note: source };
  const { id: _id, became: _became, text: _text, ...correction } = known;
  return correction;
}

/** Sends what is added to what was said of the note; what was said before is the way back. */
function putRight(analysis: Analysis, next: Correction, label: string, said: string): Answer {
  return { label, said, change: { correct: [next] }, undo: { correct: [correctionOf(analysis, next.note)] } };
}

/** Played, where that is doubted; other hand, not meant, taken away; back to how it was where something was said of it. */
export function noteAnswers(analysis: Analysis, note: AccountNote): readonly Answer[] {
  const now = correctionOf(analysis, note.source);
  const name = withAccidentals(note.spelling);
  const other = note.hand === "right" ? "left" : "right";
  const slip = now.meant === false;
  return [
    ...(isSure(note)
      ? []
      : [
          putRight(
            analysis,
            { ...now, played: true },
            "It was played",
            `${name} was played; findings may rest on it.`,
          ),
        ]),
    putRight(
      analysis,
      { ...now, hand: other },
      `It was the ${other} hand`,
      `${name} belongs to the ${other} hand.`,
    ),
    ...(slip
      ? []
      : [
          putRight(
            analysis,
            { ...now, meant: false },
            "Not meant",
            `${name} is a slip; nothing is said of it.`,
          ),
        ]),
    putRight(analysis, { note: note.source, removed: true }, "Remove it", `${name} is taken away.`),
    ...(Object.keys(now).length > 1
      ? [putRight(analysis, { note: note.source }, "As it was read", `${name} is as it was read.`)]
      : []),
  ];
}

/** The fingers that it could have been instead. */
export function fingerAnswers(analysis: Analysis, note: AccountNote): readonly Answer[] {
  const now = correctionOf(analysis, note.source);
  const name = withAccidentals(note.spelling);
  return FINGERS.filter((finger) => finger !== note.finger).map((finger) =>
    putRight(analysis, { ...now, finger }, String(finger), `${name} is played by the ${fingerName(finger)}.`),
  );
}

/** The keys around it that it could have been: half a step and a whole step down and up, and the octaves. */
export function pitchAnswers(
  analysis: Analysis,
  note: AccountNote,
  keyName: (pitch: number) => string,
): readonly Answer[] {
  const now = correctionOf(analysis, note.source);
  return [-12, -2, -1, 1, 2, 12]
    .map((step) => note.pitch + step)
    .filter((pitch) => pitch >= 0 && pitch <= 127)
    .map((pitch) => {
      const name = keyName(pitch);
      const changed =
        now.added === undefined ? { ...now, pitch } : { ...now, added: { ...now.added, pitch } };
      return putRight(analysis, changed, name, `${withAccidentals(note.spelling)} is put right to ${name}.`);
    });
}

/** Another moment for a note that was heard, in seconds of the recording. */
export function moveAnswer(analysis: Analysis, note: AccountNote, onset: number): Answer {
  const now = correctionOf(analysis, note.source);
  const changed = now.added === undefined ? { ...now, onset } : { ...now, added: { ...now.added, onset } };
  const said = `${withAccidentals(note.spelling)} begins at ${onset.toFixed(2)} seconds.`;
  return putRight(analysis, changed, "Move it", said);
}

/** A key that was played and was not read: with a note, or after it until the next one. */
export function addAnswer(
  analysis: Analysis,
  note: AccountNote,
  pitch: number,
  place: "with" | "after",
  keyName: (pitch: number) => string,
): Answer {
  const onset = place === "with" ? note.onset : note.onset + note.duration;
  const taken = new Set(analysis.corrections.map((one) => one.note));
  let number = 1;
  while (taken.has(`added-${number}`)) number++;
  const added = {
    note: `added-${number}`,
    hand: note.hand,
    added: { pitch, onset: Number(onset.toFixed(4)), duration: note.duration, velocity: note.velocity },
  };
  const name = keyName(pitch);
  return {
    label: "Add it",
    said: `${name} is added ${place} ${withAccidentals(note.spelling)}.`,
    change: { correct: [added] },
    undo: { correct: [{ note: added.note }] },
  };
}

/** What was put right so far, with its place while the note is in the account; each to be taken back. */
export function putRightSoFar(
  analysis: Analysis,
): readonly { readonly place: string | null; readonly text: string; readonly back: Answer }[] {
  const notes = new Map(analysis.notes.map((note) => [note.source, note]));
  const placeOf = (source: string) => {
    const note = notes.get(source);
    return note === undefined ? null : capital(placeInWords(note));
  };
  return analysis.corrections.map((one) => ({
    place: placeOf(one.note),
    text: one.text,
    back: putRight(analysis, { note: one.note }, "Take back", "It is as it was read."),
  }));
}

/** The chords of a bar as they are typed: "Cm7 F7". */
export function typedBar({ chart }: Analysis, bar: number): string | null {
  const parsed = parseChart(chart.text);
  const found = parsed.bars[bar - 1];
  return found === undefined ? null : barText(found, parsed.meter);
}

/**
 * Other chords in one bar of the chart, in every chorus.
 *
 * @throws Problem where the text is no chord; RangeError where it is more or less than one bar
 */
export function chordAnswer({ chart, options }: Analysis, bar: number, typed: string): Answer {
  const now = parseChart(chart.text);
  const alone = parseChart(
    `meter: ${now.meter.beats}/${now.meter.unit}\n| ${typed.replaceAll("|", " | ")} |`,
  );
  const [only] = alone.bars;
  if (only === undefined || alone.bars.length !== 1)
    throw new RangeError("One bar takes its place: type the chords of one bar.");
  const bars = now.bars.map((one, i) => (i === bar - 1 ? { ...one, chords: only.chords } : one));
  return {
    label: "Change the chords",
    said: `Bar ${bar} is ${withAccidentals(typed.trim())}.`,
    change: { chart: chartText({ ...now, bars }), options: { chartConfirmed: false } },
    undo: { chart: chart.text, options: { chartConfirmed: options.chartConfirmed } },
  };
}
