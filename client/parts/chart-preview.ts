/** What a typed chart says, drawn while it is typed: its bars as they are played, and what they ask. */

import type { ChartAsRead } from "../../server/contract/charts.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { chartAsRead } from "../shell/api.ts";
import { fill, h } from "../shell/dom.ts";
import { refusalNote } from "../shell/refusal-note.ts";

export interface ChartPreview {
  readonly element: HTMLElement;
  /** Reads the text after a short pause in typing. */
  show(text: string): void;
}

/** Milliseconds without a key before the text is read: longer than between two keys, shorter than a wait. */
const PAUSE = 400;

export function chartPreview(): ChartPreview {
  const element = h("div", { class: "chart-preview", "aria-live": "polite" });
  let shown = "";
  let timer: ReturnType<typeof setTimeout> | undefined;

  async function load(text: string): Promise<void> {
    try {
      const chart = await chartAsRead(text);
      if (shown === text) fill(element, ...drawn(chart));
    } catch (error) {
      if (shown === text) fill(element, refusalNote(error));
    }
  }

  return {
    element,
    show(text) {
      if (text === shown) return;
      shown = text;
      clearTimeout(timer);
      if (text.trim() === "") fill(element);
      else timer = setTimeout(() => void load(text), PAUSE);
    },
  };
}

function drawn({ key, meter, played, warnings }: ChartAsRead): HTMLElement[] {
  const bars = played.length === 1 ? "1 bar" : `${played.length} bars`;
  return [
    h("p", { class: "hint" }, `Read as ${bars} of ${meter.beats}/${meter.unit} in ${withAccidentals(key)}:`),
    h(
      "ol",
      { class: "read-bars", "aria-label": "Bars as they are played" },
      ...played.map(({ bar, chords }) =>
        h(
          "li",
          {},
          h("span", { class: "bar-number", "aria-hidden": "true" }, bar),
          ` ${withAccidentals(chords)}`,
        ),
      ),
    ),
    ...warnings.map(({ message, where }) =>
      h("p", { class: "hint chart-asks" }, where === null ? message : `${message} (${where})`),
    ),
  ];
}
