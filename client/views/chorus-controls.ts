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
  return [h("label", {}, "Look at ", zoom), ...layOver(index.choruses, state, redraw)];
}

/** Any chorus laid over any other: one choice for each, since the pairs of a long solo are more than a list can hold. */
function layOver(choruses: readonly number[], state: ChorusState, redraw: () => void): Node[] {
  const [first] = choruses;
  if (first === undefined || choruses.length < 2) return [];
  const option = (chorus: number) => h("option", { value: chorus }, `Chorus ${chorus}`);
  const under = h("select", {});
  const below = h("label", { hidden: true }, "laid over ", under);
  const over = h("select", {}, h("option", { value: "" }, "Side by side"), ...choruses.map(option));
  const lay = () => {
    state.over = over.value === "" ? null : [Number(over.value), Number(under.value)];
    below.hidden = state.over === null;
    redraw();
  };
  over.addEventListener("change", () => {
    const chosen = Number(over.value);
    const others = choruses.filter((chorus) => chorus !== chosen);
    const before = others.findLast((chorus) => chorus < chosen) ?? others[0]!;
    under.replaceChildren(...others.map(option));
    under.value = String(before);
    lay();
  });
  under.addEventListener("change", lay);
  return [h("label", {}, "Choruses ", over), below];
}
