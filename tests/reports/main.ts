/** `npm run report -- NAME [ARGS]`: prints the figures of one report, `tests/reports/NAME.report.ts`. */
import { readdirSync } from "node:fs";

const here = new URL(".", import.meta.url);
const names = readdirSync(here)
  .filter((file) => file.endsWith(".report.ts"))
  .map((file) => file.slice(0, -".report.ts".length));

const [name, ...args] = process.argv.slice(2);
if (name === undefined || !names.includes(name)) {
  console.error(`Name a report: ${names.join(", ")}`);
  process.exitCode = 2;
} else {
  const { report } = (await import(new URL(`${name}.report.ts`, here).href)) as {
    report: (args: string[]) => Promise<void> | void;
  };
  await report(args);
}
