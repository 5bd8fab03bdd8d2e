/** How a program of this folder becomes JavaScript that runs by itself, beside the packages of production. */
import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { BuildOptions, Plugin } from "esbuild";
import { BUNDLED_FOR } from "./analysis/thread-file.ts";

const ROOT = fileURLToPath(new URL("..", import.meta.url));

/** Has to be loaded between two files of ours, so it is bundled with them. */
const WITHIN = "musicxml-interfaces";

/**
 * A file of ours still finds what lies beside its source: the corpus, the thread files, plain JavaScript. What a bundle
 * is to begin with is text, and left as it is.
 */
const asInSource: Plugin = {
  name: "as-in-source",
  setup({ onLoad }) {
    onLoad({ filter: /[\\/](server|src)[\\/].*\.ts$/ }, ({ path }) => {
      const text = readFileSync(path, "utf8");
      if (!text.includes("import.meta.url")) return undefined;
      const place = JSON.stringify(pathToFileURL(`/${relative(ROOT, path)}`).pathname.slice(1));
      const asked = /(?<!requireAt\()import\.meta\.url/g;
      const contents = text.replace(asked, () => `new URL(${place}, LEDGERLINE_ROOT).href`);
      return { contents, loader: "ts" };
    });
  },
};

/** @param names of programs, for a folder that lies two below the root */
export function programOptions(names: readonly string[]): BuildOptions & { readonly write?: boolean } {
  const { dependencies } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as {
    dependencies: Readonly<Record<string, string>>;
  };
  const installed = ["esbuild", ...Object.keys(dependencies).filter((name) => name !== WITHIN)];
  return {
    ...BUNDLED_FOR,
    entryPoints: names.map((name) => join(ROOT, "server", `${name}.ts`)),
    outExtension: { ".js": ".mjs" },
    external: installed.flatMap((name) => [name, `${name}/*`]),
    plugins: [asInSource],
    banner: { js: `${BUNDLED_FOR.banner.js} const LEDGERLINE_ROOT = new URL("../../", import.meta.url);` },
  };
}
