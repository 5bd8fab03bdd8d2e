import type { SourceText } from "../../take/index.ts";
import type { TextGroup } from "../chord-texts.ts";
import { decodeText } from "../decode-text.ts";
import { META, type MetaEvent, type MidiTrack } from "./midi-track.ts";

export interface MidiTexts {
  readonly title: string | null;
  /** In order of time. */
  readonly texts: readonly SourceText[];
  /** The same texts, kept apart by track and kind: chord names come as a layer of their own. */
  readonly groups: readonly TextGroup[];
}

const KINDS: ReadonlyMap<number, SourceText["kind"]> = new Map([
  [META.text, "text"],
  [META.copyright, "copyright"],
  [META.lyric, "lyric"],
  [META.marker, "marker"],
  [META.cue, "cue"],
]);

/** What a track is called, or what it is played on; null when it does not say. */
export function trackName({ metas }: MidiTrack): string | null {
  return firstText(metas, META.trackName) ?? firstText(metas, META.instrumentName);
}

/**
 * Reads the texts of all tracks. Karaoke files write their words as plain texts, split into syllables with "/" and
 * "\" for line breaks, and their headings as texts that start with "@"; `@T` is the title.
 */
export function readTexts(tracks: readonly MidiTrack[], format: number): MidiTexts {
  const karaoke = tracks.some(({ metas }) =>
    metas.some(({ type, data }) => type === META.text && /^@(K|LENGL|T)/.test(decodeText(data))),
  );
  const texts: SourceText[] = [];
  const groups: TextGroup[] = [];
  let title: string | null = null;
  for (const track of tracks) {
    const byKind = new Map<string, SourceText[]>();
    for (const { tick, type, data } of track.metas) {
      const kind = KINDS.get(type);
      if (kind === undefined) continue;
      const text = readText(decodeText(data), kind, karaoke, tick);
      if (text === null) continue;
      if (text.kind === "title") title ??= text.text;
      texts.push(text);
      const group = byKind.get(text.kind);
      if (group === undefined) byKind.set(text.kind, [text]);
      else group.push(text);
    }
    for (const group of byKind.values())
      groups.push({ named: /^chords?$/i.test(trackName(track) ?? ""), texts: group });
  }
  // A sequence's name is that of its first track; of format 0 and of a format 2 pattern, of the only one.
  const first = tracks[0];
  if (first !== undefined && (format !== 1 || isConductor(first) || tracks.length === 1)) {
    title ??= firstText(first.metas, META.trackName);
  }
  return { title, texts: texts.sort((a, b) => a.tick - b.tick), groups };
}

function firstText(metas: readonly MetaEvent[], wanted: number): string | null {
  for (const { type, data } of metas) {
    const text = type === wanted ? decodeText(data) : "";
    if (text !== "") return text;
  }
  return null;
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
function isConductor({ from, to, drumNotes }: MidiTrack): boolean {
  return from === to && drumNotes === 0;
}
