/**
 * Repeat structures as scores and lead sheets have them, each with the bars in the order in which players play them.
 *
 * Sources: [xml] MusicXML 4.0, documentation of `<repeat>`, `<ending>`, `<sound>`, `<segno>` and `<coda>`; [gould]
 * Gould, Behind Bars, 2011, chapter on repeat signs [memory]; [roemer] Roemer, The Art of Music Copying, 1985
 * [memory]; [practice] what players do with a sheet whose signs are incomplete.
 *
 * A bar is a list of signs, in their order: `|:` and `:|` (`:|3` three times in all), `[1` and `]` an ending's start
 * and end (`]-` the end that stays open, type "discontinue"), `<]` an end that stands in the next bar's left line,
 * `<:|` and `|:>` signs on the other side of the bar line, words in quotes, `{name=value}` of a `<sound>`, `segno`
 * and `coda` as signs. `.` is a bar without signs.
 */
export interface RepeatStructure {
  readonly name: string;
  readonly source: "xml" | "gould" | "roemer" | "practice";
  readonly bars: readonly string[];
  /** Written bars, from 1, as played. */
  readonly order: string;
  /** Codes of the warnings that must be there. */
  readonly told?: readonly string[];
}

export const REPEAT_STRUCTURES: readonly RepeatStructure[] = [
  { name: "no sign at all", source: "practice", bars: [".", ".", "."], order: "1 2 3" },
  { name: "a passage between two signs", source: "xml", bars: [".", "|:", ":|", "."], order: "1 2 3 2 3 4" },
  { name: "a repeat from the beginning", source: "gould", bars: [".", ":|", "."], order: "1 2 1 2 3" },
  {
    name: "two repeats that touch",
    source: "gould",
    bars: ["|:", ":|", "|:", ":|"],
    order: "1 2 1 2 3 4 3 4",
  },
  {
    name: "the second repeat has no beginning",
    source: "gould",
    bars: [".", ":|", ".", ":|"],
    order: "1 2 1 2 3 4 3 4",
  },
  { name: "a repeat of one bar", source: "xml", bars: [".", "|: :|", "."], order: "1 2 2 3" },
  { name: "four times", source: "xml", bars: ["|:", ":|4", "."], order: "1 2 1 2 1 2 1 2 3" },
  {
    name: "the repeat sign stands at the left of the next bar",
    source: "practice",
    bars: ["|:", ".", "<:|"],
    order: "1 2 1 2 3",
  },
  {
    name: "the beginning stands at the right of the bar before",
    source: "practice",
    bars: ["|:>", ".", ":|", "."],
    order: "1 2 3 2 3 4",
  },
  {
    name: "first and second ending",
    source: "xml",
    bars: ["|:", "[1 :| ]", "[2 ]-", "."],
    order: "1 2 1 3 4",
  },
  {
    name: "endings of two bars each",
    source: "xml",
    bars: ["|:", "[1", ":| ]", "[2", "]", "."],
    order: "1 2 3 1 4 5 6",
  },
  {
    name: "an ending for the first and second time",
    source: "xml",
    bars: ["|:", "[1,2 :|3 ]", "[3 ]-", "."],
    order: "1 2 1 2 1 3 4",
  },
  {
    name: "three endings, each with its sign",
    source: "gould",
    bars: ["|:", "[1 :| ]", "[2 :| ]", "[3 ]-"],
    order: "1 2 1 3 1 4",
  },
  {
    name: "a range of passes",
    source: "practice",
    bars: ["|:", "[1-3 :| ]", "[4 ]-"],
    order: "1 2 1 2 1 2 1 3",
  },
  {
    name: "a first ending and no second",
    source: "practice",
    bars: ["|:", "[1 :| ]", ".", "."],
    order: "1 2 1 3 4",
  },
  {
    name: "endings of a repeat without a beginning",
    source: "gould",
    bars: [".", ".", "[1 :| ]", "[2 ]-", "."],
    order: "1 2 3 1 2 4 5",
  },
  {
    name: "the bracket of the second ending is not closed",
    source: "practice",
    bars: ["|:", "[1 :| ]", "[2", ".", "."],
    order: "1 2 1 3 4 5",
  },
  {
    name: "the bracket of the first ending stops a bar before the repeat sign",
    source: "practice",
    bars: ["|:", "[1 ]", ":|", "[2 ]-", "."],
    order: "1 2 3 1 4 5",
    told: ["ending-reaches-on"],
  },
  {
    name: "the bracket of the first ending stops two bars before the repeat sign",
    source: "practice",
    bars: ["|:", ".", "[1 ]", ".", ":|", "[2 ]", "."],
    order: "1 2 3 4 5 1 2 6 7",
    told: ["ending-reaches-on"],
  },
  {
    name: "both brackets say 1",
    source: "practice",
    bars: ["|:", "[1 :| ]", "[1 ]-", "."],
    order: "1 2 1 3 4",
    told: ["ending-numbered-anew"],
  },
  {
    name: "the first ending has no repeat sign",
    source: "practice",
    bars: ["|:", "[1 ]", "[2 ]", "."],
    order: "1 2 1 3 4",
    told: ["repeat-understood"],
  },
  {
    name: "only the second ending has its bracket",
    source: "practice",
    bars: ["|:", ":|", "[2 ]-", "."],
    order: "1 2 1 2 3 4",
    told: ["ending-without-first"],
  },
  {
    name: "the bracket's end stands in the next bar's left line",
    source: "practice",
    bars: ["|:", "[1 :|", "<] .", "."],
    order: "1 2 1 3 4",
  },
  {
    name: "a repeat begins with the second ending",
    source: "practice",
    bars: ["|:", "[1 :| ]", "[2 |: ]", ":|", "."],
    order: "1 2 1 3 4 3 4 5",
  },
  {
    name: "a repeat begins inside the second ending",
    source: "practice",
    bars: ["|:", "[1 :| ]", "[2", "|: ]", ":|", "."],
    order: "1 2 1 3 4 5 4 5 6",
  },
  {
    name: "two sections, each with two endings",
    source: "gould",
    bars: ["|:", "[1 :| ]", "[2 ]-", "|:", "[1 :| ]", "[2 ]-"],
    order: "1 2 1 3 4 5 4 6",
  },
  {
    name: "D.C. al Fine",
    source: "gould",
    bars: [".", '"Fine"', ".", '"D.C. al Fine"'],
    order: "1 2 3 4 1 2",
  },
  { name: "D.C. by itself", source: "xml", bars: [".", ".", "{dacapo=yes}"], order: "1 2 3 1 2 3" },
  {
    name: "D.S. al Fine",
    source: "gould",
    bars: [".", "segno", '"Fine"', '"D.S. al Fine"'],
    order: "1 2 3 4 2 3",
  },
  {
    name: "D.S. al Coda in words and signs",
    source: "roemer",
    bars: [".", "segno", '"To Coda"', '"D.S. al Coda"', "coda", "."],
    order: "1 2 3 4 2 3 5 6",
  },
  {
    name: "D.S. al Coda as sound",
    source: "xml",
    bars: [".", "{segno=s}", "{tocoda=c}", "{dalsegno=s}", "{coda=c}", "."],
    order: "1 2 3 4 2 3 5 6",
  },
  {
    name: "D.C. al Coda with two coda signs and no words",
    source: "roemer",
    bars: [".", "coda", '"D.C. al Coda"', "coda", "."],
    order: "1 2 3 1 2 4 5",
  },
  {
    name: "the word Segno in place of the sign",
    source: "practice",
    bars: [".", '"Segno"', ".", '"D.S."', "."],
    order: "1 2 3 4 2 3 4 5",
  },
  {
    name: "repeats are not taken again after D.C.",
    source: "gould",
    bars: ["|:", ":|", '"Fine"', ".", '"D.C. al Fine"'],
    order: "1 2 1 2 3 4 5 1 2 3",
  },
  {
    name: "repeats that are marked to be taken after the jump",
    source: "xml",
    bars: ["|:", ":|+", '"D.C."'],
    order: "1 2 1 2 3 1 2 1 2 3",
  },
  {
    name: "after D.C. the last ending is played",
    source: "gould",
    bars: ["|:", "[1 :| ]", "[2 ]-", '"Fine"', '"D.C. al Fine"'],
    order: "1 2 1 3 4 5 1 3 4",
  },
  {
    name: "the Fine stands in the first ending",
    source: "practice",
    bars: ["|:", '[1 "Fine" :| ]', "[2 ]-", '"D.C. al Fine"'],
    order: "1 2 1 3 4 1 2",
  },
  {
    name: "the way to the coda stands in the first ending",
    source: "practice",
    bars: ["|:", '[1 "To Coda" :| ]', "[2 ]-", '"D.C. al Coda"', "coda"],
    order: "1 2 1 3 4 1 2 5",
  },
  {
    name: "D.S. with no segno anywhere",
    source: "practice",
    bars: [".", ".", '"D.S. al Fine"', "."],
    order: "1 2 3 4",
    told: ["no-segno"],
  },
  {
    name: "a coda that no way leads to",
    source: "practice",
    bars: [".", '"Fine"', '"D.C. al Fine"', "coda", "."],
    order: "1 2 3 1 2",
    told: ["bars-not-played"],
  },
  {
    name: "an ending that is for a time that never comes",
    source: "practice",
    bars: ["|:", "[1 :| ]", "[2 ]-", "[5 ]-", "."],
    order: "1 2 1 3 5",
    told: ["bars-not-played"],
  },
  {
    name: "the jump stands in the second ending",
    source: "roemer",
    bars: ["segno", "|:", "[1 :| ]", '[2 "D.S. al Coda" ]-', "coda"],
    order: "1 2 3 2 4 1 2 4 5",
  },
  {
    name: "the way to the coda stands inside a repeat",
    source: "gould",
    bars: [".", "segno |:", '"To Coda"', ":|", '"D.S. al Coda"', "coda", "."],
    order: "1 2 3 4 2 3 4 5 2 3 6 7",
  },
  {
    name: "D.C. al Coda out of a repeated passage",
    source: "gould",
    bars: ["|:", '"To Coda"', ":|", '"D.C. al Coda"', "coda"],
    order: "1 2 3 1 2 3 4 1 2 5",
  },
  {
    name: "three times, and once after D.C.",
    source: "gould",
    bars: ["|:", ':|3 "Fine"', '"D.C. al Fine"'],
    order: "1 2 1 2 1 2 3 1 2",
  },
  {
    name: "two ways to two codas",
    source: "xml",
    bars: [
      ...["{segno=s}", "{tocoda=c1}", "{tocoda=c2}", "{dalsegno=s}"],
      ...["{coda=c1}", "{dalsegno=s}", "{coda=c2}", "."],
    ],
    order: "1 2 3 4 1 2 5 6 1 2 3 7 8",
  },
  {
    name: "To Coda stands twice: the first one is taken",
    source: "practice",
    bars: ["segno", '"To Coda"', ".", '"To Coda"', '"D.S. al Coda"', "coda"],
    order: "1 2 3 4 5 1 2 6",
  },
  {
    name: "three endings, the first two of two bars",
    source: "gould",
    bars: ["|:", "[1", ":| ]", "[2", ":| ]", "[3 ]-", "."],
    order: "1 2 3 1 4 5 1 6 7",
  },
  {
    name: "endings that take turns",
    source: "xml",
    bars: ["|:", "[1,3 :| ]", "[2,4 :| ]", "."],
    order: "1 2 1 3 1 2 1 3 4",
  },
  {
    name: "an ending for two times whose repeat sign says no number",
    source: "practice",
    bars: ["|:", "[1,2 :| ]", "[3 ]-"],
    order: "1 2 1 2 1 3",
  },
  {
    name: "the segno stands inside a repeat",
    source: "gould",
    bars: ["|:", "segno", ":|", '"Fine"', '"D.S. al Fine"'],
    order: "1 2 3 1 2 3 4 5 2 3 4",
  },
  {
    name: "a repeat in the coda is new, and is taken",
    source: "practice",
    bars: ["segno", '"To Coda"', '"D.S. al Coda"', "coda |:", ":|", "."],
    order: "1 2 3 1 2 4 5 4 5 6",
  },
  {
    name: "endings in the coda are new, and are taken",
    source: "practice",
    bars: ["segno", '"To Coda"', '"D.S. al Coda"', "coda |:", "[1 :| ]", "[2 ]-"],
    order: "1 2 3 1 2 4 5 4 6",
  },
  {
    name: "the Fine stands in the second ending",
    source: "gould",
    bars: ["segno |:", "[1 :| ]", '[2 "Fine" ]-', ".", '"D.S. al Fine"'],
    order: "1 2 1 3 4 5 1 3",
  },
  {
    name: "two segnos with labels, each with its D.S.",
    source: "xml",
    bars: ["{segno=a}", ".", "{segno=b}", "{dalsegno=a}", "{dalsegno=b}", "."],
    order: "1 2 3 4 1 2 3 4 5 3 4 5 6",
  },
  {
    name: "Dal Segno al Coda, all in words",
    source: "roemer",
    bars: ['"Segno"', '"To Coda"', '"Dal Segno al Coda"', '"Coda"', "."],
    order: "1 2 3 1 2 4 5",
  },
  {
    name: "one bar line ends a repeat and begins another",
    source: "xml",
    bars: ["|:", ".", "<:| |:", ".", ":|"],
    order: "1 2 1 2 3 4 5 3 4 5",
  },
  {
    name: "the first bracket has no end and its repeat sign stands a bar later",
    source: "practice",
    bars: ["|:", "[1", ":|", "[2 ]-"],
    order: "1 2 3 1 4",
  },
  {
    name: "the last of two endings has a repeat sign too much",
    source: "practice",
    bars: ["|:", "[1 :| ]", "[2 :| ]", "."],
    order: "1 2 1 3 4",
  },
  {
    name: "four endings, each with its sign",
    source: "gould",
    bars: ["|:", "[1 :| ]", "[2 :| ]", "[3 :| ]", "[4 ]-"],
    order: "1 2 1 3 1 4 1 5",
  },
  {
    name: "numbers of endings with full stops and a stroke",
    source: "practice",
    bars: ["|:", "[1./2. :| ]", "[3. ]-"],
    order: "1 2 1 2 1 3",
  },
  {
    name: "a bar behind D.C. al Fine",
    source: "practice",
    bars: [".", '"Fine"', '"D.C. al Fine"', "."],
    order: "1 2 3 1 2",
    told: ["bars-not-played"],
  },
  {
    name: "D.C. and Fine as sound",
    source: "xml",
    bars: [".", "{fine=yes}", ".", "{dacapo=yes}"],
    order: "1 2 3 4 1 2",
  },
  {
    name: "D.C. and Fine in words and as sound",
    source: "xml",
    bars: [".", '"Fine" {fine=yes}', ".", '"D.C. al Fine" {dacapo=yes}'],
    order: "1 2 3 4 1 2",
  },
  {
    name: "D.S. al Coda in signs, in words and as sound",
    source: "xml",
    bars: ["segno {segno=s}", '"To Coda" {tocoda=c}', '"D.S. al Coda" {dalsegno=s}', "coda {coda=c}"],
    order: "1 2 3 1 2 4",
  },
  {
    name: "D.C. al 2nd ending",
    source: "roemer",
    bars: ["|:", ".", "[1 :| ]", "[2 ]-", ".", '"D.C. al 2nd ending"'],
    order: "1 2 3 1 2 4 5 6 1 2 4",
  },
  {
    name: "D.S. al 2nd ending, three endings",
    source: "roemer",
    bars: ["segno |:", "[1 :| ]", "[2 :| ]", "[3 ]-", '"D.S. al 2nd ending"'],
    order: "1 2 1 3 1 4 5 1 3",
  },
  {
    name: "D.C. with repeats",
    source: "practice",
    bars: ["|:", ":|", '"D.C. with repeats"'],
    order: "1 2 1 2 3 1 2 1 2 3",
  },
  {
    name: "D.C. without repeats, in Italian",
    source: "gould",
    bars: ["|:", ":|", '"D.C. senza replica"'],
    order: "1 2 1 2 3 1 2 3",
  },
  {
    name: "the Fine stands inside a repeat",
    source: "gould",
    bars: ["|:", '"Fine"', ":|", '"D.C. al Fine"'],
    order: "1 2 3 1 2 3 4 1 2",
  },
  {
    name: "a repeat with its way to the coda behind it",
    source: "gould",
    bars: ["segno |:", ":|", '"To Coda"', '"D.S. al Coda"', "coda"],
    order: "1 2 1 2 3 4 1 2 3 5",
  },
  {
    name: "the way out says al Coda",
    source: "practice",
    bars: ["segno", '"al Coda"', '"D.S. al Coda"', "coda"],
    order: "1 2 3 1 2 4",
  },
  { name: "a Fine that no jump needs", source: "practice", bars: [".", '"Fine"', "."], order: "1 2 3" },
  { name: "a repeat that is never closed", source: "practice", bars: [".", "|:", "."], order: "1 2 3" },
  {
    name: "two beginnings and one end",
    source: "practice",
    bars: ["|:", "|:", ":|", "."],
    order: "1 2 3 2 3 4",
  },
  {
    name: "3x over the repeat sign",
    source: "practice",
    bars: ["|:", ':| "3x"', "."],
    order: "1 2 1 2 1 2 3",
    told: ["times-in-words"],
  },
  {
    name: "Play 4 times over the first bar of the repeat",
    source: "practice",
    bars: ['|: "Play 4 times"', ":|", "."],
    order: "1 2 1 2 1 2 1 2 3",
    told: ["times-in-words"],
  },
  {
    name: "words for the player that give no number",
    source: "practice",
    bars: ["|:", ':| "vamp till cue"', "."],
    order: "1 2 1 2 3",
  },
  {
    name: "the words D. C. and fine, small and with a space",
    source: "practice",
    bars: [".", '"fine"', ".", '"d. c. al fine"'],
    order: "1 2 3 4 1 2",
  },
];

const barline = (side: "left" | "right", content: string) =>
  `<barline location="${side}">${content}</barline>`;
const direction = (type: string, sound = "") =>
  `<direction><direction-type>${type}</direction-type>${sound}</direction>`;

type Side = "before" | "behind";

/** How each sign is written in MusicXML, and on which side of the bar's notes. */
const SIGNS: readonly (readonly [RegExp, Side, (value: string, name: string) => string])[] = [
  [/^\|:$/, "before", () => barline("left", '<repeat direction="forward"/>')],
  [/^\|:>$/, "behind", () => barline("right", '<repeat direction="forward"/>')],
  [/^<:\|$/, "before", () => barline("left", '<repeat direction="backward"/>')],
  [/^<\]$/, "before", () => barline("left", '<ending number="1" type="stop"/>')],
  [/^:\|\+$/, "behind", () => barline("right", '<repeat direction="backward" after-jump="yes"/>')],
  [/^:\|$/, "behind", () => barline("right", '<repeat direction="backward"/>')],
  [/^:\|(\d+)$/, "behind", (times) => barline("right", `<repeat direction="backward" times="${times}"/>`)],
  [/^\[(.+)$/, "before", (number) => barline("left", `<ending number="${number}" type="start"/>`)],
  [/^\]$/, "behind", () => barline("right", '<ending number="1" type="stop"/>')],
  [/^\]-$/, "behind", () => barline("right", '<ending number="1" type="discontinue"/>')],
  [/^(segno|coda)$/, "before", (sign) => direction(`<${sign}/>`)],
  [/^\{(?=segno|coda)(\w+)=(\w+)\}$/, "before", (value, name) => jump(name, value)],
  [/^\{(\w+)=(\w+)\}$/, "behind", (value, name) => jump(name, value)],
  [/^"(Segno)"$/, "before", (words) => direction(`<words>${words}</words>`)],
  [/^"(.+)"$/, "behind", (words) => direction(`<words>${words}</words>`)],
];

const jump = (name: string, value: string) => direction("<words/>", `<sound ${name}="${value}"/>`);

/** The signs of one bar as MusicXML, before and behind its notes. */
export function signsOfBar(bar: string): Readonly<Record<Side, string>> {
  const written = { before: "", behind: "" };
  for (const [sign] of bar.matchAll(/\S*"[^"]*"|\S+/g)) {
    if (sign === ".") continue;
    const row = SIGNS.find(([pattern]) => pattern.test(sign));
    if (row === undefined) throw new Error(`no such sign: ${sign}`);
    const [pattern, side, write] = row;
    const [, first = "", second = ""] = pattern.exec(sign)!;
    written[side] += write(second || first, first);
  }
  return written;
}
