import { counted } from "../../words/index.ts";
import type { Notices } from "../notices.ts";
import type { BarContent, BarEvent, NoteEvent, WrittenNote } from "./bar-content.ts";
import type { TickRule } from "./ticks.ts";

/** A note of a bar with its place in ticks from the bar line. */
export interface LaidNote {
  readonly part: string;
  readonly voice: string;
  readonly tick: number;
  /** 0 for grace notes. */
  readonly ticks: number;
  readonly grace: NoteEvent["grace"];
  /** Place in its group of grace notes, and the size of the group; 0 and 0 for other notes. */
  readonly graceIndex: number;
  readonly graceCount: number;
  readonly sound: WrittenNote;
}

/** Everything else of a bar that has a place in time. */
export interface LaidFact {
  readonly part: string;
  readonly tick: number;
  readonly event: Exclude<BarEvent, { kind: "note" } | { kind: "move" }>;
}

export interface LaidBar {
  readonly number: string;
  readonly implicit: boolean;
  readonly ticks: number;
  readonly notes: readonly LaidNote[];
  /** In order of time. */
  readonly facts: readonly LaidFact[];
}

/**
 * Gives the notes of one bar their ticks: a cursor goes through each part, notes and forwards move it on, backups
 * back. The bar is as long as the longest part; where nothing has length, as long as the meter says.
 */
export function layBar(
  parts: readonly { readonly id: string; readonly bar: BarContent | undefined }[],
  rule: TickRule,
  meterTicks: number,
  notices: Notices,
): LaidBar {
  const notes: LaidNote[] = [];
  const facts: LaidFact[] = [];
  let length = 0;
  for (const { id, bar } of parts) {
    if (bar !== undefined) length = Math.max(length, layPart(id, bar, rule, notes, facts, notices));
  }
  facts.sort((a, b) => a.tick - b.tick);
  const first = parts.find(({ bar }) => bar !== undefined)?.bar;
  return {
    number: first?.number ?? "",
    implicit: first?.implicit ?? false,
    ticks: length > 0 ? length : meterTicks,
    notes,
    facts,
  };
}

function layPart(
  part: string,
  bar: BarContent,
  rule: TickRule,
  notes: LaidNote[],
  facts: LaidFact[],
  notices: Notices,
): number {
  let cursor = 0;
  let reach = 0;
  let previous = 0;
  /** Grace notes that wait for their main note, by voice. */
  const waiting = new Map<string, { event: NoteEvent; chordOf: number }[]>();
  const where = `part ${part}, bar ${bar.number}`;

  const settleGraces = (voice: string, tick: number): void => {
    const group = waiting.get(voice);
    if (group === undefined) return;
    waiting.delete(voice);
    const size = (group.at(-1)?.chordOf ?? 0) + 1;
    for (const { event, chordOf } of group) {
      notes.push({
        part,
        voice,
        tick,
        ticks: 0,
        grace: event.grace,
        graceIndex: chordOf,
        graceCount: size,
        sound: event.sound!,
      });
    }
  };

  for (const event of bar.events) {
    if (event.kind === "move") {
      cursor += event.direction * rule.of(event.length);
      if (cursor < 0) {
        cursor = 0;
        notices.add(
          "backup-before-bar",
          where,
          (times) => `${counted(times, "backup")} over the start of a bar was cut short.`,
        );
      }
      reach = Math.max(reach, cursor);
      continue;
    }
    if (event.kind !== "note") {
      const offset = "offset" in event ? rule.of(event.offset) : 0;
      facts.push({ part, tick: Math.max(0, cursor + offset), event });
      continue;
    }
    if (event.grace !== null) {
      if (event.sound === null) continue;
      const group = waiting.get(event.voice) ?? [];
      const last = group.at(-1)?.chordOf ?? -1;
      group.push({ event, chordOf: event.withPrevious && last >= 0 ? last : last + 1 });
      waiting.set(event.voice, group);
      continue;
    }
    const ticks = Math.max(0, rule.of(event.length));
    const tick = event.withPrevious ? previous : cursor;
    if (!event.withPrevious) {
      settleGraces(event.voice, tick);
      previous = cursor;
      cursor += ticks;
      reach = Math.max(reach, cursor);
    }
    if (event.sound === null) continue;
    if (ticks === 0) {
      notices.add(
        "note-without-length",
        where,
        (times) => `${counted(times, "note")} without length ${times === 1 ? "was" : "were"} left out.`,
      );
      continue;
    }
    notes.push({
      part,
      voice: event.voice,
      tick,
      ticks,
      grace: null,
      graceIndex: 0,
      graceCount: 0,
      sound: event.sound,
    });
  }
  // Grace notes behind the last note end it, like the turn of a trill.
  for (const voice of [...waiting.keys()]) settleGraces(voice, cursor);
  return reach;
}
