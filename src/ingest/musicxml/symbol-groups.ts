import { counted } from "../../words/index.ts";
import type { WarningCollector } from "../warning-collector.ts";
import { type ChordGroup, sharedTicks } from "./share-chords.ts";
import type { TimedFact } from "./timed-bar.ts";

interface BarOfSymbols {
  /** Length of the bar in ticks. */
  readonly reach: number;
  /** Ticks of a beat of the meter. */
  readonly beat: number;
  readonly where: string;
}

/** Gathers the symbols of a bar that stand before the same note. */
export class SymbolGroups {
  private waiting: number[] = [];
  private readonly groups: ChordGroup[] = [];
  private last: { readonly start: number; readonly length: number; readonly group: number | null } | null =
    null;

  /** Takes a fact in; false for a symbol that says again what the one before it says. */
  isNew(fact: TimedFact, before: readonly TimedFact[]): boolean {
    if (fact.event.kind !== "chord") return true;
    const last = before.at(-1);
    if (last?.event.kind === "chord" && last.event.text === fact.event.text && last.tick === fact.tick)
      return false;
    this.waiting.push(before.length);
    return true;
  }

  /** A note, rest or move of that length begins. */
  note(start: number, length: number): void {
    if (length <= 0) return;
    const group = this.waiting.length > 0 ? this.groups.length : null;
    if (group !== null) this.groups.push({ members: this.waiting, start, length, behind: false });
    this.waiting = [];
    this.last = { start, length, group };
  }

  /** Symbols behind the last note share its time with those before it. */
  end(cursor: number): void {
    if (this.waiting.length === 0 || this.last === null) return;
    const { start, length, group } = this.last;
    if (cursor !== start + length) return;
    if (group === null) this.groups.push({ members: this.waiting, start, length, behind: true });
    else {
      const before = this.groups[group]!;
      this.groups[group] = { ...before, members: [...before.members, ...this.waiting] };
    }
    this.waiting = [];
    this.last = null;
  }

  /** Gives the symbols of each group their ticks, in place; and says so. */
  place(facts: TimedFact[], bar: BarOfSymbols, warnings: WarningCollector): void {
    for (const { group, room } of this.shared(bar.reach)) {
      sharedTicks(group, bar.beat, room).forEach((tick, index) => {
        facts[group.members[index]!] = { ...facts[group.members[index]!]!, tick };
      });
      warnings.add(
        "chords-shared",
        bar.where,
        (times) =>
          `${counted(times, "group")} of chord symbols before one note ${times === 1 ? "has" : "have"} no places of their own in the score; the note's beats were shared among them.`,
      );
    }
  }

  /** Groups of several symbols, each with the ticks until the next group or the end of the bar. */
  private shared(reach: number): { readonly group: ChordGroup; readonly room: number }[] {
    return this.groups.flatMap((group) => {
      if (group.members.length + (group.behind ? 1 : 0) < 2) return [];
      const next = Math.min(
        reach,
        ...this.groups.map(({ start }) => start).filter((start) => start > group.start),
      );
      return [{ group, room: next - group.start }];
    });
  }
}
