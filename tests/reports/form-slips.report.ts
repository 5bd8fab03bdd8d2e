/**
 * `npm run report -- form-slips [N] [teach]`: how often a beat, a bar or two that a player leaves out or plays twice are
 * named, and how sure the bars are where they are not; and whether anything is named in the takes as they were played. N
 * solos of the held-out half (all where nothing is said), or of the half that the thresholds were chosen by.
 */
import { laySlipped, type SlipSetting } from "../align/form-slips.ts";
import { readSolos, SOLOS_THERE } from "../align/human-solos.ts";

const SETTINGS: readonly (readonly [string, SlipSetting, readonly number[]])[] = [
  ["a line alone on a click", { clicked: true, comped: false }, [0, -1, 1, -4, 4, -8, 8]],
  ["with a hand, on a click", { clicked: true, comped: true }, [0, -1, 1, -4, 4, -8, 8]],
  ["with a hand, without a click", { clicked: false, comped: true }, [0, -4, 4, -8, 8]],
];
/** Sureness from which a wrong take is confidently so. */
const CONFIDENT = 0.8;

export function report(args: readonly string[]): void {
  if (!SOLOS_THERE) {
    console.log("The open solos are not beside the project: skipped");
    return;
  }
  const most = Number(args.find((arg) => Number(arg) > 0) ?? Number.POSITIVE_INFINITY);
  // Beats are those of bars of four.
  const solos = readSolos(args.includes("teach") ? 0 : 1, most).filter(({ beatsInBar }) => beatsInBar === 4);
  for (const [name, setting, slips] of SETTINGS) {
    console.log(`${name}, ${solos.length} solos:`);
    for (const beats of slips) {
      for (const again of beats === 0 ? [false] : [false, true]) {
        const laid = solos.map((solo) => laySlipped(solo, setting, beats, again));
        const many = (of: (one: (typeof laid)[number]) => boolean) => laid.filter(of).length;
        const what =
          beats === 0
            ? "as played"
            : `${Math.abs(beats)} beats ${beats < 0 ? "left out" : "put in"}${again ? ", and taken back eight bars later" : ""}`;
        console.log(
          `  ${what}: named ${many(({ named }) => named)}, rightly ${many(({ right }) => right)}, within two bars ${many(({ near }) => near)}; not named and over ${CONFIDENT} sure ${many(({ named, confidence }) => !named && confidence > CONFIDENT)}`,
        );
      }
    }
  }
}
