import { type Chord, parseChord } from "../../chart/index.ts";
import { Problem } from "../../take/index.ts";
import { directionElement } from "./direction-xml.ts";
import { element, textElement } from "./xml.ts";

/** Kinds of MusicXML by the degrees that make them, richest first; what is left over is written as `<degree>`. */
const KINDS: readonly { readonly kind: string; readonly text: string; readonly tones: string }[] = [
  { kind: "dominant-13th", text: "13", tones: "1 3 5 b7 9 13" },
  { kind: "major-13th", text: "maj13", tones: "1 3 5 7 9 13" },
  { kind: "minor-13th", text: "m13", tones: "1 b3 5 b7 9 13" },
  { kind: "dominant-11th", text: "11", tones: "1 3 5 b7 9 11" },
  { kind: "minor-11th", text: "m11", tones: "1 b3 5 b7 9 11" },
  { kind: "major-11th", text: "maj11", tones: "1 3 5 7 9 11" },
  { kind: "dominant-ninth", text: "9", tones: "1 3 5 b7 9" },
  { kind: "major-ninth", text: "maj9", tones: "1 3 5 7 9" },
  { kind: "minor-ninth", text: "m9", tones: "1 b3 5 b7 9" },
  { kind: "dominant", text: "7", tones: "1 3 5 b7" },
  { kind: "major-seventh", text: "maj7", tones: "1 3 5 7" },
  { kind: "minor-seventh", text: "m7", tones: "1 b3 5 b7" },
  { kind: "half-diminished", text: "m7b5", tones: "1 b3 b5 b7" },
  { kind: "diminished-seventh", text: "dim7", tones: "1 b3 b5 6" },
  { kind: "augmented-seventh", text: "7#5", tones: "1 3 #5 b7" },
  { kind: "major-minor", text: "m(maj7)", tones: "1 b3 5 7" },
  { kind: "major-sixth", text: "6", tones: "1 3 5 6" },
  { kind: "minor-sixth", text: "m6", tones: "1 b3 5 6" },
  { kind: "major", text: "", tones: "1 3 5" },
  { kind: "minor", text: "m", tones: "1 b3 5" },
  { kind: "diminished", text: "dim", tones: "1 b3 b5" },
  { kind: "augmented", text: "aug", tones: "1 3 #5" },
  { kind: "suspended-fourth", text: "sus4", tones: "1 11 5" },
  { kind: "suspended-second", text: "sus2", tones: "1 9 5" },
  { kind: "power", text: "5", tones: "1 5" },
];

/**
 * A chord symbol as `<harmony>`: root, kind, bass, and degrees for what the kind does not say. The kind's text is what
 * is printed between root and degrees. "7alt" is a text of its own, since its tones are a choice.
 *
 * @param offset Ticks from the place in the voice where it is written.
 */
export function harmonyElement(symbol: string, offset: number, staff: number | null): string {
  const tail = [
    ...(offset === 0 ? [] : [textElement("offset", offset)]),
    ...(staff === null ? [] : [textElement("staff", staff)]),
  ];
  const chord = readSymbol(symbol);
  // Engravers print a root even for "no chord", so the symbol itself is given as words; so is what is no chord symbol.
  if (chord === null) {
    const silent = element(
      "harmony",
      {},
      textElement("function", "N.C."),
      textElement("kind", "none"),
      ...tail,
    );
    return silent + directionElement(textElement("words", symbol), offset, staff);
  }
  const { kind, text, degrees } = chord.altered ? ALTERED : kindOf(chord);
  return element(
    "harmony",
    {},
    element("root", {}, ...noteName("root", chord.root)),
    element("kind", { text }, kind),
    ...(chord.bass === chord.root ? [] : [element("bass", {}, ...noteName("bass", chord.bass))]),
    ...degrees,
    ...tail,
  );
}

const ALTERED = { kind: "dominant", text: "7alt", degrees: [] };

function readSymbol(symbol: string): Chord | null {
  try {
    return parseChord(symbol);
  } catch (error) {
    if (error instanceof Problem) return null;
    throw error;
  }
}

function noteName(prefix: "root" | "bass", name: string): string[] {
  const signs = name.slice(1);
  const alter = signs.startsWith("b") ? -signs.length : signs.length;
  return [
    textElement(`${prefix}-step`, name[0]!),
    ...(alter === 0 ? [] : [textElement(`${prefix}-alter`, alter)]),
  ];
}

function kindOf(chord: Chord): { kind: string; text: string; degrees: string[] } {
  const has = new Set<string>(chord.tones.map(({ degree }) => degree));
  const { kind, text, tones } = closestKind(has);
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
  return { kind, text, degrees };
}

/** The kind that needs the fewest degrees beside it; of several the first. Leaving a tone out reads worst. */
function closestKind(has: ReadonlySet<string>): (typeof KINDS)[number] {
  const altered = !has.has("5") && (has.has("b5") || has.has("#5"));
  let best = KINDS[0]!;
  let least = Number.POSITIVE_INFINITY;
  for (const entry of KINDS) {
    const tones = entry.tones.split(" ");
    const fifth = altered && tones.includes("5") ? 1 : 0;
    const missing = tones.filter((tone) => !has.has(tone)).length - fifth;
    const extra = [...has].filter((tone) => !tones.includes(tone)).length;
    const cost = 4 * missing + extra;
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
