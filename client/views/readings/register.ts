/** High and low: the middle half of each chorus behind its notes, and how often each key was played at the margin. */
import { s } from "../../shell/dom.ts";
import type { Mark, Paper, Reading } from "./reading.ts";
import { roleSign } from "./role.ts";

/** Width of the margin of keys. */
const MARGIN = 74;

export const registerReading: Reading = {
  name: "register",
  word: "Register",
  units: () =>
    "The band behind a chorus: its middle half, with the median as a line. At the right edge: how often each key was played in that chorus.",
  right: (width) => (width < 600 ? 40 : MARGIN),
  joined: true,
  sign: roleSign,
  behind: (paper) => [...halves(paper), ...counts(paper)],
  key: () => [
    { sign: s("rect", { class: "reach", x: -11, y: -6, width: 22, height: 12 }), words: "middle half" },
    { sign: s("path", { class: "median", d: "M-11,0H11" }), words: "median" },
    { sign: s("path", { class: "bin", d: "M-11,-4h18v3h-18ZM-11,1h10v3h-10Z" }), words: "notes on a key" },
  ],
  table: (index) => ({
    columns: ["Chorus", "Lowest", "Quarter", "Median", "Three quarters", "Highest", "Notes"],
    rows: index.analysis.choruses.map((chorus) => {
      const { low, high, quantiles } = chorus.register;
      const name = (pitch: number | null | undefined) =>
        pitch === null || pitch === undefined ? "" : index.keyName(Math.round(pitch));
      return [
        chorus.chorus,
        name(low),
        ...[1, 2, 3].map((i) => name(quantiles[i])),
        name(high),
        chorus.notes,
      ];
    }),
  }),
};

function halves({ index, layout, shows }: Paper): Mark[] {
  return layout.lines.flatMap((line) =>
    layout.rows.flatMap((chorus) => {
      const [, q1, median, q3] =
        index.analysis.choruses.find((one) => one.chorus === chorus)?.register.quantiles ?? [];
      const cells = line.bars.flatMap((bar) => layout.cell(chorus, bar) ?? []);
      const [first, last] = [cells[0], cells.at(-1)];
      if (q1 === undefined || median === undefined || q3 === undefined || !first || !last) return [];
      if (!shows(first.y)) return [];
      const width = last.x + last.width - first.x;
      const [top, bottom] = [first.y + layout.depth(q3), first.y + layout.depth(q1)];
      const element = s(
        "g",
        { class: "middle", "data-chorus": chorus },
        s("rect", { class: "reach", x: first.x, y: top, width, height: Math.max(2, bottom - top) }),
        s("path", {
          class: "median",
          d: `M${first.x},${(first.y + layout.depth(median)).toFixed(1)}h${width.toFixed(1)}`,
          "data-median": median,
        }),
      );
      return [{ element, notes: [], y: first.y }];
    }),
  );
}

/** Beside the first line of each chorus. */
function counts({ index, layout, shows }: Paper): Mark[] {
  const most = Math.max(
    1,
    ...index.analysis.choruses.flatMap((one) => one.register.histogram.map((bin) => bin.notes)),
  );
  const line = layout.lines.find((one) => one.bars.some((bar) => bar >= 1));
  if (line === undefined) return [];
  return index.analysis.choruses.flatMap((chorus) => {
    const cell = layout.cell(chorus.chorus, line.bars.at(-1) ?? 1);
    if (cell === null || !shows(cell.y)) return [];
    const x = cell.x + cell.width + 6;
    const room = layout.width - x - 2;
    const element = s(
      "g",
      { class: "register-row", "data-chorus": chorus.chorus },
      ...chorus.register.histogram.map((bin) =>
        s("rect", {
          class: "bin",
          x,
          y: (cell.y + layout.depth(bin.pitch) - 1.4).toFixed(1),
          width: ((bin.notes / most) * room).toFixed(1),
          height: 2.8,
          "data-pitch": bin.pitch,
          "data-notes": bin.notes,
        }),
      ),
    );
    return [{ element, notes: [], y: cell.y }];
  });
}
