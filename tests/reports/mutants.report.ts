/**
 * `npm run report -- mutants`: the share of mutants that the tests kill, file by file, as last measured.
 * `npm run report -- mutants FILE...` measures the files named (a minute or more each) and keeps the figures;
 * `npm run report -- mutants --from RESULT.json...` takes them from results that Stryker has written.
 *
 * A mutant is a small break in a rule (DeMillo, Lipton & Sayward 1978 [memory]): a condition turned round, a sign
 * changed, a word left out. One that survives is a rule that no test holds. Tables of constants are not counted:
 * tests compare them with the tables of others.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename } from "node:path";

interface Figures {
  readonly killed: number;
  /** Noticed because the tests came to no end; on a busy machine some of them may have been slow only. */
  readonly outOfTime: number;
  readonly survived: number;
}

type Record = { [file: string]: Figures };

const RECORD = new URL("mutants.json", import.meta.url);
const RESULT = "reports/mutants.json";
const ROOMS = ["src/chart", "src/harmony"];

/** Tests of a room for files that have no tests of their own name; those of whole takes are left out, they are slow. */
const ROOM_TESTS: Readonly<{ [room: string]: readonly string[] }> = {
  "src/chart": [
    "tests/chart/!(propose-*|bars-by-form|settle-chart).test.ts",
    "tests/outside/chord-{functions,symbols,tensions}.test.ts",
    "tests/outside/scale-tables.test.ts",
  ],
  "src/harmony": [
    "tests/harmony/!(package-takes|swung-pushes|whole-labels).test.ts",
    "tests/outside/line-role-*.test.ts",
    "tests/outside/melody-labels.test.ts",
    "tests/outside/spelling-{rules,tonal}.test.ts",
  ],
};

export function report(args: string[]): void {
  const record = JSON.parse(existsSync(RECORD) ? readFileSync(RECORD, "utf8") : "{}") as Record;
  const [first, ...rest] = args;
  if (first === "--from") for (const result of rest) take(result, record);
  else for (const file of args) if (measure(file)) take(RESULT, record);
  const files = ROOMS.flatMap((room) => readdirSync(room).map((name) => `${room}/${name}`)).sort();
  const known = Object.fromEntries(
    files.flatMap((file) => (record[file] === undefined ? [] : [[file, record[file]]])),
  );
  if (args.length > 0) writeFileSync(RECORD, `${JSON.stringify(known, null, 2)}\n`);
  for (const room of ROOMS) {
    const here = files.filter((file) => file.startsWith(room));
    for (const file of here) console.log(line(file, known[file]));
    const all = here.flatMap((file) => known[file] ?? []);
    console.log(
      line(`${room}, all`, {
        killed: all.reduce((sum, { killed }) => sum + killed, 0),
        outOfTime: all.reduce((sum, { outOfTime }) => sum + outOfTime, 0),
        survived: all.reduce((sum, { survived }) => sum + survived, 0),
      }),
    );
  }
}

function line(name: string, figures: Figures | undefined): string {
  if (figures === undefined) return `${name.padEnd(34)} not measured, or nothing to break but tables`;
  const { killed, outOfTime, survived } = figures;
  const all = killed + outOfTime + survived;
  const share = all === 0 ? "-" : `${((100 * (killed + outOfTime)) / all).toFixed(1)} %`;
  return `${name.padEnd(34)} ${share.padStart(7)}  ${killed} killed, ${outOfTime} out of time, ${survived} not`;
}

function measure(file: string): boolean {
  const room = file.slice(0, file.lastIndexOf("/"));
  const own = `tests/${room.slice("src/".length)}/${basename(file, ".ts")}`;
  const tests = existsSync(`${own}.test.ts`) ? [`${own}*.test.ts`] : (ROOM_TESTS[room] ?? []);
  const { status } = spawnSync("npx", ["stryker", "run", "tests/stryker.config.json", "--mutate", file], {
    stdio: "inherit",
    env: { ...process.env, MUTANT_TESTS: tests.join(" ") },
  });
  if (status !== 0) console.error(`${file}: the run broke off`);
  return status === 0;
}

/** Adds what a result of Stryker says of each file. */
function take(result: string, record: Record): void {
  const { files } = JSON.parse(readFileSync(result, "utf8")) as {
    files: { [file: string]: { mutants: readonly { status: string }[] } };
  };
  for (const [file, { mutants }] of Object.entries(files)) {
    const count = (...names: string[]) => mutants.filter(({ status }) => names.includes(status)).length;
    record[file] = {
      killed: count("Killed"),
      outOfTime: count("Timeout"),
      survived: count("Survived", "NoCoverage"),
    };
  }
}
