/**
 * `npm run report -- doubted-bars [SOLOS] [HALF]`: what is said of lines alone, laid with their tempo told and by their
 * chart alone, beside what is said of the same lines with every true bar pinned: by how sure the bars are, how many
 * praises and tasks about harmony, about time and of all else are made by the true bars too. From such counts comes
 * `LEAST_PLACE`, below which harmony and time are left out; counted with nothing left out (`withheld` for its place
 * counts as said, unweighed by chance). The lines are laid as users get them, by tables that were counted in them too: how
 * often bars are sure is not to be read from this.
 */
import { analyse } from "../../src/analyse.ts";
import { parseChart } from "../../src/chart/index.ts";
import { RULES } from "../../src/findings/index.ts";
import { drawnSolos, OPEN_SOLOS_MISSING, type OpenSolo } from "../outside/open-solos.ts";

const BOUNDS = [0, 0.2, 0.4, 0.6, 0.8, 0.9, 1.01] as const;
const HEADINGS = new Map<string, string>(RULES.map(({ id, heading }) => [id, heading]));
const KINDS = new Map<string, string>(RULES.map(({ id, kind }) => [id, kind]));

interface Said {
  readonly confidence: number;
  readonly rule: string;
  readonly byTruth: boolean;
}

export function report([most = "45", half = "test"]: string[]): void {
  if (OPEN_SOLOS_MISSING !== null) {
    console.log(`skipped: ${OPEN_SOLOS_MISSING}`);
    return;
  }
  const said: Said[] = [];
  const solos = drawnSolos(half === "teach" ? 0 : 1, Number(most));
  for (const solo of solos) said.push(...saidOf(solo));
  console.log(
    `${solos.length} solos, each with its tempo told and by its chart alone: by the true bars too, of all`,
  );
  for (const about of ["harmonic awareness", "time and feel", "all else"]) {
    const cells = BOUNDS.slice(1).map((to, i) => {
      const in_ = said.filter(
        ({ confidence, rule }) => confidence >= BOUNDS[i]! && confidence < to && about === headingOf(rule),
      );
      return `${BOUNDS[i]}: ${in_.filter(({ byTruth }) => byTruth).length}/${in_.length}`;
    });
    console.log(`${about.padEnd(20)} ${cells.join("  ")}`);
  }
}

function headingOf(rule: string): string {
  const heading = HEADINGS.get(rule);
  return heading === "harmonic awareness" || heading === "time and feel" ? heading : "all else";
}

function saidOf(solo: OpenSolo): Said[] {
  const truth = analyse(solo.midi, solo.chart, { anchors: barsOf(solo) });
  const true_ = rulesOf(truth);
  return [{ tempo: Number(solo.facts.tempo) }, {}].flatMap((options) => {
    const account = analyse(solo.midi, solo.chart, options);
    const { confidence } = account.alignment;
    return [...rulesOf(account)].map((rule) => ({ confidence, rule, byTruth: true_.has(rule) }));
  });
}

/** Praises and tasks that are said, or would be if the bars were sure, or if others did not outweigh them. */
function rulesOf({ findings, withheld }: ReturnType<typeof analyse>): Set<string> {
  const apart = withheld.filter(({ why }) => why !== "chance" && why !== "unsure").map(({ rule }) => rule);
  return new Set(
    [...findings.map(({ id }) => id), ...apart].filter((id) => (KINDS.get(id) ?? "notice") !== "notice"),
  );
}

function barsOf(solo: OpenSolo) {
  const { length } = parseChart(solo.chart).bars;
  return solo.beats
    .filter(({ bar, beat }) => beat === 1 && bar >= 1)
    .map(({ seconds, bar }) => ({
      seconds,
      chorus: Math.floor((bar - 1) / length) + 1,
      bar: ((bar - 1) % length) + 1,
      beat: 1,
    }));
}
