/** How scores are engraved, on a page and in a file: one set of options for the engraver (verovio). */

export interface EngravingWishes {
  /** Width of a page in CSS pixels. */
  readonly width: number;
  /** Size of the staff in percent; 40 is a usual reading size on screen. */
  readonly scale: number;
  /** Height of a page in CSS pixels; null makes one page as long as the music. */
  readonly height: number | null;
  /** True keeps the line breaks that a score asks for; else lines are as full as they can be. */
  readonly ownBreaks: boolean;
  /** True where a line is written above the first system. */
  readonly hasHead: boolean;
  /** True makes the last line as wide as the others: it has as many bars. */
  readonly fillsLast?: boolean;
  /** True where the score names its choruses. */
  readonly hasMarks?: boolean;
}

/** A last line that fills this share of the width is made as wide as the others, how many bars it may have. */
const NEARLY_FULL = 0.8;

/** A page as long as the music is cut to it; the engraver takes no greater height. */
const TALLEST = 60_000;

/** Options of the engraver, whose lengths are in units of the scaled page. */
export function engravingOptions(wishes: EngravingWishes) {
  const { width, scale, height, ownBreaks, hasHead, fillsLast = false, hasMarks = false } = wishes;
  const scaled = (pixels: number) => Math.round((pixels * 100) / scale);
  return {
    scale,
    pageWidth: scaled(width),
    pageHeight: height ? scaled(height) : TALLEST,
    adjustPageHeight: !height,
    // Half of "Chorus 2" stands left of the first bar line; where a line begins with it, left of the line.
    pageMarginLeft: hasMarks ? 105 : 70,
    pageMarginRight: 20,
    // The line above the first system has its room here.
    pageMarginTop: hasHead ? Math.round(3000 / scale) : 30,
    pageMarginBottom: 20,
    breaks: ownBreaks ? "encoded" : "auto",
    minLastJustification: fillsLast ? 0 : NEARLY_FULL,
    header: "none",
    footer: "none",
    svgViewBox: true,
    svgRemoveXlink: true,
    svgHtml5: false,
    // A finger does not stand inside its note: this names it.
    svgAdditionalAttribute: ["fing@startid"],
    spacingLinear: 0.2,
    // Fingers are read at arm's length: a little smaller than the words, not half as large.
    fingeringScale: 0.85,
    lyricWordSpace: 1.8,
    // Room between chord symbols and fingers, and between words that stand under each other.
    bottomMarginHarm: 2.5,
    defaultBottomMargin: 1,
  } as const;
}

/** As this room writes it. */
const NEW_LINE = '<print new-system="yes"/>';

/** Whether a score says itself where its lines end; one that does not is laid by the engraver. */
export function hasOwnBreaks(musicXml: string): boolean {
  return musicXml.includes(NEW_LINE);
}

/** Whether the last of several lines has as many bars as the longest one; a pickup counts for none. */
export function lastLineIsFull(musicXml: string): boolean {
  const lines = musicXml
    .split(NEW_LINE)
    .map((line) => (line.match(/<measure (?![^>]*implicit)/g) ?? []).length);
  // The bar that begins a line is opened before the break that it carries.
  const bars = lines.map((n, i) => n + (i > 0 ? 1 : 0) - (i < lines.length - 1 ? 1 : 0));
  return bars.length > 1 && bars.at(-1) === Math.max(...bars);
}

/**
 * The score with lines of so many bars, in place of its own. Left to itself, the engraver puts one bar on the first line
 * and all others on the second where words stand under most bars, at half of their width.
 *
 * @param musicXml as this room writes it, of one part
 * @param bars on a line, 1 or more
 */
export function inLinesOf(musicXml: string, bars: number): string {
  let bar = 0;
  return musicXml.replaceAll(NEW_LINE, "").replaceAll(/<measure [^>]*>/g, (opening) => {
    const begins = bar > 0 && bar % bars === 0;
    bar++;
    return begins ? opening + NEW_LINE : opening;
  });
}

/** Pixels that clef, key and margins take from a line, and that the engraver reckons for a letter of the words below it. */
const LINE_HEAD = 70;
const LETTER = 6.6;

/** Words below a bar, as this room writes them. */
const WORDS_BELOW = /(<direction placement="below"><direction-type><words>)([^<]*)(?=<\/words>)/;

/**
 * The score with the words below its bars on two lines where they are wider than a bar: the engraver sets words that
 * would run through their neighbours lower and lower, so that they go down like stairs.
 *
 * @param musicXml as this room writes it, of one part
 * @param width of a line, in CSS pixels
 */
export function inShortWords(musicXml: string, width: number): string {
  const [before = "", ...bars] = musicXml.split(/(?=<measure )/);
  const starts = bars.flatMap((bar, i) => (i === 0 || bar.includes(NEW_LINE) ? [i] : []));
  const most = Math.max(...starts.map((start, i) => (starts[i + 1] ?? bars.length) - start));
  const room = (width - LINE_HEAD) / most;
  const next = (i: number) => !starts.includes(i + 1) && WORDS_BELOW.test(bars[i + 1] ?? "");
  const last = (i: number) => !starts.includes(i) && WORDS_BELOW.test(bars[i - 1] ?? "");
  return [
    before,
    ...bars.map((bar, i) =>
      next(i) || last(i)
        ? bar.replace(WORDS_BELOW, (_, opening: string, words: string) =>
            words.length * LETTER < room ? opening + words : opening + inTwoLines(words),
          )
        : bar,
    ),
  ].join("");
}

/** Broken at the space that is nearest to its middle. */
function inTwoLines(words: string): string {
  const spaces = [...words.matchAll(/ /g)].map(({ index }) => index);
  const [at] = spaces.sort((a, b) => Math.abs(a - words.length / 2) - Math.abs(b - words.length / 2));
  return at === undefined ? words : `${words.slice(0, at)}\n${words.slice(at + 1)}`;
}
