/** A device in one sentence. */
import { noteInWords } from "../words/index.ts";
import type { DeviceLine, Stretch } from "./device-line.ts";

/** @example deviceInWords(line, { name: "third to flat ninth", first: 0, last: 3 }) // "Bar 1: third, fifth, ..." */
export function deviceInWords(line: DeviceLine, { name, first, last }: Stretch): string {
  const { note, span } = line[first]!;
  const names = (from: number, to: number) =>
    line
      .slice(from, to + 1)
      .map(({ label }) => noteInWords(label.spelling))
      .join(", ");
  const say = (what: string) => `Bar ${note.bar}: ${what}.`;
  switch (name) {
    case "side-slip":
      return say("a figure slips a half step out of the chord and back (side-slip)");
    case "third to flat ninth":
      return say(`third, fifth, seventh and flat ninth of ${span.symbol} in one rising arpeggio`);
    case "tritone outline":
      return say(`over ${span.symbol} the dominant a tritone away is broken, and gives way by a half step`);
    case "upper structure":
      return say(`a triad of tensions (${names(first, last)}) over ${span.symbol}`);
    case "other pentatonic":
      return say(
        `a pentatonic scale that is not the one on the root of ${span.symbol} (${names(first, last)})`,
      );
    case "added passing note":
      return say(
        `a half step is added to the scale of ${span.symbol}, so that its chord tones fall on the beat`,
      );
    case "sequence":
      return say("a figure is moved on by the same step, again and again (sequence)");
    case "pedal":
      return say("one note returns in every other place while another line moves (pedal)");
    case "chain of approaches":
      return say("chord tone after chord tone is come to by a half step");
    case "blues turn":
      return say(`the blue third of ${span.symbol} rises into the third and goes home`);
    case "answering end":
      return say("the phrase ends as the one before it did");
  }
}
