/**
 * `ledgerline backup FILE`, `ledgerline restore FILE`, and
 * `ledgerline analyse FILE... --chart CHART|--form NAME --key KEY [--shape NAME] [--format ...] [--out DIR]`.
 * A bad file gets a line on standard error; the others are done; the exit code is then 1.
 */
import { existsSync } from "node:fs";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { basename, extname, isAbsolute, join, resolve } from "node:path";
import { parseArgs } from "node:util";
import type { AnalyseOptionsInput, Analysis } from "../src/account.ts";
import { analyse } from "../src/analyse.ts";
import { chartText, formChart } from "../src/chart/index.ts";
import { accountText, annotatedScore, notesCsv, notesNdjson } from "../src/export/index.ts";
import { NO_FEEDBACK } from "../src/findings/index.ts";
import { BUILT_IN_SHAPES } from "../src/hands/index.ts";
import { describeProblem, Problem } from "../src/take/index.ts";
import { brokenOff, HearerEnded } from "./listen/hearer.ts";
import { createListener } from "./listen/listener.ts";
import { orOneLine } from "./settings.ts";

const FORMATS = {
  json: { ending: "json", write: (analysis: Analysis) => `${JSON.stringify(analysis)}\n` },
  csv: { ending: "csv", write: notesCsv },
  ndjson: { ending: "ndjson", write: notesNdjson },
  text: { ending: "txt", write: accountText },
  musicxml: { ending: "musicxml", write: annotatedScore },
  html: { ending: "html", write: lessonPage },
} as const;

const USAGE = `ledgerline analyse FILE... --chart CHART | --form NAME --key KEY
  [--shape NAME]... | [--shape none] [--format ${Object.keys(FORMATS).join("|")}] [--out DIR]
  [--method auto|notated|click|tracked|rubato] [--tempo N]
  [--solo-part ID] [--solo-staff N] [--solo-hand right|left|both] [--head-choruses N] [--pattern N] [--corrections LIST]

CHART is chart text or the name of a file that holds it. Without a chart, the one that the file itself carries is used.
Without --shape all hand shapes are offered and used where the line gives evidence of them; --shape none fingers without.
LIST is JSON or the name of a file that holds it: what is put right of single notes, each by its "source" in the account,
for example [{"note":"t1/960/64","hand":"left","finger":2}]; further "pitch", "meant": false, "removed": true, "added".

ledgerline backup FILE
ledgerline restore FILE

All that the store holds (DATA_DIR or DATABASE_URL, as for the service) into a file, while the service runs; and from it
into a new store of either kind. What was written or restored is held against its hashes.`;

await orOneLine(async () => {
  process.exitCode = await main(process.argv.slice(2));
});

async function main(args: string[]): Promise<number> {
  const { values, positionals } = readArguments(args);
  const [command, ...files] = positionals;
  if (values.help || command === undefined) {
    console.log(USAGE);
    return command === undefined && !values.help ? 2 : 0;
  }
  if (command === "backup" || command === "restore") {
    if (files.length !== 1) throw oneFileNeeded(command);
    const { placeOfStore, ...commands } = await import("./backup/command.ts");
    console.log(await commands[command](placeOf(files[0]!), placeOfStore()));
    return 0;
  }
  if (command !== "analyse") {
    throw new Problem(
      "no-such-command",
      `There is no command "${command}"`,
      null,
      "Say: ledgerline analyse FILE..., backup FILE or restore FILE.",
    );
  }
  if (files.length === 0) {
    throw new Problem(
      "file-missing",
      "No file was named",
      null,
      "Name one or more MIDI or MusicXML files, or recordings of a piano.",
    );
  }
  const format = FORMATS[values.format as keyof typeof FORMATS];
  if (format === undefined) {
    throw new Problem(
      "no-such-format",
      `There is no format "${values.format}"`,
      "--format",
      `Choose one of ${Object.keys(FORMATS).join(", ")}.`,
    );
  }
  const chart = await chartFrom(values);
  const out = values.out === undefined ? null : placeOf(values.out);
  if (out !== null) await mkdir(out, { recursive: true });
  const corrections = await correctionsFrom(values.corrections);
  const listener = createListener();
  let failures = 0;
  for (const file of files) {
    try {
      const bytes = await listener.sourceOf(await readBytes(file), basename(file), {
        progress: showProgress,
        given: true,
      });
      const options = { ...optionsFrom(values, basename(file)), ...corrections };
      const text = await format.write(analyse(bytes, chart, options));
      if (out === null) process.stdout.write(text);
      else await writeFile(join(out, `${basename(file, extname(file))}.${format.ending}`), text);
    } catch (error) {
      const problem = error instanceof HearerEnded ? brokenOff() : error;
      if (!(problem instanceof Problem)) throw error;
      failures++;
      console.error(`${file}: ${describeProblem(problem)}`);
    }
  }
  await listener.close();
  return failures > 0 ? 1 : 0;
}

function oneFileNeeded(command: string): Problem {
  return new Problem(
    "file-missing",
    `ledgerline ${command} needs the name of one file`,
    null,
    `Say: ledgerline ${command} FILE.`,
  );
}

/** How far listening to a recording is, for one who waits at a terminal. */
function showProgress(share: number): void {
  if (!process.stderr.isTTY) return;
  process.stderr.write(share < 1 ? `\rListening: ${Math.round(share * 100)} %` : "\r\u001b[K");
}

/** Everything on the take in one file that opens without a network. Its maker is large, so it is loaded when asked for. */
async function lessonPage(analysis: Analysis): Promise<string> {
  const { lessonHtml } = await import("./standalone/lesson-html.ts");
  const { source, chart } = analysis;
  const take = {
    title: source.title ?? source.name,
    player: null,
    date: null,
    chartName: chart.name,
    key: chart.key,
  };
  return lessonHtml({ take, analysis, feedback: NO_FEEDBACK }, BUILT_IN_SHAPES);
}

function readArguments(args: string[]) {
  try {
    return parseArgs({
      args,
      allowPositionals: true,
      options: {
        chart: { type: "string" },
        form: { type: "string" },
        key: { type: "string" },
        shape: { type: "string", multiple: true },
        format: { type: "string", default: "json" },
        out: { type: "string" },
        method: { type: "string" },
        tempo: { type: "string" },
        "solo-part": { type: "string" },
        "solo-staff": { type: "string" },
        "solo-hand": { type: "string" },
        "head-choruses": { type: "string" },
        pattern: { type: "string" },
        corrections: { type: "string" },
        help: { type: "boolean", short: "h", default: false },
      },
    });
  } catch (error) {
    throw new Problem("bad-argument", (error as Error).message, null, "See ledgerline --help.");
  }
}

type Values = ReturnType<typeof readArguments>["values"];

async function chartFrom(values: Values): Promise<string | null> {
  if (values.chart !== undefined) {
    const place = placeOf(values.chart);
    return existsSync(place) && !values.chart.includes("|") ? readFile(place, "utf8") : values.chart;
  }
  if (values.form === undefined) return null;
  if (values.key === undefined) {
    throw new Problem("key-missing", "A form needs a key", "--key", "Say in which key, for example --key F.");
  }
  return chartText(formChart(values.form, values.key));
}

function optionsFrom(values: Values, name: string): AnalyseOptionsInput {
  const given = {
    name,
    shapes: shapesFrom(values.shape),
    method: values.method,
    tempo: values.tempo === undefined ? undefined : Number(values.tempo),
    soloPart: values["solo-part"],
    soloStaff: values["solo-staff"] === undefined ? undefined : Number(values["solo-staff"]),
    soloHand: values["solo-hand"],
    headChoruses: values["head-choruses"] === undefined ? undefined : Number(values["head-choruses"]),
    pattern: values.pattern === undefined ? undefined : Number(values.pattern),
  };
  return Object.fromEntries(
    Object.entries(given).filter(([, value]) => value !== undefined),
  ) as AnalyseOptionsInput;
}

/** `--shape none` asks for fingers without any hand shape; no `--shape` leaves it to what the line gives evidence of. */
function shapesFrom(names: readonly string[] | undefined): string[] | undefined {
  if (names === undefined) return undefined;
  if (!names.includes("none")) return [...names];
  if (names.length === 1) return [];
  throw new Problem(
    "bad-argument",
    "--shape none stands beside other shapes",
    "--shape",
    "Name shapes, or none, not both.",
  );
}

async function correctionsFrom(given: string | undefined): Promise<Pick<AnalyseOptionsInput, "corrections">> {
  if (given === undefined) return {};
  const text = given.trim().startsWith("[") ? given : new TextDecoder().decode(await readBytes(given));
  try {
    return { corrections: JSON.parse(text) };
  } catch (error) {
    throw new Problem(
      "bad-argument",
      `The corrections are not JSON: ${(error as Error).message}`,
      "--corrections",
      'Give a list, for example [{"note":"t1/960/64","hand":"left"}].',
    );
  }
}

async function readBytes(file: string): Promise<Uint8Array> {
  try {
    const { buffer, byteOffset, byteLength } = await readFile(placeOf(file));
    return new Uint8Array(buffer, byteOffset, byteLength);
  } catch (error) {
    const code = (error as { code?: string }).code;
    throw new Problem(
      code === "ENOENT" ? "no-such-file" : "unreadable-file",
      code === "ENOENT" ? "There is no such file" : `The file cannot be opened (${code ?? "unknown"})`,
      null,
      "Check its name.",
    );
  }
}

/** npm runs commands in the project's folder; names are meant from where the user stands. */
function placeOf(name: string): string {
  return isAbsolute(name) ? name : resolve(process.env.INIT_CWD ?? process.cwd(), name);
}
