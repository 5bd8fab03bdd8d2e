/**
 * A score cut into pieces that each fill a page of paper, every one a score of its own: the engraver takes far longer
 * over a long score than over its parts, and between two of them the page answers. For scores of one part, as the
 * program writes them (src/export/write-musicxml.ts).
 */

const MEASURE = /<measure\b[\s\S]*?<\/measure>/g;
const NEW_SYSTEM = /<print new-system="yes"\/>/;

export interface ScorePiece {
  readonly xml: string;
  /** Whether its last line has as many bars as any other of the whole. */
  readonly fillsLast: boolean;
}

/** @param most systems of a piece; a chorus that would not end in a piece begins the next one, where it fits into one */
export function scorePieces(xml: string, most: number): ScorePiece[] {
  const measures = xml.match(MEASURE) ?? [];
  const [first] = measures;
  if (first === undefined || (xml.match(/<part\s/g) ?? []).length !== 1 || !NEW_SYSTEM.test(xml))
    return [{ xml, fillsLast: false }];
  const head = xml.slice(0, xml.indexOf(first));
  const tail = xml.slice(xml.lastIndexOf("</measure>") + "</measure>".length);
  const lines = systemsOf(measures);
  const longest = Math.max(...lines.map(barsIn));
  let from = 0;
  return onPages(lines, most).map((systems) => {
    const own = systems.flat();
    const stated = statedBefore(measures.slice(0, from));
    from += own.length;
    const body = own.join("").replace(NEW_SYSTEM, (sign) => (own[0]?.includes(sign) ? "" : sign));
    const whole = stated === "" ? body : body.replace(/<measure\b[^>]*>/, (opening) => opening + stated);
    return { xml: `${head}${whole}${tail}`, fillsLast: barsIn(systems.at(-1)!) === longest };
  });
}

/** Bars of a line; a pickup is none. */
const barsIn = (line: readonly string[]): number =>
  line.filter((measure) => !/^<measure [^>]*implicit/.test(measure)).length;

/** Measures by the line that they stand on. */
function systemsOf(measures: readonly string[]): string[][] {
  const systems: string[][] = [];
  for (const measure of measures) {
    const last = systems.at(-1);
    if (last === undefined || NEW_SYSTEM.test(measure)) systems.push([measure]);
    else last.push(measure);
  }
  return systems;
}

/** Systems by page: as many as fit, but for those of a chorus that has room on the next page alone. */
function onPages(systems: readonly string[][], most: number): string[][][] {
  const begins = systems.map(
    (system, i) => i === 0 || system.some((measure) => measure.includes("<rehearsal>")),
  );
  const lengthFrom = (at: number) => {
    const next = begins.indexOf(true, at + 1);
    return (next < 0 ? systems.length : next) - at;
  };
  const pages: string[][][] = [];
  systems.forEach((system, i) => {
    const page = pages.at(-1);
    const room = page === undefined ? 0 : most - page.length;
    const chorus = begins[i] ? lengthFrom(i) : 0;
    if (page === undefined || room === 0 || (chorus > room && chorus <= most)) pages.push([system]);
    else page.push(system);
  });
  return pages;
}

/** Divisions, key, clef and meter as they stand after these measures; the meter is read, and printed at the beginning alone. */
function statedBefore(measures: readonly string[]): string {
  const text = measures.join("");
  const last = (name: string) =>
    [...text.matchAll(new RegExp(`<${name}\\b[^>]*>[\\s\\S]*?</${name}>`, "g"))].at(-1)?.[0] ?? "";
  const time = last("time").replace(/<time\b[^>]*>/, '<time print-object="no">');
  const all = `${last("divisions")}${last("key")}${time}${last("clef")}`;
  return all === "" ? "" : `<attributes>${all}</attributes>`;
}
