/** Early and late, note by note, and the swing of each beat. */
import { extent, scaleLinear } from "d3";
import type { AccountNote } from "../../src/account.ts";
import { nearestOf, pointIn } from "../draw/nearest.ts";
import { markSigns } from "../draw/selection-highlight.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { s } from "../shell/dom.ts";
import type { Drawing, Scene, View } from "./view.ts";

export function timeFeel(): View {
  return {
    id: "time-feel",
    title(index) {
      const { timing, swing } = index.analysis.rhythm;
      const late =
        timing === null
          ? null
          : !timing.heard
            ? "no difference that can be heard"
            : `half the notes ${Math.abs(Math.round(timing.median))} ms or more ${timing.median > 0 ? "late" : "early"}`;
      const long = swing ? `swing ${swing.median.toFixed(2)} : 1` : null;
      const said = [long, late].filter(Boolean).join(", ");
      return said ? `Time feel: ${said}` : "Time feel";
    },
    units(index) {
      const against = index.analysis.rhythm.timing?.against === "other hand" ? "the other hand" : "the grid";
      return `Above: milliseconds that each note is early (up) or late (down) against ${against}; grey band: too small to hear. Below: length of a beat's first part over its second, median and middle half, by beat.`;
    },
    empty: (index) =>
      index.analysis.rhythm.timing === null && index.analysis.rhythm.swingByBeat.length === 0
        ? index.analysis.alignment.method === "rubato"
          ? "This take has no steady beat, so early, late and swing cannot be said."
          : "The notes stand exactly on the grid or are too few, so there is no time feel to show."
        : null,
    draw,
    table: (index) => ({
      columns: ["Beat", "Swing, median", "Middle half", "Beats measured"],
      rows: index.analysis.rhythm.swingByBeat.map(({ beat, swing }) => [
        beat,
        `${swing.median.toFixed(2)} : 1`,
        `${swing.q1.toFixed(2)} to ${swing.q3.toFixed(2)}`,
        swing.beats,
      ]),
    }),
  };
}

/** Lateness in milliseconds at the tempo of the note's own bar; null without a beat. */
function lateMilliseconds(index: AccountIndex, note: AccountNote): number | null {
  const bar = index.bar(note.chorus, note.bar);
  if (note.timing === null) return null;
  const quarter = bar
    ? (bar.end - bar.start) / index.barQuarters
    : 60 / (index.analysis.alignment.tempo?.median ?? 120);
  return note.timing * quarter * 1000;
}

function draw(scene: Scene): Drawing {
  const { index, store, width } = scene;
  const { timing, swingByBeat } = index.analysis.rhythm;
  const margin = 52;
  const top = timing ? 190 : 0;
  const bottom = swingByBeat.length > 0 ? 26 + swingByBeat.length * 26 + 24 : 0;
  const svg = s("svg", { viewBox: `0 0 ${width} ${top + bottom}`, class: "time-feel" });
  const shown = index.solo.flatMap((note) => {
    const late = lateMilliseconds(index, note);
    return late === null ? [] : [{ note, late }];
  });
  const signs = new Map<string, Element>();
  const points = new Map<string, { x: number; y: number }>();

  if (timing) {
    const reach = Math.max(40, ...shown.map(({ late }) => Math.min(250, Math.abs(late))));
    const y = scaleLinear([-reach, reach], [14, top - 30]);
    const [from = 0, to = 1] = extent(index.solo, (note) => index.barsFromStart(note)) as [number, number];
    const x = scaleLinear([from, to], [margin, width - 8]);
    svg.append(
      s("rect", {
        class: "reach",
        x: margin,
        y: y(-timing.threshold),
        width: width - margin,
        height: y(timing.threshold) - y(-timing.threshold),
        "data-threshold": timing.threshold,
      }),
      s("path", { class: "rule strong", d: `M${margin},${y(0)}H${width}` }),
      s("text", { class: "label faint", x: 0, y: 22 }, "early"),
      s("text", { class: "label faint", x: 0, y: y(0) + 4 }, "0 ms"),
      s("text", { class: "label faint", x: 0, y: top - 32 }, "late"),
      s(
        "text",
        { class: "figure faint", x: margin - 4, y: y(-reach / 2) + 4, "text-anchor": "end" },
        `${Math.round(reach / 2)}`,
      ),
      s(
        "text",
        { class: "figure faint", x: margin - 4, y: y(reach / 2) + 4, "text-anchor": "end" },
        `${Math.round(reach / 2)}`,
      ),
    );
    for (const chorus of index.choruses) {
      const at = x((chorus - 1) * index.chartBars);
      svg.append(
        s("path", { class: "rule", d: `M${at.toFixed(1)},10V${top - 24}` }),
        s(
          "text",
          { class: "label faint", x: at + 3, y: top - 12 },
          width < 600 ? String(chorus) : `Chorus ${chorus}`,
        ),
      );
    }
    for (const { note, late } of shown) {
      const at = { x: x(index.barsFromStart(note)), y: y(Math.max(-reach, Math.min(reach, late))) };
      points.set(note.id, at);
      const dot = s("circle", {
        class: "sign late-dot",
        cx: at.x.toFixed(1),
        cy: at.y.toFixed(1),
        r: 2.4,
        "data-note": note.id,
        "data-late": late.toFixed(2),
      });
      signs.set(note.id, dot);
      svg.append(dot);
    }
    svg.append(s("path", { class: "median", d: `M${margin},${y(timing.median).toFixed(1)}H${width}` }));
  }

  if (swingByBeat.length > 0) {
    const most = Math.max(2.5, ...swingByBeat.map(({ swing }) => swing.q3 * 1.08));
    const least = Math.min(0.8, ...swingByBeat.map(({ swing }) => swing.q1));
    const x = scaleLinear([least, most], [margin, width - 60]);
    const narrow = width < 600;
    for (const ratio of x.ticks(narrow ? 3 : 6)) {
      svg.append(
        s("path", {
          class: ratio === 1 ? "rule strong" : "rule",
          d: `M${x(ratio).toFixed(1)},${top + 8}V${top + bottom - 20}`,
        }),
        s(
          "text",
          { class: "figure faint", x: x(ratio), y: top + bottom - 6, "text-anchor": "middle" },
          ratio === 1 && !narrow ? "1 : 1, even" : `${ratio} : 1`,
        ),
      );
    }
    swingByBeat.forEach(({ beat, swing }, i) => {
      const y = top + 26 + i * 26;
      svg.append(
        s("text", { class: "label", x: 0, y: y + 4 }, `Beat ${beat}`),
        s("path", { class: "middle-half", d: `M${x(swing.q1).toFixed(1)},${y}H${x(swing.q3).toFixed(1)}` }),
        s("circle", {
          class: "swing-dot",
          cx: x(swing.median).toFixed(1),
          cy: y,
          r: 5,
          "data-beat": beat,
          "data-swing": swing.median,
        }),
        s(
          "text",
          { class: "figure", x: x(swing.q3) + 10, y: y + 4 },
          `${swing.median.toFixed(2)} (n = ${swing.beats})`,
        ),
      );
    });
  }

  const notes = shown.map(({ note }) => note);
  const nearest = nearestOf(notes.map((note) => points.get(note.id) ?? { x: -99, y: -99 }));
  svg.addEventListener("pointermove", (event) => {
    const { x, y } = pointIn(svg, event);
    const hit = nearest.find(x, y, 14);
    store.point(hit === null ? null : notes[hit]!.id);
  });
  svg.addEventListener("pointerleave", () => store.point(null));
  svg.addEventListener("click", (event) => {
    const { x, y } = pointIn(svg, event);
    const hit = nearest.find(x, y, 14);
    store.select(hit === null ? { kind: "none" } : { kind: "note", note: notes[hit]!.id });
  });
  return { svg, mark: markSigns(svg, signs, (id) => points.get(id) ?? null, 6) };
}
