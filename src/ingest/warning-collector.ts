import type { Warning } from "../take/index.ts";

/**
 * Collects what a reader repaired or left out. One kind of repair gives one warning, with its first place and the
 * number of times, so that a file with a thousand small faults still has a short list.
 */
export interface WarningCollector {
  /** `message` is asked for once, at the end, with the number of times that `code` was noticed. */
  add(code: string, where: string | null, message: (times: number) => string, times?: number): void;
  /** Takes over all that another one has noticed. */
  addAll(other: WarningCollector): void;
  /** Hands out what was noticed: its code, first place, words and number of times. */
  each(tell: WarningCollector["add"]): void;
  /** In the order of first notice. */
  list(): Warning[];
}

export function collectWarnings(): WarningCollector {
  const found = new Map<
    string,
    { where: string | null; times: number; message: (times: number) => string }
  >();
  return {
    add(code, where, message, times = 1) {
      const before = found.get(code);
      if (before === undefined) found.set(code, { where, times, message });
      else before.times += times;
    },
    addAll(other) {
      other.each(this.add);
    },
    each(tell) {
      for (const [code, { where, message, times }] of found) tell(code, where, message, times);
    },
    list() {
      return [...found].map(([code, { where, times, message }]) => ({
        code,
        message: message(times),
        where,
      }));
    },
  };
}
