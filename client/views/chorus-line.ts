/** The solo as a line: held notes, joined where they follow each other, and another chorus laid under it. */
import type { AccountNote } from "../../src/account.ts";
import { roleMark, signPath } from "../draw/role-marks.ts";
import { s } from "../shell/dom.ts";
import type { ChorusLayout } from "./chorus-layout.ts";

/** The line as a hand would write it: each note held as long as it was, joined to the next one of its phrase. */
export function drawContour(
  notes: readonly AccountNote[],
  layout: ChorusLayout,
  barQuarters: number,
): SVGGElement {
  const joins: string[] = [];
  const holds: string[] = [];
  notes.forEach((note, i) => {
    const at = layout.point(note)!;
    const next = notes[i + 1];
    const to = next && next.phrase === note.phrase ? layout.point(next) : null;
    const sameLine = to !== null && to.x > at.x && Math.abs(to.y - at.y) < layout.rowHeight;
    const held =
      note.beats === null
        ? 0
        : (note.beats / barQuarters) * ((layout.cell(note.chorus, note.bar)?.width ?? 0) - 7);
    const end = Math.min(at.x + held, sameLine ? to.x : layout.width - 2);
    if (end - at.x > 2) holds.push(`M${at.x.toFixed(1)},${at.y.toFixed(1)}H${end.toFixed(1)}`);
    if (sameLine) {
      joins.push(
        `M${Math.max(at.x, end).toFixed(1)},${at.y.toFixed(1)}L${to.x.toFixed(1)},${to.y.toFixed(1)}`,
      );
    }
  });
  return s(
    "g",
    { class: "contour" },
    s("path", { class: "join", d: joins.join("") }),
    s("path", { class: "hold", d: holds.join("") }),
  );
}

/** The notes of another chorus, as outlines in the fields of this one. */
export function drawUnder(notes: readonly AccountNote[], layout: ChorusLayout, chorus: number): SVGGElement {
  const group = s("g", { class: "under" });
  for (const note of notes) {
    const at = layout.point({ ...note, chorus });
    if (!at) continue;
    group.append(
      s("path", {
        class: `under-sign`,
        d: signPath(roleMark(note.role), 5.4),
        transform: `translate(${at.x.toFixed(1)},${at.y.toFixed(1)})`,
        "data-under": note.id,
      }),
    );
  }
  return group;
}
