/** Where on the keyboard each chorus was played, with the reach of the placements behind. */
import { quantileSorted, rollup } from "d3";
import type { RegisterSummary } from "../../src/account.ts";
import { count } from "../../src/words/index.ts";
import { drawKeyboard, type Keyboard, layKeyboard } from "../draw/keyboard.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { s } from "../shell/dom.ts";
import { type ChorusSpan, chorusSpans, isIn, spanFigures } from "./chorus-spans.ts";
import { reachByChorus } from "./reach.ts";
import type { Drawing, Scene, View } from "./view.ts";

export function register(): View {
  return {
    id: "register",
    title: (index) => {
      const { low, high } = index.analysis.register;
      return low === null || high === null
        ? "Where on the keyboard the solo was played"
        : `The solo runs from ${index.keyName(low)} to ${index.keyName(high)}, ${count(high - low, "semitone")} wide`;
    },
    units: () =>
      "Above each key: notes played there, one chorus a row, of many choruses a few together. The thick line holds the middle half, the stroke is the median. Grey band: reach of the hand's placements.",
    empty: (index) => (index.solo.length === 0 ? "There is no solo note to place on the keyboard." : null),
    draw,
    table: (index) => ({
      columns: ["Chorus", "Lowest", "Quarter", "Median", "Three quarters", "Highest", "Notes"],
      rows: index.analysis.choruses.map((chorus) => {
        const q = chorus.register.quantiles;
        return [
          chorus.chorus,
          chorus.register.low === null ? "" : index.keyName(chorus.register.low),
          ...[1, 2, 3].map((i) => (q[i] === undefined ? "" : index.keyName(Math.round(q[i])))),
          chorus.register.high === null ? "" : index.keyName(chorus.register.high),
          chorus.notes,
        ];
      }),
    }),
  };
}

/** What was played in the choruses of a span; of one alone the account's own register. */
function registerIn(index: AccountIndex, span: ChorusSpan): RegisterSummary {
  const own = index.analysis.choruses.filter(({ chorus }) => isIn(span, chorus));
  const [only] = own;
  if (own.length === 1 && only !== undefined) return only.register;
  const pitches = index.solo
    .filter((note) => isIn(span, note.chorus))
    .map((note) => note.pitch)
    .sort((a, b) => a - b);
  return {
    low: pitches[0] ?? null,
    high: pitches.at(-1) ?? null,
    quantiles:
      pitches.length === 0 ? [] : [0.1, 0.25, 0.5, 0.75, 0.9].map((share) => quantileSorted(pitches, share)!),
    histogram: [
      ...rollup(
        pitches,
        (same) => same.length,
        (pitch) => pitch,
      ),
    ].map(([pitch, notes]) => ({ pitch, notes })),
  };
}

/** Where the hand could reach in one chorus. */
function reachMarks(
  reach: readonly (readonly [number, number])[],
  keys: Keyboard,
  base: number,
  rowHeight: number,
): SVGElement[] {
  return reach.map(([from, to]) =>
    s("rect", {
      class: "reach",
      x: keys.left(from),
      y: base - rowHeight + 16,
      width: keys.left(to) + keys.keyWidth(to) - keys.left(from),
      height: rowHeight - 16,
    }),
  );
}

/** How often each key was played in one chorus, the middle half of its notes and their median. */
function playedMarks(
  register: RegisterSummary,
  keys: Keyboard,
  { base, most, tall }: { readonly base: number; readonly most: number; readonly tall: number },
): SVGElement[] {
  const bins = register.histogram.map((bin) => {
    const height = (bin.notes / most) * tall;
    return s("rect", {
      class: "bin",
      x: (keys.centre(bin.pitch) - keys.whiteWidth * 0.24).toFixed(2),
      y: (base - height).toFixed(1),
      width: (keys.whiteWidth * 0.48).toFixed(2),
      height: height.toFixed(1),
      "data-pitch": bin.pitch,
      "data-notes": bin.notes,
    });
  });
  const [, q1, median, q3] = register.quantiles;
  if (q1 === undefined || median === undefined || q3 === undefined) return bins;
  const at = (pitch: number) => {
    const whole = Math.floor(pitch);
    const from = keys.centre(whole);
    return from + (pitch - whole) * (keys.centre(whole + 1) - from);
  };
  return [
    ...bins,
    s("path", { class: "middle-half", d: `M${at(q1).toFixed(1)},${base + 3}H${at(q3).toFixed(1)}` }),
    s("path", { class: "median", d: `M${at(median).toFixed(1)},${base - 3}v9` }),
  ];
}

/** Pixels below the keys for their names: on keys as narrow as these they would run over the edges. */
const NAMES = 12;

function draw(scene: Scene): Drawing {
  const { index, store, width } = scene;
  const spans = chorusSpans(index.analysis.choruses.map(({ chorus }) => chorus));
  const registers = spans.map((span) => registerIn(index, span));
  const together = spans.some(({ first, last }) => first !== last);
  const margin = together ? 58 : width < 600 ? 22 : 64;
  const rowHeight = 62;
  const keyHeight = 54;
  const low = Math.min(55, index.analysis.register.low ?? 60) - 3;
  const high = Math.max(79, index.analysis.register.high ?? 72) + 3;
  const keys = layKeyboard(low, high, width - margin, margin);
  const height = spans.length * rowHeight + keyHeight + NAMES + 6;
  const svg = s("svg", { viewBox: `0 0 ${width} ${height}`, class: "register" });
  const most = Math.max(1, ...registers.flatMap((register) => register.histogram.map((bin) => bin.notes)));
  const rows: { readonly span: ChorusSpan; readonly group: Element }[] = [];
  const reach = reachByChorus(
    index.solo.map((note) => ({
      ...note,
      chorus: spans.find((span) => isIn(span, note.chorus))?.first ?? 0,
    })),
  );

  spans.forEach((span, i) => {
    const base = (i + 1) * rowHeight - 8;
    const group = s("g", { class: "register-row", "data-chorus": spanFigures(span) });
    group.append(
      ...reachMarks(reach.get(span.first) ?? [], keys, base, rowHeight),
      s("path", { class: "rule", d: `M${margin},${base}H${width}` }),
      ...playedMarks(registers[i]!, keys, { base, most, tall: rowHeight - 20 }),
    );
    const name = s(
      "text",
      { class: "row-name", x: 0, y: base - rowHeight / 2 + 12 },
      width < 600 || together ? spanFigures(span) : `Chorus ${span.first}`,
    );
    rows.push({ span, group });
    group.append(name);
    if (span.first === span.last)
      group.addEventListener("click", () => store.select({ kind: "chorus", chorus: span.first }));
    svg.append(group);
  });
  const keyboardTop = spans.length * rowHeight + 2;
  const keyboard = drawKeyboard(keys, { y: keyboardTop, height: keyHeight, names: NAMES });
  const keyOf = new Map(
    [...keyboard.querySelectorAll<SVGRectElement>(".key")].map((key) => [Number(key.dataset.pitch), key]),
  );
  svg.append(keyboard);
  let lit: Element[] = [];
  let under: Element | null = null;
  return {
    svg,
    mark(marked, change) {
      if (change === "selection") {
        for (const key of lit) key.classList.remove("on");
        const pitches = new Set([...(marked.notes ?? [])].map((id) => index.note.get(id)?.pitch ?? -1));
        lit = [...pitches].flatMap((pitch) => keyOf.get(pitch) ?? []);
        for (const key of lit) key.classList.add("on");
        const { selection } = marked;
        for (const { span, group } of rows)
          group.classList.toggle("on", selection.kind === "chorus" && isIn(span, selection.chorus));
      } else {
        under?.classList.remove("under");
        const id = marked.playing ?? marked.hover;
        under = id === null ? null : (keyOf.get(index.note.get(id)?.pitch ?? -1) ?? null);
        under?.classList.add("under");
      }
    },
  };
}
