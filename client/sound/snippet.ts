/** Plays a few notes that are not part of an open take: a pattern, a hit of a search. */
import { soundStage } from "./stage.ts";

export interface SnippetNote {
  readonly pitch: number;
  /** Seconds from the start of the snippet. */
  readonly at: number;
  readonly seconds: number;
}

let cuts: (() => void)[] = [];

/** Plays the notes and cuts off whatever still sounds. Throws when the sound cannot be loaded. */
export async function playSnippet(notes: readonly SnippetNote[]): Promise<void> {
  const { context, piano } = await soundStage();
  stopSnippet();
  await piano.ready(notes.map((note) => note.pitch));
  const start = context.currentTime + 0.06;
  cuts = notes.map((note) => piano.strike(note.pitch, 84, start + note.at, note.seconds));
}

export function stopSnippet(): void {
  for (const cut of cuts) cut();
  cuts = [];
}

/** Notes with their onsets as a snippet: each sounds until the next one, the last for as long as the one before. */
export function snippetOf(pitches: readonly number[], onsets: readonly number[]): SnippetNote[] {
  const first = onsets[0] ?? 0;
  return pitches.map((pitch, i) => {
    const own = onsets[i] ?? 0;
    const step = i + 1 < onsets.length ? onsets[i + 1]! - own : own - (onsets[i - 1] ?? own - 0.3);
    return { pitch, at: own - first, seconds: Math.min(1.5, Math.max(0.1, step)) };
  });
}
