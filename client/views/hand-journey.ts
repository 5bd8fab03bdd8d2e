/** The hand's way over the keyboard: one panel a chorus, bars downwards, each placement a bracket over its keys. */
import { group } from "d3";
import type { AccountNote, AccountPlacement } from "../../src/account.ts";
import { count, fingerName, percent, withAccidentals } from "../../src/words/index.ts";
import { drawKeyboard, layKeyboard } from "../draw/keyboard.ts";
import { stepsBack } from "../draw/selection-highlight.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { s } from "../shell/dom.ts";
import type { Drawing, Scene, View } from "./view.ts";

export function handJourney(): View {
  return {
    id: "hand-journey",
    title: (index) =>
      `The hand takes ${count(index.analysis.placements.length, "placement")} and covers ${percent(
        index.analysis.handFit.share,
      )} of the notes`,
    units: () =>
      "Across: keys of the piano. Down: bars of the chart. A bracket reaches from a placement's lowest to its highest key; the dots are the notes' keys, the square the anchor finger. Dashed: a placement that does not fit its chord.",
    empty: (index) =>
      index.analysis.placements.length === 0
        ? "No hand shape explains this line, so there is no journey to draw. Try other shapes in the take's settings."
        : null,
    draw,
    table: (index) => ({
      columns: [
        "Placement",
        "Chord",
        "Chorus",
        "Bar",
        "Anchor",
        "Keys",
        "Notes",
        "Shift (semitones)",
        "Fits",
      ],
      rows: index.analysis.placements.map((placement) => {
        const notes = notesOf(index, placement);
        const keys = notes.map((note) => note.pitch);
        return [
          placementName(placement),
          withAccidentals(placement.chord ?? ""),
          placement.chorus,
          placement.bar,
          index.keyName(placement.anchorPitch, notes),
          keys.length > 0
            ? `${index.keyName(Math.min(...keys), notes)} to ${index.keyName(Math.max(...keys), notes)}`
            : "",
          placement.notes,
          placement.shift ?? "",
          placement.fitsChord ? "yes" : "no",
        ];
      }),
    }),
  };
}

/** "third-and-steps, index on the 5" */
export function placementName(placement: AccountPlacement): string {
  const degree = placement.anchorDegree
    ? `on the ${withAccidentals(placement.anchorDegree)}`
    : "off the chord";
  return `${placement.shape}, ${fingerName(placement.anchorFinger)} ${degree}`;
}

function notesOf(index: AccountIndex, placement: AccountPlacement): AccountNote[] {
  return index
    .between(placement.firstNote, placement.lastNote)
    .filter((note) => note.placement === placement.id);
}

function draw(scene: Scene): Drawing {
  const { index, store, width } = scene;
  const { placements } = index.analysis;
  const pitches = index.solo.map((note) => note.pitch).concat(placements.map((p) => p.anchorPitch));
  const low = pitches.reduce((a, b) => Math.min(a, b), 127) - 2;
  const high = pitches.reduce((a, b) => Math.max(a, b), 0) + 2;
  const whites = ((high - low) * 7) / 12;
  const side = 44;
  const fit = Math.max(
    1,
    Math.min(index.choruses.length, Math.floor(width / Math.max(250, whites * 9 + side))),
  );
  const panelWidth = (width - (fit - 1) * 18) / fit;
  const keyHeight = 40;
  const bars = index.bars;
  const barHeight = Math.max(18, Math.min(34, 430 / bars.length));
  const panelHeight = 22 + keyHeight + bars.length * barHeight + 22;
  const lines = Math.ceil(index.choruses.length / fit);
  const svg = s("svg", { viewBox: `0 0 ${width} ${lines * panelHeight}`, class: "hand-journey" });
  const brackets = new Map<string, SVGGElement[]>();
  const dots = new Map<string, SVGCircleElement>();
  const places = new Map<string, { x: number; y: number }>();
  const first = bars[0] ?? 1;
  const notesOf = group(
    index.solo.filter((note) => note.placement !== null),
    (note) => note.placement!,
  );

  index.choruses.forEach((chorus, i) => {
    const left = (i % fit) * (panelWidth + 18);
    const top = Math.floor(i / fit) * panelHeight;
    const keys = layKeyboard(low, high, panelWidth - side, left + side);
    const y0 = top + 22 + keyHeight + 4;
    const yOf = (bar: number, within: number) => y0 + (bar - first + within) * barHeight;
    svg.append(
      s("text", { class: "row-name", x: left, y: top + 13, "data-row": chorus }, `Chorus ${chorus}`),
      drawKeyboard(keys, { y: top + 20, height: keyHeight, names: keys.whiteWidth > 6 }),
    );
    for (const bar of bars) {
      const chord = index.chords(bar)[0];
      svg.append(
        s("path", { class: "rule", d: `M${left},${yOf(bar, 0)}H${left + panelWidth}` }),
        s("text", { class: "bar-number", x: left, y: yOf(bar, 0) + 12 }, bar < 1 ? "" : String(bar)),
        s(
          "text",
          { class: "tiny-chord", x: left + 15, y: yOf(bar, 0) + 12 },
          chord ? withAccidentals(chord.symbol) : "",
        ),
      );
    }
    for (const note of index.solo) {
      if (note.chorus === chorus)
        places.set(note.id, { x: keys.centre(note.pitch), y: yOf(note.bar, index.within(note)) });
    }
    const way: string[] = [];
    let firstBracket: SVGGElement | null = null;
    for (const placement of placements) {
      const notes = (notesOf.get(placement.id) ?? []).filter((note) => note.chorus === chorus);
      const start = notes[0];
      const end = notes.at(-1);
      if (!start || !end) continue;
      const y = yOf(start.bar, index.within(start));
      const bottom = Math.max(y + 3, yOf(end.bar, index.within(end)));
      const used = notes.map((note) => note.pitch);
      const [from, to] = [Math.min(...used, placement.anchorPitch), Math.max(...used, placement.anchorPitch)];
      const anchor = keys.centre(placement.anchorPitch);
      way.push(
        `${way.length === 0 ? "M" : "L"}${anchor.toFixed(1)},${y.toFixed(1)}L${anchor.toFixed(1)},${bottom.toFixed(1)}`,
      );
      const x1 = keys.left(from);
      const x2 = keys.left(to) + keys.keyWidth(to);
      const bracket = s(
        "g",
        {
          class: `bracket${placement.fitsChord ? "" : " stray"}`,
          "data-placement": placement.id,
          "data-anchor": placement.anchorPitch,
          "data-notes": notes.length,
        },
        s("rect", {
          class: "bracket-field",
          x: x1.toFixed(1),
          y: (y - 3).toFixed(1),
          width: (x2 - x1).toFixed(1),
          height: (bottom - y + 6).toFixed(1),
          rx: 3,
        }),
        s("path", {
          class: "bracket-edge",
          d: `M${x1.toFixed(1)},${(y + 3).toFixed(1)}v-5H${x2.toFixed(1)}v5`,
        }),
      );
      for (const note of notes) {
        const at = places.get(note.id)!;
        const dot = s("circle", {
          class: `key-dot ${note.finger === 1 ? "thumb" : ""}`,
          cx: at.x.toFixed(1),
          cy: at.y.toFixed(1),
          r: 2.6,
          "data-note": note.id,
        });
        dots.set(note.id, dot);
        bracket.append(dot);
      }
      bracket.append(
        s("rect", {
          class: "anchor",
          x: (anchor - 3).toFixed(1),
          y: (y - 3).toFixed(1),
          width: 6,
          height: 6,
        }),
      );
      bracket.addEventListener("click", (event) => {
        event.stopPropagation();
        store.select({ kind: "placement", placement: placement.id });
      });
      bracket.addEventListener("pointerenter", () => store.point(start.id));
      brackets.set(placement.id, [...(brackets.get(placement.id) ?? []), bracket]);
      firstBracket ??= bracket;
      svg.append(bracket);
    }
    svg.insertBefore(s("path", { class: "way", d: way.join("") }), firstBracket);
  });
  svg.addEventListener("pointerleave", () => store.point(null));
  const ring = s("circle", { class: "ring hover", r: 6, display: "none" });
  svg.append(ring);
  let on: Element[] = [];
  return {
    svg,
    mark(marked, change) {
      if (change === "selection") {
        for (const element of on) element.classList.remove("on");
        on = [];
        const ids = new Set<string>();
        for (const id of marked.notes ?? []) {
          const placement = index.note.get(id)?.placement;
          if (placement) ids.add(placement);
          const dot = dots.get(id);
          if (dot) on.push(dot);
        }
        for (const id of ids) {
          on.push(...(brackets.get(id) ?? []));
        }
        for (const element of on) element.classList.add("on");
        svg.classList.toggle("has-selection", stepsBack(marked));
        return;
      }
      const id = marked.playing ?? marked.hover;
      const at = id === null ? undefined : places.get(id);
      if (at) {
        ring.setAttribute("cx", String(at.x));
        ring.setAttribute("cy", String(at.y));
        ring.removeAttribute("display");
      } else ring.setAttribute("display", "none");
    },
  };
}
