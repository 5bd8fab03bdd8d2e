/** The chart as one row of the chorus page: chord names over their bars, bars to loop, and what is played as it is played. */
import type { Chart } from "../../src/chart/types.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { roleClass, roleMark, signPath } from "../draw/role-marks.ts";
import { h, s } from "../shell/dom.ts";
import { type BarLoop, loopWithin, loopWords, pressBar } from "./bar-loop.ts";
import type { NamedKey } from "./named-key.ts";

export interface ChartRow {
  readonly element: HTMLElement;
  /** The bars that go round; null for the whole form. */
  loop(): BarLoop;
  /** Lays out a chart, with nothing played on it. Bars can be chosen as long as nobody plays. */
  lay(chart: Chart, playing: boolean): void;
  /** Nobody plays any more: bars can be chosen again. */
  rest(): void;
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
  const row = h("div", { class: "going-by", role: "group", "aria-label": "Bars of the chart, to loop" });
  const words = h("span", { role: "status" });
  const whole = h(
    "button",
    { type: "button", class: "quiet", onClick: () => choose(null) },
    "The whole form",
  );
  let loop: BarLoop = null;
  let played = false;
  const bars = () => [...row.children] as HTMLButtonElement[];

  function choose(next: BarLoop): void {
    loop = loopWithin(next, row.children.length);
    words.textContent = loopWords(loop);
    whole.hidden = loop === null;
    for (const [i, bar] of bars().entries()) {
      const inside = loop !== null && i + 1 >= loop.from && i + 1 <= loop.to;
      bar.ariaPressed = String(inside);
      bar.classList.toggle("left-out", loop !== null && !inside);
    }
  }

  // The row can be scrolled by keys while it is played, so its bars stay reachable; they are not pressed then.
  function hold(playing: boolean): void {
    played = playing;
    for (const bar of bars()) bar.ariaDisabled = String(playing);
    whole.disabled = playing;
  }

  row.addEventListener("click", (event) => {
    const bar = bars().indexOf((event.target as Element).closest("button") as HTMLButtonElement);
    if (bar >= 0 && !played) choose(pressBar(loop, bar + 1));
  });
  row.addEventListener("keydown", (event) => walk(event, bars(), () => played || choose(null)));
  choose(null);
  return {
    element: h("div", { class: "chart-row" }, row, h("p", { class: "loop-words hint" }, words, " ", whole)),
    loop: () => loop,
    lay(chart, playing) {
      row.replaceChildren(...chart.bars.map((bar, i) => barField(bar, i === 0)));
      choose(loop);
      hold(playing);
    },
    rest: () => hold(false),
    turn(bar) {
      for (const [i, field] of bars().entries()) field.classList.toggle("now", i === bar);
      const field = bar === null ? undefined : bars()[bar];
      if (field === undefined) return;
      field.querySelector(".played")!.replaceChildren();
      // The bar under way keeps one bar of the past beside it.
      const before = (field.previousElementSibling ?? field) as HTMLElement;
      row.scrollLeft = before.offsetLeft - row.offsetLeft;
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
      bars()[bar]?.querySelector(".played")?.append(mark);
    },
  };
}

/** The row is one stop of the tabulator; arrows go from bar to bar, Escape takes the loop back. */
function walk(event: KeyboardEvent, bars: readonly HTMLButtonElement[], letGo: () => void): void {
  const at = bars.indexOf(event.target as HTMLButtonElement);
  const to = { ArrowLeft: at - 1, ArrowRight: at + 1, Home: 0, End: bars.length - 1 }[event.key];
  if (event.key === "Escape") letGo();
  if (at < 0 || to === undefined) return;
  event.preventDefault();
  for (const bar of bars) bar.tabIndex = -1;
  const next = bars[Math.min(bars.length - 1, Math.max(0, to))]!;
  next.tabIndex = 0;
  next.focus();
}

const barField = ({ number, chords }: Chart["bars"][number], first: boolean): HTMLElement =>
  h(
    "button",
    { type: "button", class: "bar-now", "aria-pressed": "false", tabindex: first ? 0 : -1 },
    h(
      "span",
      { class: "bar-head" },
      h("span", { class: "faint" }, h("span", { class: "visually-hidden" }, "Bar "), number),
      ` ${chords.map((chord) => withAccidentals(chord.symbol)).join(" ")}`,
    ),
    s(
      "svg",
      { viewBox: `0 0 ${WIDE} ${HIGH}`, class: "bar-field", "aria-hidden": "true" },
      s("g", { class: "played" }),
    ),
  );
