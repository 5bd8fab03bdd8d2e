/** The controls for listening: what is selected, with what, how fast, again and again. */
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { Selection, SelectionStore } from "../shell/selection.ts";
import type { Backing } from "./backing.ts";
import type { Player } from "./player.ts";

export interface Transport {
  readonly element: HTMLElement;
  /** Plays what is selected, or stops. */
  toggle(): void;
  end(): void;
}

export function transport(index: AccountIndex, store: SelectionStore): Transport {
  let player: Player | null = null;
  const what = h("span", { class: "play-what" });
  const button = h("button", { type: "button", class: "main play", onClick: () => toggle() }, "Play");
  const trouble = h("p", { class: "hint", role: "status" });
  const box = (label: string, checked = false) => {
    const input = h("input", { type: "checkbox", checked });
    return { input, label: h("label", { class: "choice" }, input, ` ${label}`) };
  };
  const hasOther = index.other.length > 0;
  const other = box("recorded other hand", hasOther);
  const steady = index.analysis.alignment.method !== "rubato";
  const click = box("click");
  const bass = box("walking bass");
  const shells = box("shells");
  const loop = box("again and again");
  const speed = h(
    "select",
    {},
    ...[100, 90, 80, 70, 60, 50, 40].map((percent) => h("option", { value: percent }, `${percent} %`)),
  );
  const element = h(
    "section",
    { class: "transport no-print", "aria-label": "Listen" },
    h("div", { class: "play-row" }, button, what),
    h(
      "details",
      {},
      h("summary", {}, "With what, how fast"),
      h(
        "div",
        { class: "play-choices" },
        hasOther ? other.label : null,
        steady ? click.label : null,
        bass.label,
        shells.label,
        loop.label,
        h("label", {}, "Speed ", speed),
      ),
    ),
    trouble,
  );
  const describe = () => {
    what.textContent = WORDS[store.selection.kind];
  };
  const toggle = () => {
    if (player?.sounding) {
      player.stop();
      return;
    }
    void start();
  };
  const start = async () => {
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
      const backing = new Set<Backing>();
      if (click.input.checked) backing.add("click");
      if (bass.input.checked) backing.add("bass");
      if (shells.input.checked) backing.add("shells");
      await player.play(passagesOf(index, store.selection), {
        backing,
        otherHand: hasOther && other.input.checked,
        speed: Number(speed.value) / 100,
        loop: loop.input.checked,
      });
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
    end() {
      unwatch();
      player?.stop();
    },
  };
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
