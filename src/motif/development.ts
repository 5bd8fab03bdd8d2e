import type { AccountMotif } from "../account.ts";
import type { Occurrence } from "./occurrences.ts";
import type { SoloLine } from "./solo-line.ts";

/** An idea's life over the choruses: where it is first heard, where it returns, and from where on it is gone. */
export function developmentOf(
  occurrences: readonly Occurrence[],
  line: SoloLine,
): AccountMotif["development"] {
  const counts = new Map<number, number>();
  for (const { chorus } of occurrences) counts.set(chorus, (counts.get(chorus) ?? 0) + 1);
  const heard = [...counts.keys()].sort((a, b) => a - b);
  const last = heard[heard.length - 1]!;
  const end = line.notes.reduce((most, note) => Math.max(most, note.chorus), last);
  return {
    firstHeard: { chorus: occurrences[0]!.chorus, bar: occurrences[0]!.bar },
    byChorus: heard.map((chorus) => ({ chorus, occurrences: counts.get(chorus)! })),
    carriedOver: heard.slice(1),
    droppedFrom: last < end ? last + 1 : null,
  };
}

/**
 * Calls and answers: neighbouring phrases that both hold the idea, so that the second takes up what the first said.
 * A phrase that answers does not call in its turn.
 */
export function callsAndAnswers(
  occurrences: readonly Occurrence[],
  phrases: readonly string[],
): AccountMotif["answers"] {
  const holding = new Set(occurrences.map((occurrence) => occurrence.phrase));
  const pairs: { call: string; answer: string }[] = [];
  for (let i = 1; i < phrases.length; i++) {
    const [call, answer] = [phrases[i - 1]!, phrases[i]!];
    if (!holding.has(call) || !holding.has(answer)) continue;
    if (pairs[pairs.length - 1]?.answer === call) continue;
    pairs.push({ call, answer });
  }
  return pairs;
}

/** Ids of the phrases of a line in time order. */
export function phrasesOf(line: SoloLine): string[] {
  const phrases = new Set<string>();
  for (const { phrase } of line.notes) if (phrase !== null) phrases.add(phrase);
  return [...phrases];
}
