/** How often each label is given, by chorus, by chord or by beat: the harmonic roles, or the roles in the line. */
import { rollup } from "d3";
import { restsOn } from "../../src/account/rests-on.ts";
import type { AccountNote, Analysis } from "../../src/account.ts";
import { beatInFigures, percent, withAccidentals } from "../../src/words/index.ts";
import { ROLE_MARKS, roleClass, signPath } from "../draw/role-marks.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h, s } from "../shell/dom.ts";
import { type ChorusSpan, chorusSpans, isIn, spanFigures } from "./chorus-spans.ts";
import { LINE_ROLE_LETTERS, LINE_ROLE_NAMES } from "./line-role-letters.ts";
import type { Drawing, Scene, View } from "./view.ts";

type By = "chorus" | "chord" | "beat";

interface Label {
  readonly name: string;
  readonly word: string;
  /** Class names that give its bars their tone. */
  readonly look: string;
  readonly sign: () => SVGElement;
}

/** One kind of label: what there is, and which one a note or a chorus has. */
interface Kind {
  readonly id: string;
  readonly title: string;
  readonly labels: readonly Label[];
  readonly of: (note: AccountNote) => string | null;
  readonly inChorus: (chorus: Analysis["choruses"][number]) => Readonly<Record<string, number>>;
}

const HARMONIC: Kind = {
  id: "role-shares",
  title: "Notes against their chords",
  labels: ROLE_MARKS.map((mark) => ({
    name: mark.role,
    word: mark.word,
    look: `role-${mark.role} ${mark.fill}`,
    sign: () => s("path", { class: roleClass(mark.role), d: signPath(mark, 5) }),
  })),
  of: (note) => note.role,
  inChorus: (chorus) => chorus.roles,
};

const LINE: Kind = {
  id: "line-shares",
  title: "Notes in the line",
  labels: LINE_ROLE_NAMES.map((name) => ({
    name,
    word: name,
    look: "line-share",
    sign: () => s("text", { class: "label strong", y: 4, "text-anchor": "middle" }, LINE_ROLE_LETTERS[name]),
  })),
  of: (note) => note.lineRole,
  inChorus: (chorus) => chorus.lineRoles,
};

export const roleShares = (): View => labelShares(HARMONIC);
export const lineShares = (): View => labelShares(LINE);

interface Column {
  /** What `columnOf` says of the notes in it. */
  readonly key: string;
  readonly name: string;
  readonly notes: number;
  readonly shares: Readonly<Record<string, number>>;
  /** Choruses that it counts; null where it counts another thing. */
  readonly span: ChorusSpan | null;
}

const shareOf = (condition: string | null): string =>
  condition === null ? "Share of" : `${condition}: share of`;

function labelShares(kind: Kind): View {
  const state = { by: "chorus" as By };
  return {
    id: kind.id,
    title: () => `${kind.title}, by ${state.by}`,
    units: (index) =>
      `${shareOf(restsOn(index.analysis))} the solo's notes in that column, in percent. n: number of notes.${spansOf(index).every(({ first, last }) => first === last) ? "" : " Choruses are taken together; the table has each."}`,
    empty: (index) => (index.solo.length === 0 ? "There is no solo note to count." : null),
    draw: (scene) =>
      draw(scene, kind, state.by, columnsOf(scene.index, kind, state.by, spansOf(scene.index))),
    table(index) {
      const columns = columnsOf(
        index,
        kind,
        state.by,
        index.choruses.map((chorus) => ({ first: chorus, last: chorus })),
      );
      return {
        columns: ["Role", ...columns.map((column) => `${column.name} (n = ${column.notes})`)],
        rows: kind.labels.map(({ name, word }) => [
          word,
          ...columns.map((column) => percent(column.shares[name] ?? 0)),
        ]),
      };
    },
    controls: (_scene, redraw) => [
      h(
        "label",
        {},
        "Columns ",
        h(
          "select",
          {
            onChange: (event: Event) => {
              state.by = (event.target as HTMLSelectElement).value as By;
              redraw();
            },
          },
          h("option", { value: "chorus" }, "By chorus"),
          h("option", { value: "chord" }, "By chord"),
          h("option", { value: "beat" }, "By beat"),
        ),
      ),
    ],
  };
}

const spansOf = ({ analysis }: AccountIndex): ChorusSpan[] =>
  chorusSpans(analysis.choruses.map(({ chorus }) => chorus));

/** The choruses of a span, each weighing as many notes as it has; of one alone the account's own shares. */
function spanColumn({ analysis }: AccountIndex, kind: Kind, span: ChorusSpan): Column {
  const own = analysis.choruses.filter(({ chorus }) => isIn(span, chorus));
  const notes = own.reduce((sum, chorus) => sum + chorus.notes, 0);
  const shares: Record<string, number> = {};
  for (const chorus of own) {
    const weight = own.length === 1 ? 1 : chorus.notes / Math.max(1, notes);
    for (const [label, share] of Object.entries(kind.inChorus(chorus)))
      shares[label] = (shares[label] ?? 0) + weight * share;
  }
  const name = span.first === span.last ? `Chorus ${span.first}` : spanFigures(span);
  return { key: spanFigures(span), name, notes, shares, span };
}

/** The columns, each with its shares. By chorus they are the account's own; by chord and beat they count its labels. */
function columnsOf(index: AccountIndex, kind: Kind, by: By, spans: readonly ChorusSpan[]): Column[] {
  if (by === "chorus") return spans.map((span) => spanColumn(index, kind, span));
  const groups = new Map<string, AccountNote[]>();
  for (const note of index.solo) {
    const name = columnOf(note, by);
    if (name === null) continue;
    const list = groups.get(name);
    if (list) list.push(note);
    else groups.set(name, [note]);
  }
  const names = [...groups.keys()];
  if (by === "beat") names.sort((a, b) => Number(a) - Number(b));
  return names.map((name) => {
    const notes = groups.get(name)!;
    const counts = rollup(notes, (list) => list.length, kind.of);
    const shares: Record<string, number> = {};
    for (const [label, n] of counts) if (label) shares[label] = n / notes.length;
    return {
      key: name,
      name: by === "beat" ? `Beat ${beatInFigures(Number(name))}` : withAccidentals(name),
      notes: notes.length,
      shares,
      span: null,
    };
  });
}

const spanKey = (columns: readonly Column[], chorus: number): string | undefined =>
  columns.find(({ span }) => span !== null && isIn(span, chorus))?.key;

/** The column that a note is counted in; null when it is counted in none. */
function columnOf(note: AccountNote, by: Exclude<By, "chorus">): string | null {
  switch (by) {
    case "chord":
      return note.chord ?? "N.C.";
    case "beat":
      return note.beat === null ? null : String(Math.floor(note.beat + 0.01));
  }
}

const ROW = 22;
const HEAD = 34;
const MARGIN = 104;

function draw(scene: Scene, kind: Kind, by: By, columns: readonly Column[]): Drawing {
  const { index, store, width } = scene;
  const used = kind.labels.filter(({ name }) => columns.some((column) => (column.shares[name] ?? 0) > 0));
  const per = Math.max(1, Math.min(columns.length, Math.floor((width - MARGIN) / 66)));
  const columnWidth = (width - MARGIN) / per;
  const bands = Math.ceil(columns.length / per);
  const bandHeight = HEAD + used.length * ROW + 10;
  const most = Math.max(0.2, ...columns.flatMap((column) => Object.values(column.shares)));
  const svg = s("svg", { viewBox: `0 0 ${width} ${bands * bandHeight}`, class: kind.id });
  const fields: { field: SVGElement; span: ChorusSpan | null }[] = [];
  const bars = new Map<string, SVGElement>();
  for (let band = 0; band < bands; band++) {
    const top = band * bandHeight;
    used.forEach((label, i) => {
      const y = top + HEAD + i * ROW + ROW / 2;
      const sign = label.sign();
      svg.append(
        s("g", { transform: `translate(9,${y})` }, sign),
        s("text", { class: "label", x: 22, y: y + 4 }, label.word),
        s("path", { class: "rule", d: `M0,${y + ROW / 2}H${width}` }),
      );
    });
    columns.slice(band * per, (band + 1) * per).forEach((column, i) => {
      const at = { x: MARGIN + i * columnWidth, top, width: columnWidth, height: bandHeight };
      const group = drawColumn(column, used, at, most, bars);
      const { span } = column;
      fields.push({ field: group.firstElementChild as SVGElement, span });
      if (span !== null && span.first === span.last)
        group.addEventListener("click", () => store.select({ kind: "chorus", chorus: span.first }));
      svg.append(group);
    });
  }
  let under: SVGElement | undefined;
  return {
    svg,
    mark(marked, change) {
      if (change !== "selection") {
        under?.classList.remove("under");
        const note = index.note.get(marked.playing ?? marked.hover ?? "");
        const key = note && (by === "chorus" ? spanKey(columns, note.chorus) : columnOf(note, by));
        under = note && bars.get(`${key} ${kind.of(note)}`);
        under?.classList.add("under");
        return;
      }
      const { selection } = marked;
      const chorus =
        selection.kind === "chorus" || selection.kind === "bar"
          ? selection.chorus
          : selection.kind === "note"
            ? (index.note.get(selection.note)?.chorus ?? null)
            : null;
      for (const { field, span } of fields)
        field.classList.toggle("on", span !== null && chorus !== null && isIn(span, chorus));
    },
  };
}

function drawColumn(
  column: Column,
  labels: readonly Label[],
  at: { readonly x: number; readonly top: number; readonly width: number; readonly height: number },
  most: number,
  bars: Map<string, SVGElement>,
): SVGGElement {
  const { x, top } = at;
  const length = (share: number) => (share / most) * (at.width - 46);
  const group = s(
    "g",
    { class: "column", "data-column": column.name },
    s("rect", {
      class: "column-field",
      x: x - 4,
      y: top + 2,
      width: at.width - 4,
      height: at.height - 12,
      rx: 2,
    }),
    s("text", { class: "label strong", x, y: top + 15 }, column.name),
    s("text", { class: "label faint", x, y: top + 29 }, `n = ${column.notes}`),
  );
  labels.forEach(({ name, look }, j) => {
    const share = column.shares[name] ?? 0;
    const y = top + HEAD + j * ROW;
    const bar = s("rect", {
      class: `share ${look}`,
      x,
      y: y + 5,
      width: Math.max(share > 0 ? 1 : 0, length(share)).toFixed(1),
      height: 12,
      "data-role": name,
      "data-share": share,
    });
    bars.set(`${column.key} ${name}`, bar);
    group.append(
      bar,
      s(
        "text",
        { class: share > 0 ? "figure" : "figure faint", x: x + length(share) + 4, y: y + 15 },
        share > 0 ? percent(share) : "0",
      ),
    );
  });
  return group;
}
