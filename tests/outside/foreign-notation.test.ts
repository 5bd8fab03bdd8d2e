/**
 * What is hard to read in notation, written small, against the engraver verovio: onset of each note by its time map,
 * exactly, and the pitch that it would sound.
 */
import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { beforeAll, describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { attributes, bar, note, pitchElement, score } from "../ingest/score-text.ts";

/** A note with its printed value, which the engraver goes by. */
function printed(pitch: string, duration: number, type: string, more = "", before = ""): string {
  return `<note>${before}${pitchElement(pitch)}<duration>${duration}</duration><voice>1</voice><type>${type}</type>${more}</note>`;
}

function tuplet(actual: number, normal: number, marks = ""): string {
  return `<time-modification><actual-notes>${actual}</actual-notes><normal-notes>${normal}</normal-notes></time-modification>${marks === "" ? "" : `<notations>${marks}</notations>`}`;
}

const start = (number: number) => `<tuplet type="start" number="${number}"/>`;
const stop = (number: number) => `<tuplet type="stop" number="${number}"/>`;
const shift = (type: string) =>
  `<direction><direction-type><octave-shift type="${type}" size="8"/></direction-type></direction>`;

const SCORES: readonly (readonly [what: string, bars: readonly string[]])[] = [
  [
    "triplets",
    [
      attributes(3) +
        printed("C4", 1, "eighth", tuplet(3, 2, start(1))) +
        printed("D4", 1, "eighth", tuplet(3, 2)) +
        printed("E4", 1, "eighth", tuplet(3, 2, stop(1))) +
        printed("F4", 9, "half", "<dot/>"),
    ],
  ],
  [
    "a triplet inside a quintuplet",
    [
      attributes(15) +
        printed("C4", 12, "quarter", tuplet(5, 4, start(1))) +
        printed("D4", 12, "quarter", tuplet(5, 4)) +
        printed("E4", 4, "eighth", tuplet(15, 8, start(2))) +
        printed("F4", 4, "eighth", tuplet(15, 8)) +
        printed("G4", 4, "eighth", tuplet(15, 8, stop(2))) +
        printed("A4", 12, "quarter", tuplet(5, 4)) +
        printed("B4", 12, "quarter", tuplet(5, 4, stop(1))),
    ],
  ],
  [
    "two voices and a way back",
    [
      attributes(2) +
        printed("C5", 4, "half") +
        printed("D5", 4, "half") +
        "<backup><duration>8</duration></backup><forward><duration>2</duration></forward>" +
        printed("C4", 2, "quarter").replace("<voice>1", "<voice>2") +
        printed("E4", 4, "half").replace("<voice>1", "<voice>2"),
    ],
  ],
  [
    "a voice that crosses the staves",
    [
      attributes(1, 4, 4, "<staves>2</staves>") +
        printed("C3", 1, "quarter", "<staff>2</staff>") +
        printed("G3", 1, "quarter", "<staff>2</staff>") +
        printed("E4", 1, "quarter", "<staff>1</staff>") +
        printed("C5", 1, "quarter", "<staff>1</staff>"),
    ],
  ],
  [
    "a pickup",
    [attributes(1) + printed("G4", 1, "quarter"), printed("C5", 4, "whole"), printed("E5", 4, "whole")],
  ],
  [
    "an octave sign",
    [
      attributes(1) +
        shift("down") +
        printed("C6", 1, "quarter") +
        printed("E6", 1, "quarter") +
        shift("stop") +
        printed("C5", 2, "half"),
    ],
  ],
  [
    "a tie over a bar line",
    [
      attributes(1) +
        "<note><rest/><duration>3</duration><voice>1</voice><type>half</type><dot/></note>" +
        note(
          "C4",
          1,
          '<tie type="start"/>',
          1,
          '<type>quarter</type><notations><tied type="start"/></notations>',
        ),
      note("C4", 2, '<tie type="stop"/>', 1, '<type>half</type><notations><tied type="stop"/></notations>') +
        printed("E4", 2, "half"),
    ],
  ],
];

interface Engraver extends VerovioToolkit {
  renderToTimemap(): { readonly qstamp: number; readonly on?: readonly string[] }[];
  renderToMIDI(): string;
  getMIDIValuesForElement(id: string): { readonly pitch: number };
}

let verovio: Engraver;
beforeAll(async () => {
  // The type declarations leave these methods out.
  verovio = new VerovioToolkit(await createVerovioModule()) as Engraver;
});

describe.each(SCORES)("%s", (what, bars) => {
  it("sounds as the engraver reads it", () => {
    let count = 0;
    const text = new TextDecoder()
      .decode(
        score(
          ...bars.map((content, i) =>
            bar(i, content, what === "a pickup" && i === 0 ? ' implicit="yes"' : ""),
          ),
        ),
      )
      .replace(/<note>/g, () => `<note id="k${++count}">`);
    const take = readTake(new TextEncoder().encode(text), { name: what });
    const ours = take.notes.map(({ printed: print, tick, pitch }) => ({
      id: print!.documentId!,
      onset: tick / take.ticksPerQuarter,
      pitch,
    }));
    verovio.loadData(text);
    verovio.renderToMIDI();
    const theirs = verovio
      .renderToTimemap()
      .flatMap(({ on, qstamp }) =>
        (on ?? []).map((id) => ({ id, onset: qstamp, pitch: verovio.getMIDIValuesForElement(id).pitch })),
      );
    const byId = (a: { id: string }, b: { id: string }) => a.id.localeCompare(b.id);
    const tied = new Set(
      [...text.matchAll(/<note id="(k\d+)">(?:(?!<\/note>).)*<tie type="stop"/g)].map((match) => match[1]!),
    );
    const started = theirs.filter(({ id }) => !tied.has(id)).sort(byId);
    ours.sort(byId);
    expect(ours.map(({ id, pitch }) => [id, pitch])).toEqual(started.map(({ id, pitch }) => [id, pitch]));
    ours.forEach(({ onset }, i) => {
      expect(onset).toBeCloseTo(started[i]!.onset, 6);
    });
  });
});
