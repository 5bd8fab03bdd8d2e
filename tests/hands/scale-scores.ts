/** The handbooks' scales and arpeggios as scores with their printed fingers: one MusicXML document a row. */
import { attributes, bar, note, rest, score } from "../ingest/score-text.ts";
import { HANDBOOK_ROWS, type HandbookRow } from "./handbooks.ts";

const NAMES = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];

/** File name and bytes of every row that passes; up and down again, in eighth notes. */
export function scaleScores(passes: (row: HandbookRow) => boolean): { name: string; bytes: Uint8Array }[] {
  return HANDBOOK_ROWS.filter(passes).map((row) => {
    const keys = [...row.keys, ...[...row.keys].reverse().slice(1)];
    const fingers = [...row.a, ...[...row.a].reverse().slice(1)];
    const notes = keys.map((key, i) =>
      note(
        `${NAMES[key % 12]}${Math.floor(key / 12) - 1}`,
        1,
        "",
        1,
        `<notations><technical><fingering>${fingers[i]}</fingering></technical></notations>`,
      ),
    );
    const bars: string[] = [];
    for (let i = 0; i < notes.length; i += 8) {
      const own = notes.slice(i, i + 8);
      const fill = own.length < 8 ? rest(8 - own.length) : "";
      bars.push(bar(bars.length + 1, (i === 0 ? attributes(2) : "") + own.join("") + fill));
    }
    return { name: `${row.name.replace(/[ ,]+/g, "-")}.musicxml`, bytes: score(...bars) };
  });
}
