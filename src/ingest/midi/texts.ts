import type { SourceText } from "../../take/index.ts";
import type { TextGroup } from "../chord-texts.ts";
import { decodeText } from "../decode-text.ts";
import type { TimedTrack } from "./timed-track.ts";

export interface MidiTexts {
  readonly title: string | null;
  /** In order of time. */
  readonly texts: readonly SourceText[];
  /** The same texts, kept apart by track and kind: chord names come as a layer of their own. */
  readonly groups: readonly TextGroup[];
}

const KINDS: Readonly<Record<string, SourceText["kind"]>> = {
  text: "text",
  copyrightNotice: "copyright",
  lyrics: "lyric",
  marker: "marker",
  cuePoint: "cue",
};

/**
 * Reads the texts of all tracks. Karaoke files write their words as plain texts, split into syllables with "/" and
 * "\" for line breaks, and their headings as texts that start with "@"; `@T` is the title.
 */
export function readTexts(tracks: readonly TimedTrack[], format: number): MidiTexts {
  const karaoke = tracks.some((track) =>
    track.events.some((event) => event.type === "text" && /^@(K|LENGL|T)/.test(event.text)),
  );
  const texts: SourceText[] = [];
  const groups: TextGroup[] = [];
  let title: string | null = null;
  for (const track of tracks) {
    const byKind = new Map<string, SourceText[]>();
    track.events.forEach((event, i) => {
      const kind = KINDS[event.type];
      if (kind === undefined || !("text" in event)) return;
      const text = readText(decodeText(event.text), kind, karaoke, track.ticks[i]!);
      if (text === null) return;
      if (text.kind === "title") title ??= text.text;
      texts.push(text);
      const group = byKind.get(text.kind);
      if (group === undefined) byKind.set(text.kind, [text]);
      else group.push(text);
    });
    for (const group of byKind.values())
      groups.push({ named: /^chords?$/i.test(track.name ?? ""), texts: group });
  }
  // A sequence's name is that of its first track; of format 0 and of a format 2 pattern, of the only one.
  const first = tracks[0];
  const named = first?.events.find((event) => event.type === "trackName");
  if (
    named !== undefined &&
    "text" in named &&
    (format !== 1 || isConductor(first!) || tracks.length === 1)
  ) {
    title ??= decodeText(named.text) || null;
  }
  return { title, texts: texts.sort((a, b) => a.tick - b.tick), groups };
}

function readText(text: string, kind: SourceText["kind"], karaoke: boolean, tick: number): SourceText | null {
  if (karaoke && kind === "text") {
    if (text.startsWith("@T")) return titleOf(text, tick);
    if (text.startsWith("@")) return { tick, kind, text };
    const syllable = text.replace(/^[\\/]+/, "");
    return syllable === "" ? null : { tick, kind: "lyric", text: syllable };
  }
  return text === "" ? null : { tick, kind, text };
}

function titleOf(text: string, tick: number): SourceText | null {
  const title = text.slice(2).trim();
  return title === "" ? null : { tick, kind: "title", text: title };
}

/** The first track of a format 1 file names the sequence when it plays nothing itself. */
function isConductor(track: TimedTrack): boolean {
  return !track.events.some((event) => event.type === "noteOn");
}
