/** Tapping the beat: the take plays, each tap becomes a moment, and the chart is laid through all of them. */
import { anchorsOfTaps, mergeAnchors, type TappedBeat, type TapStep } from "../../src/align/taps.ts";
import { count } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import type { Player } from "../sound/player.ts";

type Anchors = AccountIndex["analysis"]["alignment"]["anchors"];

export interface TapBeat {
  readonly element: HTMLElement;
  /** Takes a key or touch for a tap while the take plays for it; false when it does not. */
  tap(event: Event): boolean;
  end(): void;
}

const STEPS: readonly (readonly [TapStep, string])[] = [
  ["beat", "every beat"],
  ["second beat", "every second beat"],
  ["bar", "every bar"],
];

/** Seconds of lead before the bar that is to be tapped from. */
const LEAD = 2;

/**
 * The panel. `place` is told the take's new anchors and what to say of them.
 */
export function tapBeat(
  index: AccountIndex,
  store: SelectionStore,
  place: (anchors: Anchors, words: string) => void,
): TapBeat {
  const { chart, alignment } = index.analysis;
  const choruses = Math.max(1, alignment.choruses);
  const number = (name: string, most: number) =>
    h("input", { type: "number", name, min: 1, max: most, step: 1, value: 1 });
  const chorus = number("tap-chorus", choruses + 20);
  const bar = number("tap-bar", index.chartBars);
  const beat = number("tap-beat", chart.meter.beats);
  const step = h(
    "select",
    { name: "tap-step" },
    ...STEPS.map(([value, words]) => h("option", { value }, words)),
  );
  const speed = h(
    "select",
    { name: "tap-speed" },
    ...[100, 80, 60].map((percent) => h("option", { value: percent }, `${percent} %`)),
  );
  const play = h("button", { type: "button", class: "main", onClick: () => void toggle() }, "Play and tap");
  const pad = h(
    "button",
    { type: "button", class: "tap-pad", "aria-keyshortcuts": "t", disabled: true },
    h("span", {}, "Tap"),
    h("kbd", {}, "T"),
  );
  const told = h("p", { class: "tap-told", role: "status" });
  const use = h(
    "button",
    { type: "button", class: "main", onClick: () => apply() },
    "Place the chart by these taps",
  );
  const back = h("button", { type: "button", onClick: () => takeBack() }, "Take back the last tap");
  const away = h("button", { type: "button", onClick: () => clear() }, "Throw them away");
  const after = h("div", { class: "tap-after", hidden: true }, use, back, away);
  const pinned = alignment.anchors.length;
  const element = h(
    "details",
    { class: "tap no-print", hidden: alignment.method === "notated" },
    h("summary", {}, "Tap the beat"),
    h(
      "div",
      { class: "tap-body" },
      h(
        "p",
        { class: "hint" },
        "The take plays and you tap along, with the key T or the button. A missed or uneven tap does no harm.",
      ),
      h(
        "fieldset",
        { class: "tap-first" },
        h("legend", {}, "My first tap is on"),
        h(
          "div",
          { class: "tap-fields" },
          h("label", {}, "Chorus ", chorus),
          h("label", {}, "Bar ", bar),
          h("label", {}, "Beat ", beat),
        ),
      ),
      h("div", { class: "tap-how" }, h("label", {}, "I tap ", step), h("label", {}, "Speed ", speed)),
      h("div", { class: "tap-row" }, play, pad),
      told,
      after,
      pinned > 0
        ? h(
            "p",
            { class: "tap-pins" },
            `${count(pinned, "moment is", "moments are")} pinned. `,
            h(
              "button",
              { type: "button", class: "link", onClick: () => place([], "Every pin is removed.") },
              "Remove every pin",
            ),
          )
        : null,
    ),
  );

  let taps: number[] = [];
  let player: Player | null = null;
  let from = 0;

  const first = () => ({ chorus: Number(chorus.value), bar: Number(bar.value), beat: Number(beat.value) });
  const read = (): TappedBeat | string => {
    try {
      return anchorsOfTaps(taps, first(), step.value as TapStep, chart);
    } catch (error) {
      return error instanceof Error ? error.message : String(error);
    }
  };
  const show = () => {
    after.hidden = taps.length === 0 || (player?.sounding ?? false);
    if (taps.length === 0) {
      told.textContent = "";
      return;
    }
    const found = read();
    use.disabled = typeof found === "string";
    if (typeof found === "string") {
      told.textContent =
        taps.length < 3 ? count(taps.length, "tap") : `${count(taps.length, "tap")}. ${found}.`;
      return;
    }
    const strays = found.steps.filter((one) => one === null).length;
    const pace = `about ${Math.round(60 / found.period)} a minute`;
    told.textContent = `${count(taps.length, "tap")}, ${pace}${strays > 0 ? `, ${strays} left out` : ""}`;
  };
  const toggle = async () => {
    if (player?.sounding) {
      player.stop();
      return;
    }
    clear();
    play.textContent = "Loading …";
    try {
      const { createPlayer } = await import("../sound/player.ts");
      player ??= createPlayer(
        index,
        (note) => store.play(note),
        (sounding) => {
          play.textContent = sounding ? "Stop" : "Play and tap";
          pad.disabled = !sounding;
          if (sounding) pad.focus();
          show();
        },
      );
      from = startOf(index, store);
      const to = index.analysis.notes.reduce((end, note) => Math.max(end, note.onset + note.duration), 0);
      await player.play([{ from, to }], {
        backing: new Set(),
        otherHand: true,
        speed: Number(speed.value) / 100,
        loop: false,
      });
    } catch (error) {
      told.textContent = error instanceof Error ? error.message : String(error);
    } finally {
      if (!player?.sounding) play.textContent = "Play and tap";
    }
  };
  const tap = (event: Event): boolean => {
    const heard = player?.heardAt(event.timeStamp) ?? null;
    if (heard === null || heard < -0.1) return false;
    taps.push(Number(Math.max(0, from + heard).toFixed(4)));
    show();
    return true;
  };
  const takeBack = () => {
    taps = taps.slice(0, -1);
    show();
  };
  const clear = () => {
    taps = [];
    show();
  };
  const apply = () => {
    const found = read();
    if (typeof found === "string") return;
    place(
      mergeAnchors(alignment.anchors, found.anchors, chart),
      `The chart goes through your taps: ${count(found.anchors.length, "moment")} pinned.`,
    );
  };

  pad.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    tap(event);
  });
  pad.addEventListener("keydown", (event) => {
    if (event.key !== " " && event.key !== "Enter") return;
    event.preventDefault();
    if (!event.repeat) tap(event);
  });
  for (const field of [chorus, bar, beat, step]) field.addEventListener("change", show);
  const choose = () => {
    const { selection } = store;
    if (taps.length > 0 || selection.kind !== "bar" || selection.chorus === null || selection.bar < 1) return;
    chorus.value = String(selection.chorus);
    bar.value = String(Math.min(index.chartBars, selection.bar));
    beat.value = "1";
  };
  const unwatch = store.watch((change) => {
    if (change === "selection") choose();
  });
  choose();
  return {
    element,
    tap,
    end() {
      unwatch();
      player?.stop();
    },
  };
}

/** Seconds from which the take plays: a little before the selected bar, else its beginning. */
function startOf(index: AccountIndex, store: SelectionStore): number {
  const { selection } = store;
  if (selection.kind !== "bar" || selection.chorus === null) return 0;
  const time = index.bar(selection.chorus, selection.bar);
  return time === null ? 0 : Math.max(0, time.start - LEAD);
}
