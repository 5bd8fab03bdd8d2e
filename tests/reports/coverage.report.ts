/** Share of the lines and branches of each room that the last `npm run coverage` ran through. */
import { existsSync, readFileSync } from "node:fs";
import { relative } from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const SUMMARY = new URL("../../coverage/coverage-summary.json", import.meta.url);

interface Count {
  readonly total: number;
  readonly covered: number;
}

type Summary = Readonly<Record<string, { readonly lines: Count; readonly branches: Count }>>;

export function report(): void {
  if (!existsSync(SUMMARY)) throw new Error("Nothing has been counted yet: npm run coverage");
  const summary = JSON.parse(readFileSync(SUMMARY, "utf8")) as Summary;
  const rooms = new Map<string, { lines: Count; branches: Count; files: number }>();
  for (const [path, { lines, branches }] of Object.entries(summary)) {
    const room = path === "total" ? "all" : roomOf(relative(ROOT, path).replaceAll("\\", "/"));
    const before = rooms.get(room) ?? { lines: NONE, branches: NONE, files: 0 };
    rooms.set(room, {
      lines: sum(before.lines, lines),
      branches: sum(before.branches, branches),
      files: before.files + 1,
    });
  }
  console.log("room             files   lines  branches");
  for (const [room, { lines, branches, files }] of [...rooms].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const count = room === "all" ? "" : String(files);
    console.log(`${room.padEnd(16)} ${count.padStart(5)}  ${share(lines)}    ${share(branches)}`);
  }
}

const NONE: Count = { total: 0, covered: 0 };

/** Two folders deep: "src/harmony", "client/views", "server/store"; files beside them go by the first. */
function roomOf(path: string): string {
  const parts = path.split("/");
  return parts.slice(0, Math.min(2, parts.length - 1)).join("/");
}

function sum(a: Count, b: Count): Count {
  return { total: a.total + b.total, covered: a.covered + b.covered };
}

function share({ total, covered }: Count): string {
  return `${(total === 0 ? 100 : (100 * covered) / total).toFixed(0).padStart(3)} %`;
}
