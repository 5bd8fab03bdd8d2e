/** Changing chords in free time: buttons and arrow keys on the page, a pedal or the lowest key of a MIDI keyboard. */
import { h } from "../shell/dom.ts";
import { type Changer, LOWEST_KEY } from "./free-time.ts";
import type { Played } from "./key-input.ts";
import type { Pedal } from "./midi-input.ts";

/** The pedal that a choice means, the left one being the soft one. */
const PEDAL: Readonly<Record<Changer, Pedal | null>> = {
  "left pedal": "soft",
  "middle pedal": "sostenuto",
  "right pedal": "sustain",
  "lowest key": null,
};

export const isChangePedal = (changer: Changer, pedal: Pedal): boolean => PEDAL[changer] === pedal;

/** A press or a release of the key that changes chords, which is then no note. */
export const isChangeKey = (changer: Changer, { pitch }: Pick<Played, "pitch">): boolean =>
  PEDAL[changer] === null && pitch === LOWEST_KEY;

export interface FreeChanges {
  readonly element: HTMLElement;
  show(free: boolean): void;
  end(): void;
}

/** @param change told to begin the next chord @param takeBack told that the last change was none; `at` as an event's */
export function freeChanges(change: (at: number) => void, takeBack: () => void): FreeChanges {
  const element = h(
    "span",
    { class: "free-changes", hidden: true },
    h(
      "button",
      { type: "button", class: "main", onClick: (event: Event) => change(event.timeStamp) },
      "Next chord",
    ),
    h("button", { type: "button", onClick: takeBack }, "Take back"),
  );
  const key = (event: KeyboardEvent) => {
    if (element.hidden || event.repeat || (event.target as HTMLElement).closest("input, textarea, select"))
      return;
    // A foot switch that turns pages sends page down, or an arrow.
    if (event.key === "ArrowRight" || event.key === "PageDown") change(event.timeStamp);
    else if (event.key === "ArrowLeft" || event.key === "PageUp") takeBack();
    else return;
    event.preventDefault();
  };
  window.addEventListener("keydown", key);
  return {
    element,
    show(free) {
      element.hidden = !free;
    },
    end: () => window.removeEventListener("keydown", key),
  };
}
