/** The pattern that is looked for: played on a drawn keyboard, picked from a take, taken from the kept ideas, or written. */

import type { IdeaRow } from "../../server/contract/library.ts";
import type { AskedNote } from "../../server/contract/pattern.ts";
import type { MotifViewpoint } from "../../src/account.ts";
import { isBlackKey } from "../../src/pitch/index.ts";
import type { Finger } from "../../src/take/index.ts";
import { capital, count, withAccidentals } from "../../src/words/index.ts";
import { keyboardInput } from "../draw/keyboard-input.ts";
import { listenToKeys } from "../record/key-input.ts";
import { h, s } from "../shell/dom.ts";
import { patternWords, readPatternWords } from "../shell/ideas.ts";
import { bareKeyName } from "../shell/words.ts";

export type Way = "play" | "picked" | "idea" | "write";

export interface PatternStart {
  readonly way: Way;
  readonly viewpoint: MotifViewpoint;
  readonly symbols: readonly (number | string)[];
  readonly idea: string | null;
  /** Notes of a take, and where they are. */
  readonly picked: {
    readonly notes: readonly AskedNote[];
    /** The notes as their account spells them. */
    readonly names: readonly string[];
    readonly words: string;
  } | null;
}

export interface PatternInput {
  readonly element: HTMLElement;
  /** Symbols or notes, as a search takes them. Throws an error with words when there is nothing to look for. */
  read(
    viewpoint: MotifViewpoint,
  ): Promise<{ symbols: readonly (number | string)[] } | { notes: AskedNote[] }>;
  /** Shows what this viewpoint needs. */
  lookAt(viewpoint: MotifViewpoint): void;
  end(): void;
}

interface PlayedNote {
  readonly pitch: number;
  beats: number;
  finger: Finger | null;
}

/** An octave below middle C, and two above. */
const BOARD = { low: 48, high: 84, label: "Keyboard: play the pattern" };

const LENGTHS: readonly (readonly [number, string])[] = [
  [0.25, "¼ beat"],
  [1 / 3, "⅓ beat"],
  [0.5, "½ beat"],
  [2 / 3, "⅔ beat"],
  [1, "1 beat"],
  [1.5, "1½ beats"],
  [2, "2 beats"],
  [4, "4 beats"],
];

/**
 * @param choose told when a kept idea is chosen, with its viewpoint
 * @param strike sounds a key that was pressed
 */
export function patternInput(
  ideas: readonly IdeaRow[],
  start: PatternStart,
  choose: (viewpoint: MotifViewpoint) => void,
  strike: (pitch: number) => void,
): PatternInput {
  const state = { way: start.way, viewpoint: start.viewpoint };
  const played: PlayedNote[] = [];
  const row = h("ol", { class: "played-notes", "aria-label": "Notes of the pattern" });
  const chord = h("input", { name: "over-chord", value: "C7", size: 8, autocomplete: "off" });
  const chordLabel = h("label", {}, "Over the chord ", chord);
  const octave = h("p", { class: "hint" }, octaveWords(60));
  const back = h("button", { type: "button", onClick: () => take(-1) }, "Take back the last");
  const clear = h("button", { type: "button", onClick: () => take(-played.length) }, "Clear");
  const press = (pitch: number) => {
    played.push({ pitch, beats: 0.5, finger: null });
    strike(pitch);
    show();
  };
  const take = (n: number) => {
    played.splice(played.length + n, -n);
    show();
  };
  const board = keyboardInput({ ...BOARD, role: "button" }, press);
  const endKeys = listenToKeys(
    ({ pitch, velocity }) => {
      if (state.way === "play" && velocity > 0) press(pitch);
    },
    (lowest) => {
      octave.textContent = octaveWords(lowest);
    },
  );
  const show = () => {
    const withLength = state.viewpoint === "rhythm" || state.viewpoint === "interval and rhythm";
    const withFinger = state.viewpoint === "finger";
    chordLabel.hidden = state.viewpoint !== "degree";
    back.disabled = clear.disabled = played.length === 0;
    row.replaceChildren(
      ...(played.length === 0
        ? [h("li", { class: "faint" }, "No note yet.")]
        : played.map((note, i) =>
            h(
              "li",
              {},
              h("strong", {}, bareKeyName(note.pitch)),
              withLength ? lengthOf(note, i) : null,
              withFinger ? fingerOf(note, i) : null,
            ),
          )),
    );
    board.marks.replaceChildren(
      ...played.flatMap((note, i) => {
        const again = played.findIndex((other) => other.pitch === note.pitch) !== i;
        if (again) return [];
        const order = played.flatMap((other, k) => (other.pitch === note.pitch ? [k + 1] : [])).join(" ");
        const x = board.keys.centre(note.pitch);
        const y = isBlackKey(note.pitch) ? 62 : 104;
        return [
          s("circle", { class: "finger-spot", cx: x, cy: y, r: 9 }),
          s(
            "text",
            { class: "finger-number", x, y: y + 4, "text-anchor": "middle" },
            order.length > 3 ? `${order.split(" ")[0]}…` : order,
          ),
        ];
      }),
    );
  };
  const idea = h(
    "select",
    { name: "idea" },
    ...ideas.map((one) => h("option", { value: one.id, selected: one.id === start.idea }, one.name)),
  );
  const ideaWords = h("p", { class: "hint" });
  const showIdea = () => {
    const chosen = ideas.find((one) => one.id === idea.value);
    ideaWords.textContent = chosen
      ? `${count(chosen.pattern.notes, "note")}: ${withAccidentals(patternWords(chosen.pattern))}`
      : "No idea is kept yet. Search for one, and keep it under a name.";
    if (chosen && state.way === "idea") choose(chosen.pattern.viewpoint);
  };
  idea.addEventListener("change", showIdea);
  const written = h("input", {
    name: "symbols",
    autocomplete: "off",
    "aria-describedby": "symbols-hint",
    value: patternWords(start),
  });
  const hint = h("p", { class: "hint", id: "symbols-hint" });
  const panels: Record<Way, HTMLElement> = {
    play: h(
      "div",
      { class: "play-pattern" },
      board.element,
      octave,
      row,
      h("div", { class: "row" }, back, clear, chordLabel),
    ),
    picked: h(
      "div",
      {},
      h("p", {}, capital(start.picked?.words ?? "")),
      h("p", { class: "picked-notes" }, (start.picked?.names ?? []).map(withAccidentals).join(" ")),
    ),
    idea: h("div", { class: "row" }, h("label", {}, "Idea", idea), ideaWords),
    write: h("div", {}, h("label", {}, "Pattern ", written), hint),
  };
  const ways: readonly (readonly [Way, string])[] = [
    ["play", "Play it"],
    ...(start.picked ? ([["picked", "Notes picked from a take"]] as const) : []),
    ["idea", "One of the kept ideas"],
    ["write", "Write it"],
  ];
  const turn = () => {
    for (const [name, panel] of Object.entries(panels)) panel.hidden = name !== state.way;
    hint.textContent = HINTS[state.viewpoint];
    show();
    showIdea();
  };
  const element = h(
    "fieldset",
    { class: "pattern-input" },
    h("legend", {}, "The pattern"),
    h(
      "div",
      { class: "choices" },
      ...ways.map(([way, words]) => {
        const input = h("input", { type: "radio", name: "way", value: way, checked: way === state.way });
        input.addEventListener("change", () => {
          state.way = way;
          turn();
        });
        return h("label", { class: "choice" }, input, ` ${words}`);
      }),
    ),
    ...Object.values(panels),
  );
  turn();
  return {
    element,
    lookAt(viewpoint) {
      state.viewpoint = viewpoint;
      hint.textContent = HINTS[viewpoint];
      show();
    },
    async read(viewpoint) {
      switch (state.way) {
        case "play":
          if (played.length < 2) throw new Error("Play two notes or more, then search.");
          return { notes: await asked(played, viewpoint === "degree" ? chord.value : null) };
        case "picked":
          return { notes: [...(start.picked?.notes ?? [])] };
        case "idea": {
          const chosen = ideas.find((one) => one.id === idea.value);
          if (!chosen) throw new Error("No idea is kept yet. Play or write a pattern instead.");
          return { symbols: chosen.pattern.symbols };
        }
        case "write": {
          const symbols = readPatternWords(written.value, viewpoint);
          if (symbols.length === 0) throw new Error("Write a pattern, then search.");
          return { symbols };
        }
      }
    },
    end: endKeys,
  };
}

/** Played notes as a search takes them; degrees against the chord that was named. */
async function asked(played: readonly PlayedNote[], chord: string | null): Promise<AskedNote[]> {
  const degree = await degreesOver(chord);
  let position = 0;
  return played.map((note) => {
    const at = position;
    position += note.beats;
    return { pitch: note.pitch, position: at, degree: degree(note.pitch), finger: note.finger };
  });
}

async function degreesOver(chord: string | null): Promise<(pitch: number) => AskedNote["degree"]> {
  if (chord === null) return () => null;
  const [{ parseChord }, { degreeOn }] = await Promise.all([
    import("../../src/chart/index.ts"),
    import("../../src/hands/placements.ts"),
  ]);
  const parsed = parseChord(chord);
  return (pitch) => (parsed === null ? null : degreeOn(parsed, pitch));
}

function lengthOf(note: PlayedNote, i: number): HTMLSelectElement {
  return h(
    "select",
    {
      "aria-label": `Length of note ${i + 1}`,
      onChange: (event: Event) => {
        note.beats = Number((event.target as HTMLSelectElement).value);
      },
    },
    ...LENGTHS.map(([beats, words]) => h("option", { value: beats, selected: beats === note.beats }, words)),
  );
}

function fingerOf(note: PlayedNote, i: number): HTMLSelectElement {
  note.finger ??= Math.min(5, i + 1) as Finger;
  return h(
    "select",
    {
      "aria-label": `Finger of note ${i + 1}`,
      onChange: (event: Event) => {
        note.finger = Number((event.target as HTMLSelectElement).value) as Finger;
      },
    },
    ...[1, 2, 3, 4, 5].map((finger) =>
      h("option", { value: finger, selected: finger === note.finger }, `finger ${finger}`),
    ),
  );
}

function octaveWords(lowest: number): string {
  return `Or with the computer's keys: the middle letter row from C${Math.floor(lowest / 12) - 1} up, the row above for the black keys; the two leftmost letters of the bottom row move by an octave.`;
}

const HINTS: Readonly<Record<MotifViewpoint, string>> = {
  "chromatic interval": "Semitones from note to note, up + and down -: +3 +2 +1",
  "interval and rhythm":
    "Semitones and length of each step, with semicolons between: +3, 0.5 beats; +2, 1 beat",
  degree: "Degrees on the chord that sounds: b3 9 1",
  contour: "Leap down, step down, repeat, step up or leap up, with semicolons between: step up; leap down",
  rhythm: "Length of each step, with semicolons between: 0.5 beats; 1 beat",
  finger: "Fingers, 1 the thumb: 2 3 4 2",
};
