/** Files that are wrong, broken or meant to harm, each with the code of the Problem in which reading it ends. */
import { zipSync } from "fflate";
import { ascii, END_OF_TRACK, metaEvent, midiFile, trackChunk } from "./midi-bytes.ts";
import { attributes, bar, note, REPEAT_START, score, words } from "./score-text.ts";

const encoder = new TextEncoder();

const C = note("C4", 4);
export const SCORE = score(bar(1, attributes(1) + C));
export const CONTAINER = encoder.encode(
  '<container><rootfiles><rootfile full-path="score.xml"/></rootfiles></container>',
);

/** A million copies of a note in little memory. */
function millionNotes(): Uint8Array {
  const event = [0, 0x90, 60, 64, 1, 0x80, 60, 0];
  const count = 1_000_000;
  const bytes = new Uint8Array(22 + 8 * count);
  bytes.set(midiFile(0, 96, trackChunk()));
  new DataView(bytes.buffer).setUint32(18, 8 * count);
  for (let i = 0; i < count; i++) bytes.set(event, 22 + 8 * i);
  return bytes;
}

/** A chunk with everything behind `from` as often, its stated length put right when that is its data. */
function repeated(chunk: readonly number[], from: number, times: number): number[] {
  const head = chunk.slice(0, from);
  const body = chunk.slice(from);
  const data = new Array<number>(body.length * times);
  for (let i = 0; i < data.length; i++) data[i] = body[i % body.length]!;
  const length = data.length;
  const stated = [length >>> 24, (length >> 16) & 0xff, (length >> 8) & 0xff, length & 0xff];
  return from === 0 ? data : [...head.slice(0, 4), ...stated, ...data];
}

function hundredMegabytes(start: string): Uint8Array {
  const bytes = new Uint8Array(100_000_000);
  bytes.set(ascii(start));
  return bytes;
}

/** A zip whose table of contents and local header both claim 1,000 bytes for a file of 30 million. */
function lyingBomb(): Uint8Array {
  const zip = zipSync({ "score.xml": new Uint8Array(30_000_000) }, { level: 6 });
  const view = new DataView(zip.buffer, zip.byteOffset, zip.byteLength);
  for (let at = 0; at + 46 < zip.length; at++) {
    if (view.getUint32(at, true) === 0x02014b50) view.setUint32(at + 24, 1000, true);
  }
  view.setUint32(22, 1000, true);
  return zip;
}

const BOMB = `${REPEAT_START}${C}<barline location="right"><repeat direction="backward" times="1000000"/></barline>`;

export const REFUSED: readonly (readonly [what: string, code: string, file: () => Uint8Array])[] = [
  ["nothing", "empty-file", () => new Uint8Array(0)],
  ["one byte", "unknown-file", () => Uint8Array.of(0x4d)],
  ["words", "unknown-file", () => encoder.encode("key: F\n| F7 | Bb7 |")],
  ["a PDF", "unknown-file", () => encoder.encode("%PDF-1.7")],
  ["NUL bytes", "unknown-file", () => new Uint8Array(5000)],
  ["a web page", "not-a-score", () => encoder.encode("<html><body>404</body></html>")],
  ["a NUL inside a score", "malformed-xml", () => score(bar(1, `\u0000${C}`))],
  ["100 MB of nothing", "unknown-file", () => hundredMegabytes("")],
  ["100 MB of MIDI", "file-too-large", () => hundredMegabytes("MThd")],
  ["100 MB of XML", "file-too-large", () => hundredMegabytes("<score-partwise>")],
  ["100 MB of zip", "file-too-large", () => hundredMegabytes("PK")],
  ["a million MIDI notes", "too-many-notes", millionNotes],
  [
    "a MIDI file of texts and texts",
    "too-many-signs",
    () => midiFile(0, 96, repeated(trackChunk(metaEvent(0x01, ascii("la"))), 8, 200_000)),
  ],
  [
    "a MIDI file of more tracks than its header can count",
    "too-many-notes",
    () => midiFile(1, 96, repeated(trackChunk(), 0, 70_000)),
  ],
  [
    "a MIDI file of delta times that add up to years",
    "take-too-long",
    () =>
      midiFile(0, 96, trackChunk(...Array.from({ length: 9 }, () => [0xff, 0xff, 0xff, 0x7f, 0x90, 60, 64]))),
  ],
  [
    "more notes than a score can be",
    "too-many-notes",
    () => score(bar(1, attributes(1) + "<note/>".repeat(70_000))),
  ],
  ["more elements than a score can have", "file-too-large", () => score(bar(1, "<a/>".repeat(900_000)))],
  [
    "one element with endless children",
    "file-too-large",
    () => score(bar(1, `<note>${"<lyric/>".repeat(5_000)}</note>`)),
  ],
  [
    "one element with endless attributes",
    "file-too-large",
    () => {
      const many = Array.from({ length: 5_000 }, (_, i) => ` a${i}=""`).join("");
      return score(bar(1, C, many));
    },
  ],
  [
    "elements nested 10,000 deep",
    "xml-too-deep",
    () => score(bar(1, "<a>".repeat(10_000) + "</a>".repeat(10_000))),
  ],
  ["the same inside what is not read", "xml-too-deep", () => score(bar(1, `<print>${"<a>".repeat(10_000)}`))],
  [
    "a billion laughs",
    "entities-refused",
    () => {
      const entities = Array.from(
        { length: 10 },
        (_, i) => `<!ENTITY l${i + 1} "${`&l${i};`.repeat(10)}">`,
      ).join("");
      return encoder.encode(
        `<!DOCTYPE score-partwise [<!ENTITY l0 "ha">${entities}]><score-partwise>&l10;</score-partwise>`,
      );
    },
  ],
  [
    "an external entity",
    "entities-refused",
    () =>
      encoder.encode(
        '<!DOCTYPE x [<!ENTITY x SYSTEM "file:///etc/hostname">]><score-partwise>&x;</score-partwise>',
      ),
  ],
  ["an entity that is declared nowhere", "malformed-xml", () => score(bar(1, `&x;${C}`))],
  [
    "an encoding that nobody knows",
    "unknown-encoding",
    () => encoder.encode('<?xml version="1.0" encoding="x-none"?><a/>'),
  ],
  ["two letters of a zip", "damaged-archive", () => encoder.encode("PK")],
  ["a zip without a score", "no-score-inside", () => zipSync({ "readme.txt": encoder.encode("hello") })],
  [
    "a zip with thousands of files",
    "file-too-large",
    () => zipSync(Object.fromEntries(Array.from({ length: 2_000 }, (_, i) => [`f${i}`, new Uint8Array(1)]))),
  ],
  [
    "a zip bomb",
    "file-too-large",
    () => zipSync({ "META-INF/container.xml": CONTAINER, "score.xml": new Uint8Array(30_000_000) }),
  ],
  ["a zip bomb that lies about its size", "file-too-large", lyingBomb],
  [
    "a zip bomb in place of the container",
    "file-too-large",
    () => zipSync({ "META-INF/container.xml": new Uint8Array(3_000_000), "score.xml": SCORE }),
  ],
  [
    "repeats of repeats",
    "too-many-bars",
    () => score(...Array.from({ length: 400 }, (_, i) => bar(i + 1, (i === 0 ? attributes(1) : "") + BOMB))),
  ],
  [
    "repeats of thousands of words",
    "too-many-signs",
    () => score(bar(1, attributes(1) + BOMB.replace(C, C + words("so").repeat(5_000)))),
  ],
  [
    "a note of ten to the 300 quarters",
    "take-too-long",
    () => score(bar(1, attributes(1) + note("C4", 1e300))),
  ],
  [
    "a MIDI note after 77 hours",
    "take-too-long",
    () => midiFile(0, 1, trackChunk([0xa0, 0x80, 0x00, 0x90, 60, 64], [9, 60, 0], END_OF_TRACK)),
  ],
  [
    "a pitch that there is not",
    "impossible-pitch",
    () => score(bar(1, "<note><pitch><step>H</step><octave>4</octave></pitch><duration>1</duration></note>")),
  ],
];
