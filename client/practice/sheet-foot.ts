/** What stands at the end of each sheet to practise from: how to go about it, the key to its signs, days to tick. */
import { h } from "../shell/dom.ts";

const DAYS = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];

export function sheetFoot(): HTMLElement {
  return h(
    "footer",
    { class: "sheet-foot" },
    h(
      "p",
      {},
      // A little daily rather than much at once, and up in tempo only from clean rounds. [practice]
      "A few minutes every day, one exercise after the other: go on to the next tempo when its rounds were clean, and back to the last when they were not.",
    ),
    h(
      "p",
      { class: "hint" },
      "Over the notes: fingers, 1 the thumb to 5 the little finger. A small note is slid off with the same finger. Chords stand above, words below the staff.",
    ),
    h(
      "p",
      { class: "days-practised" },
      "Practised: ",
      ...DAYS.map((name) => h("span", { class: "day-box" }, name)),
    ),
  );
}
