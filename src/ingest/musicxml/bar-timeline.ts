import { counted } from "../../words/index.ts";
import type { WarningCollector } from "../warning-collector.ts";
import type { BarContent, NoteEvent } from "./bar-content.ts";
import { SymbolGroups } from "./symbol-groups.ts";
import type { TickRule } from "./ticks.ts";
import type { TimedBar, TimedFact, TimedNote } from "./timed-bar.ts";

export type { TimedBar, TimedNote } from "./timed-bar.ts";

/**
 * Gives the notes of one bar their ticks: a cursor goes through each part, notes and forwards move it on, backups
 * back. The bar is as long as the longest part; where nothing has length, as long as the meter says.
 *
 * @param meter Ticks of a bar and of one of its beats.
 */
export function barTimeline(
  parts: readonly { readonly id: string; readonly bar: BarContent | undefined }[],
  rule: TickRule,
  meter: { readonly ticks: number; readonly beat: number },
  warnings: WarningCollector,
): TimedBar {
  const notes: TimedNote[] = [];
  const facts: TimedFact[] = [];
  let length = 0;
  for (const { id, bar } of parts) {
    if (bar !== undefined)
      length = Math.max(length, partTimeline(id, bar, { rule, beat: meter.beat }, notes, facts, warnings));
  }
  facts.sort((a, b) => a.tick - b.tick);
  const first = parts.find(({ bar }) => bar !== undefined)?.bar;
  return {
    number: first?.number ?? "",
    implicit: first?.implicit ?? false,
    ticks: length > 0 ? length : meter.ticks,
    notes,
    facts,
  };
}

/** Adds the notes and facts of one part to those of its bar; returns how far the part reaches, in ticks. */
function partTimeline(
  part: string,
  bar: BarContent,
  { rule, beat }: { readonly rule: TickRule; readonly beat: number },
  notes: TimedNote[],
  facts: TimedFact[],
  warnings: WarningCollector,
): number {
  let cursor = 0;
  let reach = 0;
  let previous = 0;
  const graces = new WaitingGraces(part, notes);
  const where = `part ${part}, bar ${bar.number}`;
  const own: TimedFact[] = [];
  const symbols = new SymbolGroups();
  for (const event of bar.events) {
    if (event.kind === "move") {
      const moved = rule.of(event.length);
      if (event.direction > 0) symbols.note(cursor, moved);
      else symbols.end(cursor);
      cursor += event.direction * moved;
      if (cursor < 0) {
        cursor = 0;
        warnOfBackup(warnings, where);
      }
      reach = Math.max(reach, cursor);
      continue;
    }
    if (event.kind !== "note") {
      const offset = "offset" in event ? rule.of(event.offset) : 0;
      const fact = { part, tick: Math.max(0, cursor + offset), event };
      if (offset !== 0 || symbols.isNew(fact, own)) own.push(fact);
      continue;
    }
    if (event.grace !== null) {
      graces.wait(event);
      continue;
    }
    const ticks = Math.max(0, rule.of(event.length));
    const tick = event.withPrevious ? previous : cursor;
    if (!event.withPrevious) {
      graces.settle(event.voice, tick);
      symbols.note(cursor, ticks);
      previous = cursor;
      cursor += ticks;
      reach = Math.max(reach, cursor);
    }
    if (event.sound === null) continue;
    if (ticks > 0) notes.push(plainNote({ part, voice: event.voice, tick, ticks, sound: event.sound }));
    else warnOfNoLength(warnings, where);
  }
  // Grace notes behind the last note end it, like the turn of a trill.
  graces.settleAll(cursor);
  symbols.end(cursor);
  symbols.place(own, { reach, beat, where }, warnings);
  facts.push(...own);
  return reach;
}

/** Grace notes that wait for their main note, by voice; settled, they stand among the notes of the bar. */
class WaitingGraces {
  readonly #part: string;
  readonly #notes: TimedNote[];
  readonly #groups = new Map<string, { readonly event: NoteEvent; readonly chordOf: number }[]>();

  constructor(part: string, notes: TimedNote[]) {
    this.#part = part;
    this.#notes = notes;
  }

  wait(event: NoteEvent): void {
    if (event.sound === null) return;
    const group = this.#groups.get(event.voice) ?? [];
    const last = group.at(-1)?.chordOf ?? -1;
    group.push({ event, chordOf: event.withPrevious && last >= 0 ? last : last + 1 });
    this.#groups.set(event.voice, group);
  }

  settle(voice: string, tick: number): void {
    const group = this.#groups.get(voice);
    if (group === undefined) return;
    this.#groups.delete(voice);
    const size = (group.at(-1)?.chordOf ?? 0) + 1;
    for (const { event, chordOf } of group) {
      this.#notes.push({
        part: this.#part,
        voice,
        tick,
        ticks: 0,
        grace: event.grace,
        graceIndex: chordOf,
        graceCount: size,
        sound: event.sound!,
      });
    }
  }

  settleAll(tick: number): void {
    for (const voice of [...this.#groups.keys()]) this.settle(voice, tick);
  }
}

function warnOfBackup(warnings: WarningCollector, where: string): void {
  warnings.add(
    "backup-before-bar",
    where,
    (times) => `${counted(times, "backup")} over the start of a bar was cut short.`,
  );
}

function warnOfNoLength(warnings: WarningCollector, where: string): void {
  warnings.add(
    "note-without-length",
    where,
    (times) => `${counted(times, "note")} without length ${times === 1 ? "was" : "were"} left out.`,
  );
}

function plainNote(note: Omit<TimedNote, "grace" | "graceIndex" | "graceCount">): TimedNote {
  return { ...note, grace: null, graceIndex: 0, graceCount: 0 };
}
