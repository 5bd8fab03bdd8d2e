/** How often each harmonic role is played: by chorus, by chord or by beat. */
import { rollup } from "d3";
import type { AccountNote } from "../../src/account.ts";
import type { HarmonicRole } from "../../src/harmony/roles.ts";
import { beatInFigures, percent, withAccidentals } from "../../src/words/index.ts";
import { ROLE_MARKS, roleClass, signPath } from "../draw/role-marks.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h, s } from "../shell/dom.ts";
import type { Drawing, Scene, View } from "./view.ts";

type By = "chorus" | "chord" | "beat";

interface Column {
  /** What `columnOf` says of the notes in it. */
  readonly key: string;
  readonly name: string;
  readonly notes: number;
  readonly shares: Readonly<Partial<Record<HarmonicRole, number>>>;
  readonly chorus: number | null;
}

export function roleShares(): View {
  const state = { by: "chorus" as By };
  return {
    id: "role-shares",
    title: () => `What the notes are against their chords, by ${state.by}`,
    units: () => "Length of a bar: share of the solo's notes in that column, in percent. n: number of notes.",
    empty: (index) => (index.solo.length === 0 ? "There is no solo note to count." : null),
    draw: (scene) => draw(scene, state.by, columnsOf(scene.index, state.by)),
    table(index) {
      const columns = columnsOf(index, state.by);
      return {
        columns: ["Role", ...columns.map((column) => `${column.name} (n = ${column.notes})`)],
        rows: ROLE_MARKS.map((mark) => [
          mark.word,
          ...columns.map((column) => percent(column.shares[mark.role] ?? 0)),
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

/** The columns, each with its shares. By chorus they are the account's own; by chord and beat they count its labels. */
function columnsOf(index: AccountIndex, by: By): Column[] {
  if (by === "chorus") {
    return index.analysis.choruses.map((chorus) => ({
      key: String(chorus.chorus),
      name: `Chorus ${chorus.chorus}`,
      notes: chorus.notes,
      shares: chorus.roles as Column["shares"],
      chorus: chorus.chorus,
    }));
  }
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
    const counts = rollup(
      notes,
      (list) => list.length,
      (note) => note.role,
    );
    const shares: Partial<Record<HarmonicRole, number>> = {};
    for (const [role, n] of counts) if (role) shares[role] = n / notes.length;
    return {
      key: name,
      name: by === "beat" ? `Beat ${beatInFigures(Number(name))}` : withAccidentals(name),
      notes: notes.length,
      shares,
      chorus: null,
    };
  });
}

/** The column that a note is counted in; null when it is counted in none. */
function columnOf(note: AccountNote, by: By): string | null {
  switch (by) {
    case "chorus":
      return String(note.chorus);
    case "chord":
      return note.chord ?? "N.C.";
    case "beat":
      return note.beat === null ? null : String(Math.floor(note.beat + 0.01));
  }
}

function draw(scene: Scene, by: By, columns: readonly Column[]): Drawing {
  const { store, width } = scene;
  const margin = 92;
  const row = 25;
  const per = Math.max(1, Math.min(columns.length, Math.floor((width - margin) / 66)));
  const columnWidth = (width - margin) / per;
  const bands = Math.ceil(columns.length / per);
  const bandHeight = 34 + ROLE_MARKS.length * row + 10;
  const most = Math.max(0.2, ...columns.flatMap((column) => Object.values(column.shares)));
  const length = (share: number) => (share / most) * (columnWidth - 46);
  const svg = s("svg", { viewBox: `0 0 ${width} ${bands * bandHeight}`, class: "role-shares" });
  const fields: { field: SVGRectElement; chorus: number | null }[] = [];
  const bars = new Map<string, SVGRectElement>();
  let under: SVGRectElement | undefined;

  for (let band = 0; band < bands; band++) {
    const top = band * bandHeight;
    ROLE_MARKS.forEach((mark, i) => {
      const y = top + 34 + i * row;
      svg.append(
        s("path", {
          class: roleClass(mark.role),
          d: signPath(mark, 5),
          transform: `translate(8,${y + 11})`,
        }),
        s("text", { class: "label", x: 20, y: y + 15 }, mark.word),
        s("path", { class: "rule", d: `M0,${y + row - 1.5}H${width}` }),
      );
    });
    columns.slice(band * per, (band + 1) * per).forEach((column, i) => {
      const x = margin + i * columnWidth;
      const field = s("rect", {
        class: "column-field",
        x: x - 4,
        y: top + 2,
        width: columnWidth - 4,
        height: bandHeight - 12,
        rx: 2,
      });
      fields.push({ field, chorus: column.chorus });
      const group = s(
        "g",
        { class: "column", "data-column": column.name },
        field,
        s("text", { class: "label strong", x, y: top + 15 }, column.name),
        s("text", { class: "label faint", x, y: top + 29 }, `n = ${column.notes}`),
      );
      ROLE_MARKS.forEach((mark, j) => {
        const share = column.shares[mark.role] ?? 0;
        const y = top + 34 + j * row;
        const bar = s("rect", {
          class: `share role-${mark.role} ${mark.fill}`,
          x,
          y: y + 5,
          width: Math.max(share > 0 ? 1 : 0, length(share)).toFixed(1),
          height: 12,
          "data-role": mark.role,
          "data-share": share,
        });
        bars.set(`${column.key} ${mark.role}`, bar);
        group.append(
          bar,
          s(
            "text",
            { class: share > 0 ? "figure" : "figure faint", x: x + length(share) + 4, y: y + 15 },
            share > 0 ? percent(share) : "0",
          ),
        );
      });
      if (column.chorus !== null) {
        const { chorus } = column;
        group.addEventListener("click", () => store.select({ kind: "chorus", chorus }));
      }
      svg.append(group);
    });
  }
  return {
    svg,
    mark(marked, change) {
      if (change !== "selection") {
        under?.classList.remove("under");
        const note = scene.index.note.get(marked.playing ?? marked.hover ?? "");
        under = note && bars.get(`${columnOf(note, by)} ${note.role}`);
        under?.classList.add("under");
        return;
      }
      const { selection } = marked;
      const chorus =
        selection.kind === "chorus" || selection.kind === "bar"
          ? selection.chorus
          : selection.kind === "note"
            ? (scene.index.note.get(selection.note)?.chorus ?? null)
            : null;
      for (const { field, chorus: own } of fields)
        field.classList.toggle("on", own !== null && own === chorus);
    },
  };
}
