/** A MIDI keyboard at the browser (Web MIDI). */
import type { Played } from "./key-input.ts";

/** The pedals of a piano from right to left. */
export type Pedal = "sustain" | "sostenuto" | "soft";

/** Controllers of the MIDI 1.0 specification; 64 and above is down. */
const PEDALS: Readonly<Record<number, Pedal>> = { 64: "sustain", 66: "sostenuto", 67: "soft" };

export interface MidiInput {
  /** Names of the keyboards that are there. */
  names(): string[];
  end(): void;
}

/**
 * Asks for the keyboards; throws an Error in words when the browser has no MIDI or the user says no.
 *
 * @param pedal told once when a pedal goes down and once when it comes up, however many positions it sends between
 */
export async function listenToMidi(
  play: (event: Played) => void,
  pedal: (pedal: Pedal, down: boolean, at: number) => void,
  changed: () => void,
): Promise<MidiInput> {
  if (!navigator.requestMIDIAccess) {
    throw new Error("This browser cannot read MIDI keyboards. The computer's keys work everywhere.");
  }
  let access: MIDIAccess;
  try {
    access = await navigator.requestMIDIAccess();
  } catch {
    throw new Error(
      "The browser was not allowed to read MIDI keyboards. Allow it for this page, or use the computer's keys.",
    );
  }
  const down = new Set<string>();
  const step = (from: string, which: Pedal, pressed: boolean, at: number) => {
    const one = `${which} ${from}`;
    if (down.has(one) === pressed) return;
    if (pressed) down.add(one);
    else down.delete(one);
    pedal(which, pressed, at);
  };
  const hear = (from: string) => (event: MIDIMessageEvent) => {
    const [status = 0, first = 0, second = 0] = event.data ?? [];
    const { timeStamp: at } = event;
    const kind = status & 0xf0;
    if (kind === 0x90) play({ pitch: first, velocity: second, at, from });
    else if (kind === 0x80) play({ pitch: first, velocity: 0, at, from });
    else if (kind === 0xb0 && PEDALS[first]) step(from, PEDALS[first], second >= 64, at);
  };
  const nameOf = (input: MIDIInput) => input.name ?? "MIDI keyboard";
  // A browser may go on listing a port that was unplugged.
  const there = () => [...access.inputs.values()].filter((input) => input.state !== "disconnected");
  const join = () => {
    for (const input of access.inputs.values()) input.onmidimessage = hear(nameOf(input));
    // What an unplugged keyboard holds down is never let go of by itself.
    const names = new Set(there().map(nameOf));
    for (const one of [...down]) if (![...names].some((name) => one.endsWith(` ${name}`))) down.delete(one);
    changed();
  };
  access.onstatechange = join;
  join();
  return {
    names: () => there().map(nameOf),
    end() {
      access.onstatechange = null;
      for (const input of access.inputs.values()) input.onmidimessage = null;
    },
  };
}
