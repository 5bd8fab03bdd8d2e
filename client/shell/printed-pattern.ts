/** A pattern as a musician reads it; as it is written and sent stands in `ideas.ts`. */
import type { MotifViewpoint } from "../../src/account.ts";
import { beatInFigures, withAccidentals } from "../../src/words/index.ts";

interface Pattern {
  readonly viewpoint: MotifViewpoint;
  readonly symbols: readonly (string | number)[];
}

/**
 * @example printedPattern({ viewpoint: "chromatic interval", symbols: [2, -1] }) // "+2 −1"
 * @example printedPattern({ viewpoint: "interval and rhythm", symbols: ["-5, 0.5 beats", "+2, 1 beat"] })
 *   // "−5 +2, lengths ½ 1 beats"
 * @example printedPattern({ viewpoint: "degree", symbols: ["b3", "9"] }) // "♭3 9"
 */
export function printedPattern({ viewpoint, symbols }: Pattern): string {
  switch (viewpoint) {
    case "chromatic interval":
      return symbols.map((symbol) => signed(Number(symbol))).join(" ");
    case "rhythm":
      return `${symbols.map((symbol) => lengthIn(String(symbol))).join(" ")} beats`;
    case "interval and rhythm":
      return withLengths(symbols.map(String));
    case "degree":
      return symbols.map((symbol) => withAccidentals(String(symbol))).join(" ");
    case "contour":
      return symbols.join(", ");
    case "finger":
      return symbols.join(" ");
  }
}

/** Steps first and their lengths after them: read one below the other they are two lines that a musician knows. */
function withLengths(symbols: readonly string[]): string {
  const pairs = symbols.map((symbol) => symbol.split(","));
  const steps = pairs.map(([step = ""]) => signed(Number(step)));
  return `${steps.join(" ")}, lengths ${pairs.map(([, length = ""]) => lengthIn(length)).join(" ")} beats`;
}

const signed = (semitones: number): string =>
  semitones > 0 ? `+${semitones}` : semitones < 0 ? `−${-semitones}` : "0";

/** "½" for "0.5 beats", "1⅓" for "1.333 beats". */
const lengthIn = (beats: string): string =>
  beatInFigures(Number.parseFloat(beats)).replace(/^0(?=\D)(?!\.)/, "");
