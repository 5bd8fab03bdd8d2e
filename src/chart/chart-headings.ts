/** The headings of a chart's text: name, key, meter, idiom, and how notes are named. */
import { chartProblem, type Place, placed } from "./chart-place.ts";
import type { HeadingName } from "./chart-words.ts";
import { parseKey } from "./key.ts";
import { inEnglish, NOTE_NAMES, type NoteNames } from "./note-names.ts";
import type { Idiom, Key, Meter } from "./types.ts";

export class ChartHeadings {
  name: string | null = null;
  key: Key | null = null;
  meter: Meter = { beats: 4, unit: 4 };
  idiom: Idiom | null = null;
  /** Null where the chart does not say. */
  names: NoteNames | null = null;
  #keyText: WrittenKey | null = null;
  #changes: WrittenKey[] = [];

  set(name: HeadingName, value: string, place: Place): void {
    switch (name) {
      case "name":
        this.name = oneLine(value) || null;
        return;
      case "key":
        this.#keyText = { text: value, place };
        return;
      case "meter":
        this.meter = readMeter(value, place);
        return;
      case "idiom": {
        const idiom = value.toLowerCase();
        if (idiom !== "blues" && idiom !== "standard") {
          throw chartProblem(
            "not-an-idiom",
            `"${value.slice(0, 40)}" is not an idiom`,
            place,
            'Write "idiom: blues" or "idiom: standard".',
          );
        }
        this.idiom = idiom;
        return;
      }
      case "names": {
        const names = NOTE_NAMES.find((one) => one === value.toLowerCase().replace("solfège", "solfege"));
        if (names === undefined) {
          throw chartProblem(
            "unknown-heading",
            `"${value.slice(0, 40)}" is not a way of naming notes`,
            place,
            'Write "names: english", "names: german" or "names: solfege".',
          );
        }
        this.names = names;
        return;
      }
    }
  }

  /** A key that is named among the bars: those below its line stand in it. */
  changeKey(text: string, place: Place): void {
    this.#changes.push({ text, place });
  }

  /** Reads the key once it is known how notes are named. */
  settleKey(): void {
    if (this.#keyText !== null) this.key = this.#read(this.#keyText);
  }

  /** The keys named among the bars, with their lines, in order. */
  keyChanges(): readonly { readonly line: number; readonly key: Key }[] {
    return this.#changes.map((written) => ({ line: written.place.line, key: this.#read(written) }));
  }

  #read({ text, place }: WrittenKey): Key {
    return placed(place, () => parseKey(keyInEnglish(text, this.names ?? "english")));
  }
}

interface WrittenKey {
  readonly text: string;
  readonly place: Place;
}

/** A name fits on its heading's line. */
export function oneLine(name: string): string {
  return name.slice(0, 200).replace(/\s+/g, " ").trim();
}

export function readMeter(value: string, place: Place): Meter {
  const match = /^(\d{1,2})\s?\/\s?(\d{1,2})$/.exec(value);
  const [beats, unit] = [Number(match?.[1] ?? 0), Number(match?.[2] ?? 0)];
  if (beats < 1 || beats > 32 || ![1, 2, 4, 8, 16, 32].includes(unit)) {
    throw chartProblem(
      "not-a-meter",
      `"${value.slice(0, 40)}" is not a meter`,
      place,
      "Write beats / unit, such as 4/4, 3/4 or 6/8; the unit is 1, 2, 4, 8, 16 or 32.",
    );
  }
  return { beats, unit };
}

/** "h-Moll" and "Fa# minor" in English. */
function keyInEnglish(text: string, names: NoteNames): string {
  if (names === "english") return text;
  const plain = text.replace(/[\s-]*dur$/i, "").replace(/[\s-]*moll$/i, "m");
  const capital = names === "german" ? plain.charAt(0).toUpperCase() + plain.slice(1) : plain;
  return inEnglish(capital, names) ?? text;
}
