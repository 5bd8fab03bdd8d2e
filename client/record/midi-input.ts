/** A MIDI keyboard at the browser (Web MIDI). */
import type { Played } from "./key-input.ts";

export interface MidiInput {
  /** Names of the keyboards that are there. */
  names(): string[];
  end(): void;
}

/** Asks for the keyboards; throws an Error in words when the browser has no MIDI or the user says no. */
export async function listenToMidi(
  play: (event: Played) => void,
  pedal: (down: boolean, at: number) => void,
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
  const hear = (event: MIDIMessageEvent) => {
    const [status = 0, first = 0, second = 0] = event.data ?? [];
    const kind = status & 0xf0;
    if (kind === 0x90) play({ pitch: first, velocity: second, at: event.timeStamp });
    else if (kind === 0x80) play({ pitch: first, velocity: 0, at: event.timeStamp });
    else if (kind === 0xb0 && first === 64) pedal(second >= 64, event.timeStamp);
  };
  const join = () => {
    for (const input of access.inputs.values()) input.onmidimessage = hear;
    changed();
  };
  // A browser may go on listing a port that was unplugged.
  const there = () => [...access.inputs.values()].filter((input) => input.state !== "disconnected");
  access.onstatechange = join;
  join();
  return {
    names: () => there().map((input) => input.name ?? "MIDI keyboard"),
    end() {
      access.onstatechange = null;
      for (const input of access.inputs.values()) input.onmidimessage = null;
    },
  };
}
