/** What a typed chart says, drawn while it is typed and played on demand: its bars in order, and what they ask. */
import type { ChartAsRead } from "../../server/contract/charts.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { chartAsRead } from "../shell/api.ts";
import { fill, h } from "../shell/dom.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { chartSound } from "./chart-sound.ts";

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

function drawn({ text, key, meter, played, warnings }: ChartAsRead): HTMLElement[] {
  const list = h(
    "ol",
    { class: "read-bars", "aria-label": "Bars as they are played" },
    ...played.map(({ bar, chords, key: here }, at) =>
      h(
        "li",
        {},
        h("span", { class: "bar-number", "aria-hidden": "true" }, bar),
        here === (played[at - 1]?.key ?? key)
          ? null
          : h("span", { class: "key-change" }, ` in ${withAccidentals(here)}`),
        ` ${withAccidentals(chords)}`,
      ),
    ),
  );
  const bars = played.length === 1 ? "1 bar" : `${played.length} bars`;
  return [
    h("p", { class: "hint" }, `Read as ${bars} of ${meter.beats}/${meter.unit} in ${withAccidentals(key)}:`),
    list,
    playControl(text, list),
    ...warnings.map(({ message, where }) =>
      h("p", { class: "hint chart-asks" }, where === null ? message : `${message} (${where})`),
    ),
  ];
}

/** Plays the bars with bass and shells, and marks the one that sounds; stops when what is drawn goes. */
function playControl(text: string, list: HTMLElement): HTMLElement {
  const button = h("button", { type: "button", class: "quiet" }, "Play these bars");
  const trouble = h("div", {});
  let playing = false;
  const mark = (sounding: number | null) => {
    [...list.children].forEach((bar, at) => {
      bar.classList.toggle("playing", at === sounding);
    });
  };
  /** Loaded when it is first played: a page that is only read needs no piano. */
  let sound: typeof import("../sound/snippet.ts") | null = null;
  const stop = () => {
    playing = false;
    sound?.stopSnippet();
    mark(null);
    button.textContent = "Play these bars";
  };
  const play = async () => {
    const { notes, barSeconds, bars } = chartSound(text);
    playing = true;
    button.textContent = "Stop";
    sound ??= await import("../sound/snippet.ts");
    await sound.playSnippet(notes);
    const begun = performance.now();
    const follow = () => {
      if (!playing) {
        sound?.stopSnippet();
        return;
      }
      const bar = Math.floor((performance.now() - begun) / 1000 / barSeconds);
      if (!button.isConnected || bar >= bars) {
        stop();
        return;
      }
      mark(bar);
      requestAnimationFrame(follow);
    };
    follow();
  };
  button.addEventListener("click", () => {
    if (playing) stop();
    else
      void play().catch((error) => {
        stop();
        fill(trouble, refusalNote(error));
      });
  });
  return h("div", {}, button, trouble);
}
