/** Playing without a piano: two rows of the computer's keys as an octave and a half, from C. */

/** By place on the board, not by letter, so that every layout plays the same. */
const KEYS: Readonly<Record<string, number>> = {
  KeyA: 0,
  KeyW: 1,
  KeyS: 2,
  KeyE: 3,
  KeyD: 4,
  KeyF: 5,
  KeyT: 6,
  KeyG: 7,
  KeyY: 8,
  KeyH: 9,
  KeyU: 10,
  KeyJ: 11,
  KeyK: 12,
  KeyO: 13,
  KeyL: 14,
  KeyP: 15,
  Semicolon: 16,
};

export interface Played {
  readonly pitch: number;
  /** 0 for a release. */
  readonly velocity: number;
  /** Milliseconds of `performance.now()`. */
  readonly at: number;
  /** What it was played on: its delay is kept under this name. */
  readonly from: string;
}

const COMPUTER = "the computer's keys";

/** Calls `play` for presses and releases until ended; Z and X move by an octave. */
export function listenToKeys(
  play: (event: Played) => void,
  octaveMoved: (lowest: number) => void,
): () => void {
  let lowest = 60;
  const held = new Map<string, number>();
  const down = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
    if ((event.target as HTMLElement).closest("input, textarea, select")) return;
    if (event.code === "KeyZ" || event.code === "KeyX") {
      lowest = Math.min(84, Math.max(36, lowest + (event.code === "KeyX" ? 12 : -12)));
      octaveMoved(lowest);
      event.preventDefault();
      return;
    }
    const step = KEYS[event.code];
    if (step === undefined || held.has(event.code)) return;
    held.set(event.code, lowest + step);
    play({ pitch: lowest + step, velocity: 84, at: event.timeStamp, from: COMPUTER });
    event.preventDefault();
  };
  const up = (event: KeyboardEvent) => {
    const pitch = held.get(event.code);
    if (pitch === undefined) return;
    held.delete(event.code);
    play({ pitch, velocity: 0, at: event.timeStamp, from: COMPUTER });
  };
  window.addEventListener("keydown", down);
  window.addEventListener("keyup", up);
  return () => {
    window.removeEventListener("keydown", down);
    window.removeEventListener("keyup", up);
  };
}
