/** The practice sheet of a take: exercises in notation with fingers and a tempo plan; to print, or to take along as files. */

import type { TakeRow } from "../../server/contract/takes.ts";
import { classNameOf } from "../../src/pitch/index.ts";
import type { Exercise, PracticeSheet } from "../../src/practice/exercise.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { readNotes } from "../findings/feedback-notes.ts";
import { paperChoice } from "../parts/paper-choice.ts";
import { fetchJson, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { Page, PageMaker, Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { day } from "../shell/words.ts";
import { stopLine } from "../sound/line.ts";
import { type Address, engraveExercises, exerciseBlock } from "./exercise-block.ts";
import { cautionOf } from "./exercise-words.ts";
import { type PageTurner, pageTurner } from "./page-turner.ts";
import { printButton } from "./print-button.ts";
import { sheetFoot } from "./sheet-foot.ts";

/** Keys are named by flats where they are gone through from C up. [practice] */
const KEYS = Array.from({ length: 12 }, (_, pitchClass) => classNameOf(pitchClass, "flats"));

/** Where the pages of a take stand for whoever reads its sheet. */
interface Ways {
  /** Address of the take. */
  readonly take: string;
  /** Address of its findings. */
  readonly findings: string;
  readonly sheet: string;
  /** Whether findings have a page of their own. */
  readonly apart: boolean;
}

/** As the teacher sees it. */
export const practicePage: PageMaker = ([id = ""], query, shell) => {
  const take = `#/takes/${encodeURIComponent(id)}`;
  const ways = { take, findings: `${take}/findings`, sheet: `${take}/practice`, apart: true };
  return sheetPage(id, ways, query, shell);
};

/** As the player sees it behind a link. */
export const ownPracticePage: PageMaker = ([player = "", id = ""], query, shell) => {
  const take = `#/students/${encodeURIComponent(player)}/takes/${encodeURIComponent(id)}`;
  return sheetPage(id, { take, findings: take, sheet: `${take}/practice`, apart: false }, query, shell);
};

async function sheetPage(id: string, ways: Ways, query: URLSearchParams, shell: Shell): Promise<Page> {
  const take = await takes.get(id);
  const sheet = h("article", { class: "practice-sheet paper-a4" });
  const list = h("div", { class: "exercises" });
  const care = h("div", {});
  const turner = pageTurner(() => [...list.querySelectorAll<HTMLElement>(".exercise")]);
  const from = h("p", { class: "take-meta sheet-from" });
  const keys = new Set((query.get("keys") ?? "").split(",").filter(Boolean));
  const finding = query.get("exercise");
  const base = `/takes/${encodeURIComponent(id)}/practice`;

  const show = async () => {
    list.setAttribute("aria-busy", "true");
    const wishes = new URLSearchParams({
      ...(keys.size === 0 ? {} : { keys: [...keys].join(",") }),
      ...(finding === null ? {} : { findings: finding }),
    });
    shell.replaceQuery(
      new URLSearchParams({
        ...(keys.size === 0 ? {} : { keys: [...keys].join(",") }),
        ...(finding === null ? {} : { exercise: finding }),
      }).toString(),
    );
    const addressOf =
      (exercise: string): Address =>
      (file, more = {}) =>
        `${base}/${exercise}/${file}?${new URLSearchParams({ ...Object.fromEntries(wishes), ...more })}`;
    try {
      const { exercises } = await fetchJson<PracticeSheet>(`${base}?${wishes}`);
      list.replaceChildren(
        ...exercises.map((exercise, i) =>
          exerciseBlock(exercise, i + 1, whyOf(exercise, ways), addressOf(exercise.id)),
        ),
      );
      if (exercises.length === 0) {
        list.append(
          h(
            "p",
            { class: "empty" },
            finding === null
              ? "Nothing in this take leads to an exercise."
              : "This finding leads to no exercise in these keys.",
          ),
        );
      }
      care.replaceChildren(cautionOf(exercises) ?? "");
      await engraveExercises(list, exercises, (exercise) => addressOf(exercise.id)("score.musicxml"));
    } catch (error) {
      list.replaceChildren(refusalNote(error, () => showAnew()));
    } finally {
      list.removeAttribute("aria-busy");
    }
  };
  let drawn: Promise<unknown> = Promise.resolve();
  const showAnew = () => {
    drawn = show();
  };
  sheet.append(
    head(take, sheet, { one: finding !== null, from, print: printButton(() => drawn), ways }),
    h(
      "details",
      { class: "no-print other-keys", open: keys.size > 0 },
      h("summary", {}, "In other keys too"),
      h("div", { class: "choices" }, ...keyBoxes(take.key, keys, showAnew)),
    ),
    turner.element,
    list,
    care,
    sheetFoot(),
  );
  showAnew();
  void readNotes(id).then(
    ({ signed }) => {
      if (signed !== "") from.textContent = `From ${signed}`;
    },
    // The sheet stands without the name.
    () => {},
  );
  return { title: `Practice: ${take.title ?? "take"}`, element: sheet, end: () => leave(turner) };
}

function leave(turner: PageTurner): void {
  stopLine();
  turner.end();
}

/** What the exercise follows from: the lens, or a finding that is seen in the take. */
function whyOf({ finding }: Exercise, { take, findings }: Ways): HTMLElement | null {
  if (finding === null) return null;
  const [address, words] =
    finding === "lens"
      ? [findings, "Why: the lens of these weeks"]
      : [`${take}?finding=${encodeURIComponent(finding)}`, "Why: see it in the take"];
  return h("p", { class: "hint no-print" }, h("a", { href: address }, words));
}

function head(
  take: TakeRow,
  sheet: HTMLElement,
  {
    one,
    from,
    print,
    ways,
  }: { readonly one: boolean; readonly from: HTMLElement; readonly print: HTMLElement; readonly ways: Ways },
): HTMLElement {
  return h(
    "header",
    { class: "take-head" },
    h("h1", {}, `Practice sheet for “${take.title ?? "a take"}”`),
    h(
      "p",
      { class: "take-meta" },
      [take.player, day(take.date) || `sent ${day(take.createdAt)}`, take.chartName]
        .filter(Boolean)
        .join(", "),
    ),
    from,
    h(
      "div",
      { class: "take-ways no-print" },
      h("a", { class: "button", href: ways.take }, "Back to the take"),
      ways.apart ? h("a", { class: "button", href: ways.findings }, "Findings") : null,
      one
        ? h(
            "a",
            {
              class: "button",
              href: ways.sheet,
              // The page stands already: only its query differs.
              onClick: () => setTimeout(() => location.reload()),
            },
            "The whole sheet",
          )
        : null,
      print,
      paperChoice(sheet),
    ),
  );
}

function keyBoxes(own: string, chosen: Set<string>, changed: () => void): HTMLElement[] {
  const minor = own.endsWith("m");
  return KEYS.map((name) => (minor ? `${name}m` : name))
    .filter((name) => name !== own)
    .map((name) => {
      const box = h("input", {
        type: "checkbox",
        checked: chosen.has(name),
        onChange: () => {
          if (box.checked) chosen.add(name);
          else chosen.delete(name);
          changed();
        },
      });
      return h("label", { class: "choice" }, box, ` ${withAccidentals(name)}`);
    });
}
