/** Programs and files outside npm that some tests need: where they are, and what is said when they are not. */
import { existsSync, readdirSync } from "node:fs";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";

export interface Needed {
  /** For a reader: "Chromium (or Chrome)". */
  readonly name: string;
  /** Path, or null when it is not on this machine. */
  readonly path: string | null;
  /** What is not tested without it, and how to get or name it. */
  readonly without: string;
}

/** The first of these programs that stands on the path of the shell, or at one of these places. */
function find(setting: string, names: readonly string[], places: readonly string[] = []): string | null {
  const given = process.env[setting];
  // A path that was given and is wrong is no reason to take another in silence.
  if (given) return existsSync(given) ? given : null;
  const folders = (process.env.PATH ?? "").split(delimiter).filter((folder) => folder !== "");
  const endings = process.platform === "win32" ? [".exe", ".cmd", ""] : [""];
  const onPath = names.flatMap((name) =>
    folders.flatMap((folder) => endings.map((ending) => join(folder, name + ending))),
  );
  return [...onPath, ...places].find((path) => existsSync(path)) ?? null;
}

export const CHROMIUM: Needed = {
  name: "Chromium or Chrome",
  path: find(
    "CHROMIUM",
    // The first has no window of its own, and does the same work in two thirds of the time.
    [
      "chromium-headless-shell",
      "chromium",
      "chromium-browser",
      "google-chrome",
      "google-chrome-stable",
      "chrome",
      "msedge",
    ],
    [
      "/Applications/Chromium.app/Contents/MacOS/Chromium",
      "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
      "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
      "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
    ],
  ),
  without: "the pages are not tried; set CHROMIUM to the path of one",
};

export const XMLLINT: Needed = {
  name: "xmllint",
  path: find("XMLLINT", ["xmllint"]),
  without:
    "what is written as MusicXML is not held against its schema; set XMLLINT, or install libxml2-utils",
};

/** Folder of the programs of a PostgreSQL server: Debian keeps them off the path. */
export const POSTGRES: Needed = {
  name: "PostgreSQL",
  path: postgresPrograms(),
  without:
    "the store is tried on the embedded database only; set POSTGRES to the folder of initdb and postgres",
};

const FOREIGN_FOLDER =
  process.env.LEDGERLINE_FOREIGN ??
  fileURLToPath(new URL("../node_modules/.cache/ledgerline-foreign", import.meta.url));

/** Music that others wrote, from Debian packages. */
const FOREIGN: readonly Needed[] = ["openttd-openmsx", "planetblupi-music-midi"].map((name) => ({
  name: `files of ${name}`,
  path: existsSync(join(FOREIGN_FOLDER, name)) ? join(FOREIGN_FOLDER, name) : null,
  without: "they are not read; tests/outside/fetch-foreign.sh fetches them",
}));

const NEEDED: readonly Needed[] = [CHROMIUM, XMLLINT, POSTGRES, ...FOREIGN];

/** What is not on this machine, a line each. */
export function missing(): string[] {
  return NEEDED.filter(({ path }) => path === null).map(
    ({ name, without }) => `No ${name} here: ${without}.`,
  );
}

function postgresPrograms(): string | null {
  const given = process.env.POSTGRES;
  if (given) return existsSync(join(given, "initdb")) ? given : null;
  const debian = "/usr/lib/postgresql";
  const versions = existsSync(debian) ? readdirSync(debian).sort((a, b) => Number(b) - Number(a)) : [];
  const onPath = (process.env.PATH ?? "").split(delimiter);
  const folders = [...versions.map((version) => join(debian, version, "bin")), ...onPath];
  return folders.find((folder) => folder !== "" && existsSync(join(folder, "initdb"))) ?? null;
}
