/** What of the chorus page is looked at: one bar or all of them, choruses side by side or one laid over another. */
import { withAccidentals } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";
import type { Scene } from "./view.ts";

export interface ChorusState {
  /** One bar alone; null for all. */
  zoom: number | null;
  /** A chorus, and the one laid under it. */
  over: [number, number] | null;
}

/** Choices of bars and choruses. */
export function chorusControls(
  { index, store }: Pick<Scene, "index" | "store">,
  state: ChorusState,
  redraw: () => void,
): Node[] {
  const zoom = h(
    "select",
    {
      onChange: (event: Event) => {
        const value = (event.target as HTMLSelectElement).value;
        state.zoom = value === "" ? null : Number(value);
        if (state.zoom !== null) store.select({ kind: "bar", chorus: null, bar: state.zoom });
        redraw();
      },
    },
    h("option", { value: "" }, "All bars"),
    ...index.bars
      .filter((bar) => bar >= 1 && bar <= index.chartBars)
      .map((bar) =>
        h(
          "option",
          { value: bar, selected: bar === state.zoom },
          `Bar ${bar}: ${index
            .chords(bar)
            .map((chord) => withAccidentals(chord.symbol))
            .join(" ")}`,
        ),
      ),
  );
  const nodes: Node[] = [h("label", {}, "Look at ", zoom)];
  if (index.choruses.length > 1) {
    const pairs = index.choruses.flatMap((a) =>
      index.choruses.filter((b) => b > a).map((b) => [b, a] as const),
    );
    const over = h(
      "select",
      {
        onChange: (event: Event) => {
          const pair = pairs[Number((event.target as HTMLSelectElement).value)];
          state.over = pair ? [pair[0], pair[1]] : null;
          redraw();
        },
      },
      h("option", { value: "" }, "Side by side"),
      ...pairs
        .slice(0, 60)
        .map(([a, b], i) =>
          h(
            "option",
            { value: i, selected: state.over?.[0] === a && state.over[1] === b },
            `${a} laid over ${b}`,
          ),
        ),
    );
    nodes.push(h("label", {}, "Choruses ", over));
  }
  return nodes;
}
