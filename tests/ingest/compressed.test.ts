/**
 * Compressed MusicXML: a zip archive whose META-INF/container.xml names the score (MusicXML 4.0, "Compressed .mxl
 * files"; the first rootfile is the score, others are other renderings of it).
 */
import { zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import type { Take } from "../../src/take/index.ts";
import { attributes, bar, note, score } from "./score-text.ts";

const encoder = new TextEncoder();
const whole = (pitch: string) => score(bar(1, attributes(1) + note(pitch, 4)));

function read(files: Record<string, Uint8Array | string>, level: 0 | 6 = 6): Take {
  const entries = Object.entries(files).map(
    ([name, content]) => [name, typeof content === "string" ? encoder.encode(content) : content] as const,
  );
  return readTake(zipSync(Object.fromEntries(entries), { level }), { name: "file.mxl" });
}

function container(...rootfiles: readonly string[]): string {
  return `<?xml version="1.0"?><container><rootfiles>${rootfiles.join("")}</rootfiles></container>`;
}

describe("the container", () => {
  it("names the score, wherever it stands and whatever else lies beside it", () => {
    const take = read({
      "META-INF/container.xml": container(
        '<rootfile full-path="music/real.musicxml" media-type="application/vnd.recordare.musicxml+xml"/>',
        '<rootfile full-path="music/real.pdf" media-type="application/pdf"/>',
      ),
      "first.xml": whole("C4"),
      "music/real.musicxml": whole("G4"),
      "music/real.pdf": "%PDF-1.7",
    });
    expect(take.notes.map(({ pitch }) => pitch)).toEqual([67]);
    expect(take.warnings).toEqual([]);
  });

  it.each([
    ["in single quotes", "<rootfile full-path='a.xml'/>"],
    ["over several lines", '<rootfile\n media-type="x"\n full-path = "a.xml"></rootfile>'],
    ["from the root of the archive", '<rootfile full-path="/a.xml"/>'],
  ])("may name it %s", (_, rootfile) => {
    expect(read({ "META-INF/container.xml": container(rootfile), "a.xml": whole("C4") }).warnings).toEqual(
      [],
    );
  });

  it("may name it with letters that XML escapes, and in any script", () => {
    const name = "Q & A – 夜.xml";
    const rootfile = `<rootfile full-path="${name.replace("&", "&amp;")}"/>`;
    expect(read({ "META-INF/container.xml": container(rootfile), [name]: whole("C4") }).warnings).toEqual([]);
  });

  it("may be written in UTF-16", () => {
    const text = `\ufeff${container('<rootfile full-path="a.xml"/>')}`;
    const bytes = new Uint8Array(Uint16Array.from(text, (letter) => letter.charCodeAt(0)).buffer);
    expect(read({ "META-INF/container.xml": bytes, "a.xml": whole("C4") }).warnings).toEqual([]);
  });

  it("may hold files that are stored and not packed", () => {
    const files = {
      "META-INF/container.xml": container('<rootfile full-path="a.xml"/>'),
      "a.xml": whole("C4"),
    };
    expect(read(files, 0)).toEqual(read(files));
  });

  it.each([
    ["is missing", {}],
    ["names no file", { "META-INF/container.xml": container() }],
    [
      "names a file that is not there",
      { "META-INF/container.xml": container('<rootfile full-path="b.xml"/>') },
    ],
  ] as const)("when it %s, the score in the archive's root is read with a warning", (_, files) => {
    const take = read({ ...files, "a.xml": whole("C4") });
    expect(take.notes).toHaveLength(1);
    expect(take.warnings.map(({ code }) => code)).toEqual(["no-container"]);
  });
});
