/** A corpus in pictures: measures over its takes, roles by group, and the ideas that its takes share. */
import { scaleLinear } from "d3";
import type { HarmonicRole } from "../../src/harmony/roles.ts";
import { ROLE_MARKS, roleClass, signPath } from "../draw/role-marks.ts";
import type { CorpusSummary, Idea } from "../shell/corpora.ts";
import { s } from "../shell/dom.ts";
import { count, percent, printed } from "../shell/words.ts";
import type { PlainPicture } from "./plain-frame.ts";

interface Named {
  readonly id: string;
  readonly name: string;
  readonly say: (value: number) => string;
}

const MEASURES: readonly Named[] = [
  { id: "tempo", name: "Tempo, quarter notes a minute", say: (v) => v.toFixed(0) },
  { id: "swing", name: "Swing, long part over short", say: (v) => `${v.toFixed(2)} : 1` },
  { id: "placementShare", name: "Notes in a hand placement", say: percent },
  { id: "runShare", name: "Notes in stepwise runs", say: percent },
  { id: "rests", name: "Time in which the solo rests", say: percent },
  { id: "perSecond", name: "Notes a second", say: (v) => v.toFixed(1) },
];

export function measuresOfCorpus(summary: CorpusSummary): PlainPicture {
  const known = MEASURES.filter((one) => summary.measures[one.id]);
  return {
    id: "corpus-measures",
    title: `How ${summary.takes.toLocaleString("en")} takes are spread`,
    units:
      "Each measure on its own scale from 0; the line holds the middle half of the takes, the dot is the median.",
    empty: known.length === 0 ? "No take has been analysed yet." : null,
    draw(width) {
      const row = 40;
      const svg = s("svg", { viewBox: `0 0 ${width} ${known.length * row}`, class: "corpus-measures" });
      known.forEach((one, i) => {
        const spread = summary.measures[one.id]!;
        const x = scaleLinear([0, spread.q3 * 1.15 || 1], [4, width - 150]);
        const y = i * row + 26;
        svg.append(
          s("text", { class: "label", x: 0, y: y - 10 }, one.name),
          s("path", { class: "rule", d: `M4,${y}H${width - 150}` }),
          s("path", {
            class: "middle-half",
            d: `M${x(spread.q1).toFixed(1)},${y}H${x(spread.q3).toFixed(1)}`,
          }),
          s("circle", {
            class: "swing-dot",
            cx: x(spread.median).toFixed(1),
            cy: y,
            r: 5,
            "data-measure": one.id,
            "data-median": spread.median,
          }),
          s("text", { class: "figure", x: x(spread.q3) + 10, y: y + 4 }, one.say(spread.median)),
        );
      });
      return svg;
    },
    table: () => ({
      columns: ["Measure", "First quarter", "Median", "Third quarter", "Takes"],
      rows: known.map((one) => {
        const spread = summary.measures[one.id]!;
        return [one.name, one.say(spread.q1), one.say(spread.median), one.say(spread.q3), spread.takes];
      }),
    }),
  };
}

export function rolesByGroup(summary: CorpusSummary, by: string): PlainPicture {
  const groups = [...summary.groups].sort((a, b) => b.notes - a.notes).slice(0, 24);
  const share = (group: (typeof groups)[number], role: HarmonicRole) => group.roles[role] ?? 0;
  return {
    id: "corpus-roles",
    title: `What the notes are against their chords, by ${by}`,
    units:
      "One row a group, one column a role; the length of a bar is its share of the group's notes, in percent.",
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
        svg.append(
          s("text", { class: "label", x: 0, y: y + 13 }, printed(group.value || "none")),
          s("path", { class: "rule", d: `M0,${y + row - 3}H${width}` }),
        );
        ROLE_MARKS.forEach((mark, i) => {
          const value = share(group, mark.role);
          const length = (value / most) * (w - (w > 60 ? 40 : 6));
          svg.append(
            s("rect", {
              class: `share role-${mark.role} ${mark.fill}`,
              x: (left + i * w).toFixed(1),
              y: y + 3,
              width: Math.max(value > 0 ? 1 : 0, length).toFixed(1),
              height: 12,
              "data-group": group.value,
              "data-role": mark.role,
              "data-share": value,
            }),
            ...(w > 60
              ? [s("text", { class: "figure", x: left + i * w + length + 4, y: y + 13 }, percent(value))]
              : []),
          );
        });
      });
      return svg;
    },
    table: () => ({
      columns: [by, "Takes", "Notes", ...ROLE_MARKS.map((mark) => mark.word)],
      rows: groups.map((group) => [
        printed(group.value || "none"),
        group.takes,
        group.notes,
        ...ROLE_MARKS.map((mark) => percent(share(group, mark.role))),
      ]),
    }),
  };
}

export function sharedIdeas(ideas: readonly Idea[], takes: number): PlainPicture {
  return {
    id: "corpus-ideas",
    title: "The ideas that most takes share",
    units: `Length of a bar: number of takes, of ${takes.toLocaleString("en")}, in which the pattern is a motif. At the right: how often it is played in all.`,
    empty: ideas.length === 0 ? "No motif is shared yet." : null,
    draw(width) {
      const row = 46;
      const most = Math.max(1, ...ideas.map((idea) => idea.takes));
      const svg = s("svg", { viewBox: `0 0 ${width} ${ideas.length * row}`, class: "corpus-ideas" });
      ideas.forEach((idea, i) => {
        const y = i * row;
        const length = (idea.takes / most) * (width - 170);
        svg.append(
          s("text", { class: "label strong", x: 0, y: y + 14 }, shortened(idea.pattern.join(" "), width)),
          s("text", { class: "label faint", x: width, y: y + 14, "text-anchor": "end" }, idea.viewpoint),
          s("rect", {
            class: "bin",
            x: 0,
            y: y + 21,
            width: length.toFixed(1),
            height: 12,
            "data-takes": idea.takes,
          }),
          s(
            "text",
            { class: "figure", x: length + 6, y: y + 31 },
            `${count(idea.takes, "take")}, played ${idea.occurrences} times`,
          ),
        );
      });
      return svg;
    },
    table: () => ({
      columns: ["Pattern", "Kind", "Notes", "Takes", "Players", "Played"],
      rows: ideas.map((idea) => [
        idea.pattern.join(" "),
        idea.viewpoint,
        idea.notes,
        idea.takes,
        idea.players,
        idea.occurrences,
      ]),
    }),
  };
}

/** As much of a pattern as a line holds at about seven pixels a letter; the table has all of it. */
function shortened(text: string, width: number): string {
  const most = Math.floor((width - 130) / 7);
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
}
