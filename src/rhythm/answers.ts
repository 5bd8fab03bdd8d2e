import type { AccountPhrase } from "../account.ts";
import type { PlacedNote } from "../take/index.ts";

/** What makes the second of two phrases an answer. [practice] */
const ANSWER = {
  /** Longest silence between them, in quarter-note beats and, in rubato, seconds. */
  restBeats: 6,
  restSeconds: 3,
  /** Shorter over longer, in seconds. */
  lengths: 0.5,
  /** Share of the first steps that must go the same way. */
  likeness: 0.7,
  /** Steps compared at the start. */
  steps: 6,
};

/**
 * Question and answer: a phrase answers the one right before it when they are of like length, start alike (the same
 * turns of direction in much the same rhythm), and the second ends lower or nearer to where it started than the first,
 * which was left open. A phrase that answers is not asked again.
 *
 * @returns id of the answer to id of its question
 */
export function answeredPhrases(
  phrases: readonly AccountPhrase[],
  solo: readonly PlacedNote[],
): Map<string, string> {
  const place = new Map(solo.map((note, i) => [note.id, i]));
  const notesOf = (phrase: AccountPhrase) =>
    solo.slice(place.get(phrase.firstNote)!, place.get(phrase.lastNote)! + 1);
  const answers = new Map<string, string>();
  for (let i = 1; i < phrases.length; i++) {
    const [question, answer] = [phrases[i - 1]!, phrases[i]!];
    if (answers.has(question.id) || !near(question) || !alikeInLength(question, answer)) continue;
    const [asked, said] = [notesOf(question), notesOf(answer)];
    if (asked.length < 3 || said.length < 3) continue;
    if (startLikeness(asked, said) >= ANSWER.likeness && closes(asked, said)) {
      answers.set(answer.id, question.id);
    }
  }
  return answers;
}

function near(question: AccountPhrase): boolean {
  return question.restBeats === null
    ? question.restSeconds <= ANSWER.restSeconds
    : question.restBeats <= ANSWER.restBeats;
}

function alikeInLength(a: AccountPhrase, b: AccountPhrase): boolean {
  return Math.min(a.seconds, b.seconds) >= ANSWER.lengths * Math.max(a.seconds, b.seconds);
}

/** Share of the first steps with the same direction and nearly the same time between onsets. */
function startLikeness(a: readonly PlacedNote[], b: readonly PlacedNote[]): number {
  const steps = Math.min(ANSWER.steps, a.length - 1, b.length - 1);
  let same = 0;
  for (let i = 0; i < steps; i++) {
    const up = Math.sign(a[i + 1]!.pitch - a[i]!.pitch) === Math.sign(b[i + 1]!.pitch - b[i]!.pitch);
    const [x, y] = [a[i + 1]!.onset - a[i]!.onset, b[i + 1]!.onset - b[i]!.onset];
    const paced = Math.min(x, y) >= 0.6 * Math.max(x, y);
    same += (up ? 0.5 : 0) + (paced ? 0.5 : 0);
  }
  return same / steps;
}

function closes(asked: readonly PlacedNote[], said: readonly PlacedNote[]): boolean {
  const [open, closed] = [asked[asked.length - 1]!.pitch, said[said.length - 1]!.pitch];
  const strayed = (notes: readonly PlacedNote[]) =>
    Math.abs(notes[notes.length - 1]!.pitch - notes[0]!.pitch);
  return closed < open || strayed(said) < strayed(asked);
}
