/** Record a solo at the page: choose a chart and a tempo, play to the click, stop, and it is a take. */
import { forms, players } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { delayPanel } from "./delay-panel.ts";
import { listenToKeys } from "./key-input.ts";
import { midiChoice } from "./midi-choice.ts";
import { recordDesk } from "./record-desk.ts";
import { recordForm, setWords } from "./record-form.ts";

export const recordPage: PageMaker = async (_parameters, query, shell) => {
  // Without a network the names are missing, not the page: what is played is kept until it can be sent.
  const [formRows, playerRows] = await Promise.all([forms(), players().catch(() => [])]);
  const form = recordForm(formRows, playerRows, {
    chart: query.get("chart") ?? "",
    player: query.get("player") ?? "",
  });
  const octave = h("p", { class: "hint" }, keyWords(60));
  const delay = delayPanel();
  const desk = recordDesk(form, shell, delay.tap);
  const endKeys = listenToKeys(desk.hear, (lowest) => {
    octave.textContent = keyWords(lowest);
  });
  const keyboards = midiChoice(desk.hear, desk.pedal, desk.keyboards);
  const { mic, stage, unsent } = desk;
  void unsent.refresh();
  const set = h("span", {});
  const settings = h(
    "section",
    { class: "sheet record-settings" },
    h("h2", {}, "What is set"),
    ...form.elements,
  );
  settings.append(
    h("fieldset", {}, h("legend", {}, "Your keyboard"), keyboards.element, octave),
    h("fieldset", {}, h("legend", {}, "The delay"), delay.element),
    mic.element,
  );
  const show = async () => {
    try {
      const { chart, settings: chosen } = await form.read();
      set.textContent = setWords(chart, chosen);
      desk.preview(chart);
    } catch {
      // The chart is half typed: its field says so, and the row keeps what it had.
    }
  };
  for (const kind of ["input", "change"]) settings.addEventListener(kind, () => void show());
  await show();
  return {
    title: "Record",
    element: h(
      "div",
      { class: "stack" },
      h(
        "section",
        { class: "sheet record-stage" },
        h("h1", {}, "Record a solo"),
        h("div", { class: "play-row" }, desk.start, stage.place, desk.changes),
        desk.trouble,
        h(
          "p",
          { class: "set-line" },
          set,
          " ",
          h("button", { type: "button", class: "quiet", onClick: () => settings.scrollIntoView() }, "Change"),
        ),
        stage.chartBoard,
        stage.board,
        stage.named,
      ),
      unsent.element,
      settings,
    ),
    end() {
      endKeys();
      keyboards.end();
      delay.end();
      desk.end();
    },
  };
};

function keyWords(lowest: number): string {
  return `Without one: the computer's middle letter row plays white keys from C${Math.floor(lowest / 12) - 1}, the row above it the black ones; the two leftmost letters of the bottom row move by an octave.`;
}
