/** Asking for the MIDI keyboards that are connected, and saying which are heard. */
import { h } from "../shell/dom.ts";
import type { Played } from "./key-input.ts";
import { listenToMidi, type MidiInput, type Pedal } from "./midi-input.ts";

export interface MidiChoice {
  readonly element: HTMLElement;
  end(): void;
}

/**
 * @param hear told of every key that is pressed or let go
 * @param pedal told of pedals that go down and come up
 * @param changed told of keyboards that were unplugged, and of those that are there, as soon as the browser notices
 */
export function midiChoice(
  hear: (event: Played) => void,
  pedal: (pedal: Pedal, down: boolean, at: number) => void,
  changed: (lost: readonly string[], there: readonly string[]) => void,
): MidiChoice {
  let midi: MidiInput | null = null;
  let known: readonly string[] = [];
  const found = h("p", { class: "hint", role: "status" }, "No keyboard connected.");
  const say = (none: string) => {
    const names = midi?.names() ?? [];
    found.textContent = names.length > 0 ? `Listening to ${names.join(", ")}.` : none;
    const lost = known.filter((name) => !names.includes(name));
    known = names;
    changed(lost, names);
  };
  const ask = async () => {
    try {
      midi ??= await listenToMidi(hear, pedal, () => say("No MIDI keyboard is connected."));
      say("No MIDI keyboard is connected yet; connect one now.");
    } catch (error) {
      found.textContent = (error as Error).message;
    }
  };
  return {
    element: h(
      "div",
      { class: "row" },
      h("button", { type: "button", onClick: () => void ask() }, "Use a MIDI keyboard"),
      found,
    ),
    end: () => midi?.end(),
  };
}
