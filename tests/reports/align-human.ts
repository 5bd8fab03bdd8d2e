/** How people's solos are laid, for `npm run report -- align human`: condition by condition, as each is measured. */
import { type HumanScore, layHuman } from "../align/human-conditions.ts";
import { CONDITIONS, type Condition, readSolos, SOLOS_THERE } from "../align/human-solos.ts";
import { answeredAt, calibration } from "./calibration.ts";

/** Share of its notes in their bars from which a take counts as laid well. */
const LAID_WELL = 0.9;
/** Precision at which takes are answered without a question, and sureness from which a wrong one is confidently so. */
const PRECISION = 0.95;
const CONFIDENT = 0.8;

interface Asked {
  readonly most: number;
  readonly half: 0 | 1 | "all";
  readonly conditions: readonly Condition[];
}

const OF = { 0: "the half that weights were chosen by", 1: "the other half", all: "both halves" } as const;

/** @param args any of: a number of solos, `teach` or `test` (both where neither is said), words of conditions */
export function reportHumans(args: readonly string[]): void {
  if (!SOLOS_THERE) {
    console.log("The open solos are not beside the project: skipped");
    return;
  }
  const asked = askedBy(args);
  if (asked === null) return;
  const solos = readSolos(asked.half, asked.most);
  console.log(`${solos.length} solos, ${OF[asked.half]}, each by tables of players of other instruments`);
  for (const condition of asked.conditions) {
    printScores(
      condition,
      solos.map((solo) => layHuman(solo, condition)),
    );
  }
}

/** Null, and a word about it, where an argument means nothing. */
function askedBy(args: readonly string[]): Asked | null {
  let [most, half]: [number, Asked["half"]] = [Number.POSITIVE_INFINITY, "all"];
  const named: Condition[] = [];
  for (const arg of args) {
    const found = CONDITIONS.filter((condition) => condition.includes(arg));
    if (Number(arg) > 0) most = Number(arg);
    else if (arg === "teach" || arg === "test") half = arg === "teach" ? 0 : 1;
    else if (found.length > 0) named.push(...found);
    else {
      console.error(`Not a number of solos, teach, test or a word of: ${CONDITIONS.join("; ")}: ${arg}`);
      process.exitCode = 2;
      return null;
    }
  }
  const conditions = named.length === 0 ? CONDITIONS : CONDITIONS.filter((one) => named.includes(one));
  return { most, half, conditions };
}

function printScores(condition: Condition, scores: readonly HumanScore[]): void {
  const mean = (value: (score: HumanScore) => number) =>
    (scores.reduce((sum, score) => sum + value(score), 0) / scores.length).toFixed(3);
  const notes = scores.reduce((sum, score) => sum + score.notes, 0);
  const ofNotes = (value: (score: HumanScore) => number) =>
    (scores.reduce((sum, score) => sum + value(score) * score.notes, 0) / notes).toFixed(3);
  const tempo = (ratio: number) =>
    mean(({ tempoRatio }) => (tempoRatio !== null && Math.abs(tempoRatio / ratio - 1) < 0.1 ? 1 : 0));
  const wrong = scores.filter(({ confidence, inBar }) => confidence > CONFIDENT && inBar < 0.5).length;
  console.log(
    `${condition}: in the right bar ${ofNotes((s) => s.inBar)} by notes, ${mean((s) => s.inBar)} by takes; on the right beat ${ofNotes((s) => s.onBeat)} by notes, ${mean((s) => s.onBeat)} by takes`,
  );
  console.log(
    `  beats F ${mean((s) => s.beatsF)}; tempo right ${tempo(1)}, double ${tempo(2)}, half ${tempo(0.5)}`,
  );
  console.log(
    `  refused ${mean((s) => (s.refused ? 1 : 0))}; laid well (90 % of notes) ${mean((s) => (s.inBar >= LAID_WELL ? 1 : 0))}, below half ${mean((s) => (s.inBar < 0.5 ? 1 : 0))}; confidently wrong ${wrong}; bars said to be irregular in ${scores.filter(({ irregular }) => irregular > 0).length}`,
  );
  const takes = scores.map(({ confidence, inBar }) => ({ confidence, right: inBar >= LAID_WELL }));
  const { share, level } = answeredAt(takes, PRECISION);
  console.log(
    `  answered without a question where 95 % of these are laid well: ${share.toFixed(3)} of takes, ${Number.isNaN(level) ? "none sure enough" : `those surer than ${level.toFixed(3)}`}`,
  );
  const rows = calibration(scores.flatMap((score) => [...score.bars]));
  console.log(
    `  bars said:found (number) ${rows.map((r) => `${r.said.toFixed(2)}:${r.right.toFixed(2)} (${r.bars})`).join(" ")}`,
  );
}
