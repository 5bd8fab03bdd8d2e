/** Solos as students play them, every note with both labels and its name; labelled by hand before anything was run. */
import { describe, expect, it } from "vitest";
import { DEVICE_NAMES } from "../../src/devices/index.ts";
import type { HarmonicRole, LineRole } from "../../src/harmony/index.ts";
import { EXAMPLES } from "../devices/examples.ts";
import { labelled } from "../harmony/notation.ts";
import { FURTHER_SOLOS } from "./further-solos.ts";
import { SHORT_SOLOS } from "./short-solos.ts";
import { RARER_SOLOS, STUDENT_SOLOS, type StudentSolo } from "./student-solos.ts";

const ROLES: Readonly<Record<string, HarmonicRole>> = {
  "1": "root",
  "3": "third",
  "5": "fifth",
  "7": "seventh",
  t: "tension",
  a: "tension",
  b: "blue",
  v: "avoid",
  o: "outside",
};
const LINE: Readonly<Record<string, LineRole>> = {
  ct: "chord tone",
  pa: "passing",
  ne: "neighbour",
  ap: "approach",
  en: "enclosure",
  an: "anticipation",
  su: "suspension",
  ag: "appoggiatura",
  es: "escape",
  hc: "held colour",
  fr: "free",
};

const ALL = [...STUDENT_SOLOS, ...RARER_SOLOS, ...SHORT_SOLOS, ...FURTHER_SOLOS];

function wordsOf({ bars }: StudentSolo): string[] {
  return bars.flatMap((bar) => bar.split(/\s+/).filter((word) => word.includes("=")));
}

/** "word: what was said instead" of every note that is labelled otherwise. */
function otherwise(solo: StudentSolo): string[] {
  const bare = solo.bars.map((bar) => bar.replace(/=\S+/g, ""));
  const { labels } = labelled(`${solo.chords} // ${bare.join(" | ")}`, solo.setting);
  return wordsOf(solo).flatMap((word, i) => {
    const [name, role, line] = /^~?(\w#?b?-?\d).*=(.)\.(..)$/.exec(word)!.slice(1);
    const label = labels[i]!;
    const agrees =
      label.spelling === name &&
      label.role === ROLES[role!] &&
      label.lineRole === LINE[line!] &&
      label.altered === (role === "a");
    return agrees ? [] : [`${word}: ${label.spelling} ${label.role} ${label.lineRole} ${label.altered}`];
  });
}

describe("solos as students play them", () => {
  it.each(ALL)("$name", (solo) => {
    expect(otherwise(solo)).toEqual([]);
  });

  it("hold at least four hundred notes, every line role three times or more and every harmonic role", () => {
    const words = ALL.flatMap(wordsOf);
    expect(words.length).toBeGreaterThanOrEqual(400);
    const count = (code: string) => words.filter((word) => word.endsWith(`.${code}`)).length;
    for (const code of Object.keys(LINE)) {
      // A free note is what is left over: it is shown by the near misses of the rules.
      expect([code, count(code) >= (code === "fr" || code === "su" ? 1 : 3)]).toEqual([code, true]);
    }
    for (const code of Object.keys(ROLES)) {
      expect([code, words.some((word) => word.includes(`=${code}.`))]).toEqual([code, true]);
    }
  });

  it("every device has examples and near misses, three of either kind", () => {
    const shown = Object.entries(EXAMPLES).filter(([, { is, isNot }]) => is.length >= 3 && isNot.length >= 3);
    expect(shown.map(([name]) => name)).toEqual(DEVICE_NAMES.filter((name) => name !== "answering end"));
  });
});
