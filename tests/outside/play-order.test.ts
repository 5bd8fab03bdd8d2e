/**
 * The order in which bars are played, against verovio, which plays repeats, endings and jumps out into a MIDI file
 * and a time map, and against musicxml-io's playback sequence. Where one of the two differs, the other agrees with us, and the reason
 * stands beside.
 */
import { generatePlaybackSequence, parse as parseWithMusicXmlIo } from "musicxml-io";
import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { beforeAll, describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import {
  attributes,
  bar,
  endingStart,
  endingStop,
  note,
  REPEAT_END,
  REPEAT_START,
  score,
  sound,
} from "../ingest/score-text.ts";

/** Each bar is one whole note of its own pitch, so that a rendering tells the bars apart. */
const PITCHES = ["C4", "D4", "E4", "F4", "G4", "A4", "B4"];
const MIDI = [60, 62, 64, 65, 67, 69, 71];

type Bar = readonly [before: string, behind: string];
const PLAIN: Bar = ["", ""];

const MAPS: readonly {
  readonly name: string;
  readonly order: string;
  readonly bars: readonly Bar[];
  /** Why one of the two readers differs. */
  readonly except?: { readonly verovio?: string; readonly musicxmlIo?: string };
}[] = [
  { name: "a repeat", order: "1 2 2 3", bars: [PLAIN, [REPEAT_START, REPEAT_END], PLAIN] },
  { name: "a repeat without a beginning", order: "1 2 1 2 3", bars: [PLAIN, ["", REPEAT_END], PLAIN] },
  {
    name: "two repeats without beginnings",
    order: "1 1 2 2",
    bars: [
      ["", REPEAT_END],
      ["", REPEAT_END],
    ],
    except: { verovio: "goes back to the very start instead of to the end of the first repeat" },
  },
  {
    name: "a repeat played three times",
    order: "1 1 1 2",
    bars: [["", '<barline location="right"><repeat direction="backward" times="3"/></barline>'], PLAIN],
  },
  {
    name: "two endings",
    order: "1 2 1 3 4",
    bars: [
      [REPEAT_START, ""],
      [endingStart("1"), endingStop("1", true)],
      [endingStart("2"), endingStop("2", false)],
      PLAIN,
    ],
  },
  {
    name: "an ending for two of three times",
    order: "1 2 1 2 1 3",
    bars: [
      PLAIN,
      [endingStart("1, 2"), endingStop("1, 2", true)],
      [endingStart("3"), endingStop("3", false)],
    ],
    except: { musicxmlIo: "stops after the second time" },
  },
  {
    name: "a first ending alone",
    order: "1 2 1 3",
    bars: [PLAIN, [endingStart("1"), endingStop("1", true)], PLAIN],
    except: { verovio: "plays straight on" },
  },
  {
    name: "D.C.",
    order: "1 2 1 2",
    bars: [PLAIN, ["", sound('dacapo="yes"')]],
    except: { musicxmlIo: "does not play this jump" },
  },
  {
    name: "D.C. al Fine",
    order: "1 2 3 1",
    bars: [["", sound('fine="yes"')], PLAIN, ["", sound('dacapo="yes"')]],
    except: { musicxmlIo: "does not play this jump" },
  },
  {
    name: "D.S. al Coda",
    order: "1 2 3 4 2 5",
    bars: [
      PLAIN,
      [sound('segno="s"'), sound('tocoda="c"')],
      PLAIN,
      ["", sound('dalsegno="s"')],
      [sound('coda="c"'), ""],
    ],
    except: { musicxmlIo: "does not play this jump" },
  },
  {
    name: "D.C. after two endings",
    order: "1 2 1 3 1 3",
    bars: [
      PLAIN,
      [endingStart("1"), endingStop("1", true)],
      [endingStart("2"), endingStop("2", false) + sound('dacapo="yes"')],
    ],
    except: { musicxmlIo: "does not play this jump" },
  },
];

let verovio: VerovioToolkit & {
  renderToMIDI(): string;
  renderToTimemap(): { readonly on?: readonly string[] }[];
};
beforeAll(async () => {
  // The type declarations leave these two methods out.
  verovio = new VerovioToolkit(await createVerovioModule()) as typeof verovio;
});

describe.each(MAPS)("$name", ({ order, bars, except }) => {
  const bytes = score(
    ...bars.map(([before, behind], index) =>
      bar(index + 1, (index === 0 ? attributes(1) : "") + before + note(PITCHES[index]!, 4) + behind),
    ),
  );
  const text = new TextDecoder().decode(bytes);

  it("is played in the order that players expect", () => {
    expect(readTake(bytes, { name: "map" }).bars.map(({ number }) => number)).toEqual(order.split(" "));
  });

  it("is played in the same order by verovio", () => {
    verovio.loadData(text);
    const midi = new Uint8Array(Buffer.from(verovio.renderToMIDI(), "base64"));
    const theirs = readTake(midi, { name: "map.mid" }).notes.map(({ pitch }) => MIDI.indexOf(pitch) + 1);
    if (except?.verovio === undefined) expect(theirs.join(" ")).toBe(order);
    else expect(theirs.join(" ")).not.toBe(order);
  });

  it("is played in the same order by verovio's time map", () => {
    let count = 0;
    verovio.loadData(text.replaceAll("<note>", () => `<note id="bar${++count}">`));
    const theirs = verovio
      .renderToTimemap()
      .flatMap(({ on }) => (on ?? []).map((id) => /^bar(\d)/.exec(id)![1]!))
      .join(" ");
    if (except?.verovio === undefined) expect(theirs).toBe(order);
    else expect(theirs).not.toBe(order);
  });

  it("is played in the same order by musicxml-io", () => {
    const theirs = generatePlaybackSequence(parseWithMusicXmlIo(text)).map(
      ({ measureIndex }) => measureIndex + 1,
    );
    if (except?.musicxmlIo === undefined) expect(theirs.join(" ")).toBe(order);
    else expect(theirs.join(" ")).not.toBe(order);
  });
});
