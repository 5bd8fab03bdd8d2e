/** Two takes, or two choruses, side by side and as differences, in plain words. */
import type { Comparison } from "../../src/compare/compare-sides.ts";
import { read, type TakeRow, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { day } from "../shell/words.ts";
import { barsTogetherPicture } from "../views/bars-together.ts";
import { measuresCompared } from "../views/measures-compared.ts";
import { framePlain } from "../views/plain-frame.ts";
import { sharesCompared } from "../views/shares-compared.ts";

export const comparePage: PageMaker = async (_parameters, query, shell) => {
  const rows = await takes.list();
  const result = h("div", { class: "pictures" });
  const a = sidePicker("First", rows, query.get("a") ?? "");
  const b = sidePicker("Second", rows, query.get("b") ?? "");
  const show = async () => {
    if (!a.value() || !b.value()) {
      result.replaceChildren(
        h("p", { class: "empty" }, "Choose two takes, or two choruses, to lay side by side."),
      );
      return;
    }
    const question = `a=${encodeURIComponent(a.value())}&b=${encodeURIComponent(b.value())}`;
    shell.keep(question);
    result.setAttribute("aria-busy", "true");
    try {
      result.replaceChildren(...compared(await read<Comparison>(`/compare?${question}`)));
    } catch (error) {
      result.replaceChildren(refusalNote(error, () => void show()));
    } finally {
      result.removeAttribute("aria-busy");
    }
  };
  const form = h(
    "form",
    { class: "sheet sides" },
    h("h1", {}, "Compare"),
    h(
      "div",
      { class: "row" },
      ...a.fields,
      ...b.fields,
      h("button", { class: "main", type: "submit" }, "Compare"),
    ),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void show();
  });
  await show();
  return { title: "Compare", element: h("div", { class: "stack" }, form, result) };
};

function sidePicker(
  label: string,
  rows: readonly TakeRow[],
  start: string,
): { fields: HTMLElement[]; value(): string } {
  const whole = start.startsWith("player:");
  const [id = "", chorus = ""] = whole ? [start] : start.split(":");
  const players = new Map(
    rows.flatMap((row) => (row.playerId ? [[row.playerId, row.player ?? ""] as const] : [])),
  );
  const take = h(
    "select",
    { name: `${label.toLowerCase()}-take` },
    h("option", { value: "" }, "choose a take"),
    ...rows.map((row) =>
      h(
        "option",
        { value: row.id, selected: row.id === id },
        [row.player, row.title, day(row.date)].filter(Boolean).join(", "),
      ),
    ),
    ...[...players].map(([player, name]) =>
      h(
        "option",
        { value: `player:${player}`, selected: start === `player:${player}` },
        `all takes of ${name}`,
      ),
    ),
  );
  const part = h("select", { name: `${label.toLowerCase()}-chorus` });
  const fillPart = (now: string) => {
    const choruses = rows.find((row) => row.id === take.value)?.choruses ?? 0;
    part.replaceChildren(
      h("option", { value: "" }, "all of it"),
      ...Array.from({ length: choruses }, (_, i) =>
        h("option", { value: i + 1, selected: String(i + 1) === now }, `chorus ${i + 1}`),
      ),
    );
  };
  take.addEventListener("change", () => fillPart(""));
  fillPart(chorus);
  return {
    fields: [h("label", {}, `${label} take`, take), h("label", {}, "Part of it", part)],
    value: () => (take.value ? `${take.value}${part.value ? `:${part.value}` : ""}` : ""),
  };
}

function compared(comparison: Comparison): HTMLElement[] {
  const names = [comparison.sides[0].name, comparison.sides[1].name] as const;
  const told = comparison.measures
    .filter((one) => /clearly|perhaps/.test(one.verdict))
    .map((one) => one.sentence);
  return [
    h(
      "section",
      { class: "sheet" },
      h("h2", {}, "In words"),
      told.length > 0
        ? h("ul", { class: "words" }, ...told.map((sentence) => h("li", {}, sentence)))
        : h("p", {}, "No clear difference in anything that was measured."),
      h(
        "p",
        { class: "hint" },
        "Phrases, not notes, are counted as independent; the rate of false findings is held over the whole page.",
      ),
    ),
    framePlain(measuresCompared(comparison)),
    framePlain(barsTogetherPicture(comparison.bars, names)),
    ...comparison.distributions.map((one) => framePlain(sharesCompared(one, names))),
  ];
}
