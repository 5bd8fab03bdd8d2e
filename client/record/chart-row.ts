/** The chart as one row of the chorus page: chord names over their bars, and what is played as it is played. */
import type { Chart } from "../../src/chart/types.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { roleClass, roleMark, signPath } from "../draw/role-marks.ts";
import { h, s } from "../shell/dom.ts";
import type { NamedKey } from "./named-key.ts";

export interface ChartRow {
  readonly element: HTMLElement;
  /** Lays out a chart, with nothing played on it. */
  lay(chart: Chart): void;
  /** The bar that is played, from 0; what was played there a chorus ago gives way. Null before the form. */
  turn(bar: number | null): void;
  /** Puts a sign where a key was pressed; `within` 0 to 1 of the bar. A muted one is a dot that says nothing. */
  strike(bar: number, within: number, pitch: number, named: NamedKey | null): void;
}

/** Units of a bar's field across and down. */
const WIDE = 96;
const HIGH = 56;
/** Keys from the lowest to the highest line of a field: what lies beyond stands at its edge. */
const LOW = 48;
const TOP = 88;

export function chartRow(): ChartRow {
  const element = h("div", { class: "going-by", "aria-hidden": "true" });
  return {
    element,
    lay(chart) {
      element.replaceChildren(...chart.bars.map(barField));
    },
    turn(bar) {
      for (const [i, field] of [...element.children].entries()) field.classList.toggle("now", i === bar);
      const field = bar === null ? undefined : element.children[bar];
      if (field === undefined) return;
      field.querySelector(".played")!.replaceChildren();
      // The bar under way keeps one bar of the past beside it.
      const before = (field.previousElementSibling ?? field) as HTMLElement;
      element.scrollLeft = before.offsetLeft - element.offsetLeft;
    },
    strike(bar, within, pitch, named) {
      const part = (Math.min(TOP, Math.max(LOW, pitch)) - LOW) / (TOP - LOW);
      const x = 6 + within * (WIDE - 12);
      const y = HIGH - 6 - part * (HIGH - 12);
      const mark = s("path", {
        class: named === null ? "muted-note" : roleClass(named.role),
        transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})`,
        d: signPath(roleMark(named?.role ?? "third"), named === null ? 2.5 : 4),
      });
      element.children[bar]?.querySelector(".played")?.append(mark);
    },
  };
}

const barField = ({ number, chords }: Chart["bars"][number]): HTMLElement =>
  h(
    "div",
    { class: "bar-now" },
    h("span", { class: "faint" }, number),
    ` ${chords.map((chord) => withAccidentals(chord.symbol)).join(" ")}`,
    s("svg", { viewBox: `0 0 ${WIDE} ${HIGH}`, class: "bar-field" }, s("g", { class: "played" })),
  );
