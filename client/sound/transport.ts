/** The controls for listening: what is selected, with what, how fast, again and again. */
import { printedText } from "../findings/finding-words.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import { type Selection, type SelectionStore, selectionQuery } from "../shell/selection.ts";
import type { Playing } from "./events.ts";
import type { Passage } from "./passages.ts";
import { playChoices } from "./play-choices.ts";
import type { Player } from "./player.ts";

export interface Transport {
  readonly element: HTMLElement;
  /** Plays what is selected, or stops. */
  toggle(): void;
  /** Selects and plays this; stops where it sounds already. */
  hear(selection: Selection): void;
  /** Plays all of the take from this second on, with click and bass; what sounded stops. */
  run(from: number): void;
  stop(): void;
  /** The second of the take that is heard while it runs; null when it does not. */
  running(): number | null;
  end(): void;
}

export function transport(index: AccountIndex, store: SelectionStore): Transport {
  let player: Player | null = null;
  const what = h("span", { class: "play-what" });
  /** The selected note's sentence, where the player is all that stays in sight. */
  const line = h("span", { class: "play-line" });
  const button = h("button", { type: "button", class: "main play", onClick: () => toggle() }, "Play");
  const trouble = h("p", { class: "hint", role: "status" });
  const choices = playChoices(index);
  const element = h(
    "section",
    { class: "transport no-print", "aria-label": "Listen" },
    h("div", { class: "play-row" }, button, what, line),
    h("details", {}, h("summary", {}, "With what, how fast"), choices.element),
    trouble,
  );
  const describe = () => {
    const { selection } = store;
    what.textContent = WORDS[selection.kind];
    const note = selection.kind === "note" ? index.note.get(selection.note) : undefined;
    line.textContent = printedText(note?.account ?? "");
    element.classList.toggle("has-line", note !== undefined);
  };
  /** Where a run began, in seconds; null for anything else that sounds. */
  let ran: number | null = null;
  const toggle = () => {
    if (player?.sounding) player.stop();
    else void start();
  };
  const start = async (from: number | null = null) => {
    ran = from;
    trouble.textContent = "";
    button.textContent = "Loading …";
    try {
      const [{ createPlayer }, { passagesOf }] = await Promise.all([
        import("./player.ts"),
        import("./passages.ts"),
      ]);
      player ??= createPlayer(
        index,
        (note) => store.play(note),
        (sounding) => {
          button.textContent = sounding ? "Stop" : "Play";
        },
      );
      if (from === null) await player.play(passagesOf(index, store.selection), choices.read());
      else await player.play(runFrom(index, from), RUN);
    } catch (error) {
      trouble.textContent = error instanceof Error ? error.message : String(error);
    } finally {
      button.textContent = player?.sounding ? "Stop" : "Play";
    }
  };
  const unwatch = store.watch((change) => {
    if (change === "selection") describe();
  });
  describe();
  return {
    element,
    toggle,
    hear(selection) {
      const again = player?.sounding && selectionQuery(selection) === selectionQuery(store.selection);
      player?.stop();
      store.select(selection);
      if (!again) void start();
    },
    run: (from) => void start(from),
    stop: () => player?.stop(),
    running() {
      const heard = player?.sounding ? player.heardAt(performance.now()) : null;
      return ran === null || heard === null ? null : ran + Math.max(0, heard);
    },
    end() {
      unwatch();
      player?.stop();
    },
  };
}

const RUN: Playing = {
  backing: new Set(["click", "bass"]),
  otherHand: true,
  speed: 1,
  loop: false,
  timing: "played",
  countIn: false,
};

/** From a second of the take to its end. */
function runFrom(index: AccountIndex, from: number): Passage[] {
  const end = index.analysis.notes.reduce((last, note) => Math.max(last, note.onset + note.duration), 0);
  return [{ from, to: Math.max(end, index.analysis.alignment.bars.at(-1)?.end ?? 0) }];
}

const WORDS: Readonly<Record<Selection["kind"], string>> = {
  none: "all of it",
  note: "this note",
  bar: "this bar",
  chorus: "this chorus",
  motif: "each place of this motif",
  placement: "this placement",
  phrase: "this phrase",
  finding: "the bars of this finding",
  stretch: "these notes",
};
