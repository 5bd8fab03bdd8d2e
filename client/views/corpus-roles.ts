/** What the notes are against their chords, group by group of a corpus. */

import type { CorpusSummary } from "../../server/contract/corpus-results.ts";
import type { HarmonicRole } from "../../src/harmony/roles.ts";
import { percent, withAccidentals } from "../../src/words/index.ts";
import { ROLE_MARKS, roleClass, signPath } from "../draw/role-marks.ts";
import { s } from "../shell/dom.ts";
import type { PlainPicture } from "./plain-frame.ts";
import { shortened } from "./shortened.ts";

const SHOWN = 24;

/** `part` is the group that the other pictures look at, or null for all. */
export function corpusRoles(summary: CorpusSummary, by: string, part: string | null): PlainPicture {
  const all = [...summary.groups].sort((a, b) => b.notes - a.notes);
  const groups = all.slice(0, SHOWN);
  return {
    id: "corpus-roles",
    title: `What the notes are against their chords, by ${by}`,
    units: `One row a group, one column a role; the length of a bar is its share of the group's notes, in percent.${all.length > SHOWN ? ` The ${SHOWN} groups with the most notes are drawn, all stand in the table.` : ""}`,
    empty: groups.length === 0 ? "There is no group to show." : null,
    draw(width) {
      const left = Math.min(150, width * 0.28);
      const row = 26;
      const w = (width - left) / ROLE_MARKS.length;
      const most = Math.max(
        0.2,
        ...groups.flatMap((group) => ROLE_MARKS.map((mark) => share(group, mark.role))),
      );
      const svg = s("svg", { viewBox: `0 0 ${width} ${groups.length * row + 30}`, class: "corpus-roles" });
      ROLE_MARKS.forEach((mark, i) => {
        svg.append(
          s("path", {
            class: roleClass(mark.role),
            d: signPath(mark, 4.6),
            transform: `translate(${left + i * w + 6},12)`,
          }),
          ...(w > 74 ? [s("text", { class: "label", x: left + i * w + 17, y: 16 }, mark.word)] : []),
        );
      });
      groups.forEach((group, j) => {
        const y = 28 + j * row;
        const line = s("g", {
          class: group.value === part ? "part-row on" : "part-row",
          "data-part": group.value,
        });
        line.append(
          s("rect", { class: "row-field", x: 0, y: y - 3, width, height: row }),
          s(
            "text",
            { class: "label", x: 2, y: y + 13 },
            shortened(withAccidentals(group.value || "none"), left - 6, 7),
          ),
          s("path", { class: "rule", d: `M0,${y + row - 3}H${width}` }),
        );
        ROLE_MARKS.forEach((mark, i) => {
          line.append(...shareMarks(group, mark, left + i * w, w, y, most));
        });
        svg.append(line);
      });
      return svg;
    },
    table: () => ({
      columns: [by, "Takes", "Notes", ...ROLE_MARKS.map((mark) => mark.word)],
      rows: all.map((group) => [
        withAccidentals(group.value || "none"),
        group.takes,
        group.notes,
        ...ROLE_MARKS.map((mark) => percent(share(group, mark.role))),
      ]),
    }),
  };
}

type Group = CorpusSummary["groups"][number];

const share = (group: Group, role: HarmonicRole): number => group.roles[role] ?? 0;

/** The bar of one role in the row of a group, in a column `w` wide, with its percentage where there is room. */
function shareMarks(
  group: Group,
  mark: (typeof ROLE_MARKS)[number],
  x: number,
  w: number,
  y: number,
  most: number,
): SVGElement[] {
  const value = share(group, mark.role);
  const length = (value / most) * (w - (w > 60 ? 40 : 6));
  const bar = s("rect", {
    class: `share role-${mark.role} ${mark.fill}`,
    x: x.toFixed(1),
    y: y + 3,
    width: Math.max(value > 0 ? 1 : 0, length).toFixed(1),
    height: 12,
    "data-group": group.value,
    "data-role": mark.role,
    "data-share": value,
  });
  if (w <= 60) return [bar];
  return [bar, s("text", { class: "figure", x: (x + length + 4).toFixed(1), y: y + 13 }, percent(value))];
}
