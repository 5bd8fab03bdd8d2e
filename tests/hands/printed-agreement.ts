/** Inferred fingers beside printed ones, in scores that others fingered. */
import { parseChart } from "../../src/chart/index.ts";
import type { HandNote } from "../../src/hands/index.ts";
import { explainHands } from "../../src/hands/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import type { Finger, Take } from "../../src/take/index.ts";

export interface PrintedAgreement {
  /** Notes with a printed finger that a single hand plays. */
  readonly notes: number;
  /** Inferred finger equals the printed one, alternates and substitutions counted as printed. */
  readonly inferred: number;
  /** The finger that is printed most often in this score, given to every note. */
  readonly commonest: number;
}

/** Takes the printed fingers away, infers them again, and compares. Each part and hand is fingered for itself. */
export function printedAgreement(take: Take): PrintedAgreement {
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  let [notes, inferred] = [0, 0];
  const counts = new Map<Finger, number>();
  for (const part of take.parts) {
    const own: HandNote[] = [];
    const printed: Finger[][] = [];
    take.notes.forEach((note, i) => {
      if (note.part !== part.id) return;
      printed.push((note.printed?.fingering ?? []).map((mark) => mark.finger));
      own.push({
        ...note,
        printed: note.printed === null ? null : { ...note.printed, fingering: [] },
        hand:
          part.staves > 1 && note.printed !== null
            ? note.printed.staff === 1
              ? "right"
              : "left"
            : hands[i]!.hand,
        solo: true,
        chorus: 1,
        bar: 1,
        beat: null,
        position: null,
        beats: null,
        timing: null,
        span: 0,
        degree: null,
      });
    });
    if (!printed.some((fingers) => fingers.length > 0)) continue;
    const chart = parseChart("key: C\n| N.C. |");
    const account = explainHands(own, [], chart, { shapes: [] });
    account.notes.forEach(({ finger }, i) => {
      const marks = printed[i]!;
      if (marks.length === 0) return;
      notes++;
      counts.set(marks[0]!, (counts.get(marks[0]!) ?? 0) + 1);
      if (finger !== null && marks.includes(finger)) inferred++;
    });
  }
  return { notes, inferred, commonest: Math.max(0, ...counts.values()) };
}
