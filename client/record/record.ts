/** Record a solo at the page: choose a chart and a tempo, play to the click, stop, and it is a take. */
import { forms, players } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { listenToKeys } from "./key-input.ts";
import { midiChoice } from "./midi-choice.ts";
import { recordDesk } from "./record-desk.ts";
import { recordForm } from "./record-form.ts";

export const recordPage: PageMaker = async (_parameters, query, shell) => {
  const [formRows, playerRows] = await Promise.all([forms(), players()]);
  const form = recordForm(formRows, playerRows, {
    chart: query.get("chart") ?? "",
    player: query.get("player") ?? "",
  });
  const octave = h("p", { class: "hint" }, keyWords(60));
  const desk = recordDesk(form, shell);
  const endKeys = listenToKeys(desk.hear, (lowest) => {
    octave.textContent = keyWords(lowest);
  });
  const keyboards = midiChoice(desk.hear, desk.pedal, desk.keyboards);
  const { mic, stage, unsent } = desk;
  void unsent.refresh();
  return {
    title: "Record",
    element: h(
      "div",
      { class: "stack" },
      unsent.element,
      h(
        "section",
        { class: "sheet" },
        h("h1", {}, "Record a solo"),
        ...form.elements,
        h("fieldset", {}, h("legend", {}, "Your keyboard"), keyboards.element, octave),
        mic.element,
      ),
      h(
        "section",
        { class: "sheet record-stage" },
        h("div", { class: "play-row" }, desk.start, stage.place),
        desk.trouble,
        stage.chartBoard,
        stage.board,
        stage.named,
      ),
    ),
    end() {
      endKeys();
      keyboards.end();
      desk.end();
    },
  };
};

function keyWords(lowest: number): string {
  return `Without one: the computer's middle letter row plays white keys from C${Math.floor(lowest / 12) - 1}, the row above it the black ones; the two leftmost letters of the bottom row move by an octave.`;
}
