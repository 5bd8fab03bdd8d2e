/** Turns the pages of a sheet that is shown, by the pedals or the outermost keys of a MIDI keyboard. */
import { LOWEST_KEY } from "../record/free-time.ts";
import { listenToMidi, type MidiInput } from "../record/midi-input.ts";
import { h } from "../shell/dom.ts";
import { HIGHEST_KEY, nextPage } from "./page-turns.ts";

export interface PageTurner {
  readonly element: HTMLElement;
  end(): void;
}

const HOW =
  "Right pedal or highest key: on. Left pedal or lowest key: back. A foot switch that sends page down works by itself.";

/** @param blocks the pages of the sheet as they stand now, in order */
export function pageTurner(blocks: () => readonly HTMLElement[]): PageTurner {
  const said = h("span", { class: "hint", role: "status" });
  const button = h("button", { type: "button", onClick: () => void toggle() }, "Turn pages by foot");
  let midi: MidiInput | null = null;

  const turn = (direction: "on" | "back") => {
    const boxes = blocks().map((block) => block.getBoundingClientRect());
    const { scrollY, innerHeight } = window;
    const tops = boxes.map(({ top }) => top + scrollY);
    const end = (boxes.at(-1)?.bottom ?? 0) + scrollY;
    window.scrollTo({ top: nextPage(tops, end, scrollY, innerHeight, direction) });
  };
  const listening = () => {
    const names = midi?.names() ?? [];
    said.textContent =
      names.length > 0
        ? `${HOW} Listening to ${names.join(", ")}.`
        : "No MIDI keyboard is connected yet; connect one now.";
  };
  const toggle = async () => {
    if (midi !== null) {
      midi.end();
      midi = null;
      said.textContent = "";
      button.textContent = "Turn pages by foot";
      return;
    }
    try {
      midi = await listenToMidi(
        ({ pitch, velocity }) => {
          if (velocity === 0) return;
          if (pitch === HIGHEST_KEY) turn("on");
          else if (pitch === LOWEST_KEY) turn("back");
        },
        (pedal, down) => {
          if (!down) return;
          if (pedal === "sustain") turn("on");
          else if (pedal === "soft") turn("back");
        },
        () => listening(),
      );
      button.textContent = "Turn them by hand again";
      listening();
    } catch (error) {
      said.textContent = (error as Error).message;
    }
  };
  return {
    element: h("div", { class: "page-turner no-print" }, button, said),
    end: () => midi?.end(),
  };
}
