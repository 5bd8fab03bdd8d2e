/** The practice sheet of a take: exercises in notation with fingers and a tempo plan; to print, or to take along as files. */
import type { Exercise, TempoStep } from "../../src/findings/practice/exercise.ts";
import type { PracticeSheet } from "../../src/findings/practice/practice-sheet.ts";
import { read, readText, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { day, printed } from "../shell/words.ts";

const KEYS = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];

export const practicePage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const take = await takes.get(id);
  const minor = take.key.endsWith("m");
  const list = h("div", { class: "exercises" });
  const sheet = h("article", { class: "practice-sheet paper-a4" });
  const chosen = new Set((query.get("keys") ?? "").split(",").filter(Boolean));

  const show = async () => {
    list.setAttribute("aria-busy", "true");
    const keys = [...chosen].join(",");
    shell.keep(keys === "" ? "" : `keys=${keys}`);
    try {
      const practice = await read<PracticeSheet>(
        `/takes/${encodeURIComponent(id)}/practice${keys === "" ? "" : `?keys=${encodeURIComponent(keys)}`}`,
      );
      const address =
        (exercise: Exercise): Address =>
        (file, more = {}) =>
          `/api/takes/${encodeURIComponent(id)}/practice/${exercise.id}/${file}?${new URLSearchParams({
            ...(keys === "" ? {} : { keys }),
            ...more,
          })}`;
      list.replaceChildren(
        ...practice.exercises.map((exercise) => exerciseBlock(exercise, id, address(exercise))),
      );
      if (practice.exercises.length === 0) {
        list.append(h("p", { class: "empty" }, "Nothing in this take leads to an exercise."));
      }
      await engraveAll(list, practice.exercises, (exercise) => address(exercise)("score.musicxml"));
    } catch (error) {
      list.replaceChildren(refusalNote(error, () => void show()));
    } finally {
      list.removeAttribute("aria-busy");
    }
  };
  const keyBoxes = KEYS.map((name) => (minor ? `${name}m` : name))
    .filter((name) => name !== take.key)
    .map((name) =>
      h(
        "label",
        { class: "choice" },
        h("input", {
          type: "checkbox",
          checked: chosen.has(name),
          onChange: (event: Event) => {
            if ((event.target as HTMLInputElement).checked) chosen.add(name);
            else chosen.delete(name);
            void show();
          },
        }),
        ` ${printed(name)}`,
      ),
    );
  const paper = h(
    "select",
    {
      onChange: (event: Event) => {
        sheet.classList.remove("paper-a4", "paper-letter");
        sheet.classList.add(`paper-${(event.target as HTMLSelectElement).value}`);
      },
    },
    h("option", { value: "a4" }, "A4"),
    h("option", { value: "letter" }, "Letter"),
  );
  sheet.append(
    h(
      "header",
      { class: "take-head" },
      h("h1", {}, `Practice sheet for “${take.title ?? "a take"}”`),
      h(
        "p",
        { class: "take-meta" },
        [take.player, day(take.date), take.chartName].filter(Boolean).join(", "),
      ),
      h(
        "div",
        { class: "take-ways no-print" },
        h("a", { class: "button", href: `#/takes/${id}` }, "Back to the take"),
        h("a", { class: "button", href: `#/takes/${id}/findings` }, "Findings"),
        h("button", { type: "button", class: "main", onClick: () => window.print() }, "Print"),
        h("label", {}, "Paper ", paper),
      ),
      h(
        "details",
        { class: "no-print" },
        h("summary", {}, "In other keys too"),
        h("div", { class: "choices" }, ...keyBoxes),
      ),
    ),
    list,
  );
  void show();
  return { title: `Practice: ${take.title ?? "take"}`, element: sheet };
};

const PLAY_ALONG: readonly (readonly [string, string])[] = [
  ["click", "none"],
  ["click and bass", "walking bass"],
  ["click and shells", "shells"],
];

const firstTempo = (exercise: Exercise): number =>
  exercise.tempoPlan.find((step) => step.quartersPerMinute !== null)?.quartersPerMinute ?? 80;

type Address = (file: string, more?: Readonly<Record<string, string>>) => string;

function exerciseBlock(exercise: Exercise, takeId: string, address: Address): HTMLElement {
  return h(
    "section",
    { class: "exercise", "data-exercise": exercise.id, "aria-labelledby": `exercise-${exercise.id}` },
    h(
      "h2",
      { id: `exercise-${exercise.id}` },
      `${exercise.id}. ${exercise.title}, in ${printed(exercise.key)}`,
    ),
    h("p", {}, exercise.text),
    exercise.finding
      ? h(
          "p",
          { class: "hint no-print" },
          h(
            "a",
            { href: `#/takes/${takeId}?finding=${encodeURIComponent(exercise.finding)}` },
            "Why: see it in the take",
          ),
        )
      : null,
    h("div", { class: "exercise-staff" }, h("p", { class: "hint" }, "Engraving …")),
    h(
      "ol",
      { class: "tempo-plan", "aria-label": "Tempo plan" },
      ...exercise.tempoPlan.map((step) => h("li", {}, stepWords(step))),
    ),
    exercise.caution ? h("p", { class: "hint" }, exercise.caution) : null,
    h(
      "div",
      { class: "finding-tools no-print" },
      h("a", { href: address("score.musicxml"), download: true }, "MusicXML"),
      ...PLAY_ALONG.map(([words, backing]) =>
        h(
          "a",
          {
            href: address("play-along.mid", { backing, tempo: String(firstTempo(exercise)) }),
            download: true,
          },
          `MIDI with ${words}`,
        ),
      ),
    ),
  );
}

function stepWords(step: TempoStep): string {
  if (step.quartersPerMinute === null) return `free time, ${step.rounds} rounds`;
  const click =
    step.click === "none" ? "" : step.click === "every beat" ? ", click on every beat" : ", click on 2 and 4";
  return `${step.quartersPerMinute} a minute${click}, ${step.rounds} clean rounds`;
}

async function engraveAll(
  list: HTMLElement,
  exercises: readonly Exercise[],
  score: (exercise: Exercise) => string,
): Promise<void> {
  const { engrave } = await import("../staff/engraver.ts");
  for (const exercise of exercises) {
    const slot = list.querySelector<HTMLElement>(`[data-exercise="${exercise.id}"] .exercise-staff`);
    if (!slot) continue;
    try {
      const pages = await engrave(await readText(score(exercise).replace(/^\/api/, "")), {
        width: Math.max(320, slot.clientWidth),
        scale: 38,
      });
      for (const page of pages)
        for (const part of page.querySelectorAll("[id]"))
          if (!part.closest("defs")) part.removeAttribute("id");
      slot.replaceChildren(...pages);
    } catch (error) {
      slot.replaceChildren(refusalNote(error));
    }
  }
}
