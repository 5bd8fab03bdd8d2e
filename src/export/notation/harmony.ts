import { type Chord, parseChord } from "../../chart/index.ts";
import { Problem } from "../../take/index.ts";
import { element, textElement } from "./xml.ts";

/** Kinds of MusicXML by the degrees that make them, richest first; what is left over is written as `<degree>`. */
const KINDS: readonly { readonly kind: string; readonly tones: string }[] = [
  { kind: "dominant-13th", tones: "1 3 5 b7 9 13" },
  { kind: "major-13th", tones: "1 3 5 7 9 13" },
  { kind: "minor-13th", tones: "1 b3 5 b7 9 13" },
  { kind: "dominant-11th", tones: "1 3 5 b7 9 11" },
  { kind: "minor-11th", tones: "1 b3 5 b7 9 11" },
  { kind: "major-11th", tones: "1 3 5 7 9 11" },
  { kind: "dominant-ninth", tones: "1 3 5 b7 9" },
  { kind: "major-ninth", tones: "1 3 5 7 9" },
  { kind: "minor-ninth", tones: "1 b3 5 b7 9" },
  { kind: "dominant", tones: "1 3 5 b7" },
  { kind: "major-seventh", tones: "1 3 5 7" },
  { kind: "minor-seventh", tones: "1 b3 5 b7" },
  { kind: "half-diminished", tones: "1 b3 b5 b7" },
  { kind: "diminished-seventh", tones: "1 b3 b5 6" },
  { kind: "augmented-seventh", tones: "1 3 #5 b7" },
  { kind: "major-minor", tones: "1 b3 5 7" },
  { kind: "major-sixth", tones: "1 3 5 6" },
  { kind: "minor-sixth", tones: "1 b3 5 6" },
  { kind: "suspended-fourth", tones: "1 11 5" },
  { kind: "suspended-second", tones: "1 9 5" },
  { kind: "major", tones: "1 3 5" },
  { kind: "minor", tones: "1 b3 5" },
  { kind: "diminished", tones: "1 b3 b5" },
  { kind: "augmented", tones: "1 3 #5" },
  { kind: "power", tones: "1 5" },
];

/**
 * A chord symbol as `<harmony>`: root, kind, bass, and degrees for what the kind does not say. `text` of the kind
 * keeps the symbol as it is printed.
 *
 * @param offset Ticks from the place in the voice where it is written.
 */
export function harmonyElement(symbol: string, offset: number, staff: number | null): string {
  const tail = [
    ...(offset === 0 ? [] : [textElement("offset", offset)]),
    ...(staff === null ? [] : [textElement("staff", staff)]),
  ];
  const chord = readSymbol(symbol);
  // What is no chord symbol is still printed as it stands.
  if (chord === null) {
    return element(
      "harmony",
      {},
      element("root", {}, element("root-step", { text: "" }, "C")),
      element("kind", { text: symbol }, "none"),
      ...tail,
    );
  }
  const { kind, degrees } = kindOf(chord);
  return element(
    "harmony",
    {},
    element("root", {}, ...noteName("root", chord.root)),
    element("kind", { text: printedSuffix(chord) }, kind),
    ...(chord.bass === chord.root ? [] : [element("bass", {}, ...noteName("bass", chord.bass))]),
    ...degrees,
    ...tail,
  );
}

function readSymbol(symbol: string): Chord | null {
  try {
    return parseChord(symbol);
  } catch (error) {
    if (error instanceof Problem) return null;
    throw error;
  }
}

function printedSuffix(chord: Chord): string {
  const end = chord.bass === chord.root ? chord.symbol.length : -(chord.bass.length + 1);
  return chord.symbol.slice(chord.root.length, end);
}

function noteName(prefix: "root" | "bass", name: string): string[] {
  const signs = name.slice(1);
  const alter = signs.startsWith("b") ? -signs.length : signs.length;
  return [
    textElement(`${prefix}-step`, name[0]!),
    ...(alter === 0 ? [] : [textElement(`${prefix}-alter`, alter)]),
  ];
}

function kindOf(chord: Chord): { kind: string; degrees: string[] } {
  const has = new Set<string>(chord.tones.map(({ degree }) => degree));
  const { kind, tones } = closestKind(has);
  const named = new Set(tones.split(" "));
  const degrees: string[] = [];
  for (const tone of named) {
    if (has.has(tone)) continue;
    // A fifth that is there in another size is altered, one that is not there at all is left out.
    const altered = tone === "5" ? (["b5", "#5"] as const).filter((fifth) => has.has(fifth)) : [];
    if (altered.length === 0) degrees.push(degreeElement(tone, "subtract"));
    else degrees.push(degreeElement(altered[0]!, "alter"));
    if (altered[0] !== undefined) named.add(altered[0]);
  }
  for (const tone of has) if (!named.has(tone)) degrees.push(degreeElement(tone, "add"));
  return { kind, degrees };
}

/** The kind that needs the fewest degrees beside it; of several the first. */
function closestKind(has: ReadonlySet<string>): (typeof KINDS)[number] {
  let best = KINDS[0]!;
  let least = Number.POSITIVE_INFINITY;
  for (const entry of KINDS) {
    const tones = entry.tones.split(" ");
    const missing = tones.filter((tone) => !has.has(tone)).length;
    const extra = [...has].filter((tone) => !tones.includes(tone)).length;
    // Leaving tones out reads worse than adding them.
    const cost = 1.5 * missing + extra;
    if (cost < least) {
      best = entry;
      least = cost;
    }
  }
  return best;
}

function degreeElement(degree: string, type: "add" | "alter" | "subtract"): string {
  const value = degree.replace(/^[b#]+/, "");
  const signs = degree.length - value.length;
  const written = degree.startsWith("b") ? -signs : signs;
  // An added seventh is counted from the dominant's (MusicXML 4.0, `<degree-alter>`).
  const alter = value === "7" && type === "add" ? written + 1 : type === "subtract" ? 0 : written;
  return element(
    "degree",
    {},
    textElement("degree-value", value),
    textElement("degree-alter", alter),
    textElement("degree-type", type),
  );
}
