import { readFileSync } from "node:fs";
import { build, defineConfig, type Plugin } from "vite";
import standaloneConfig from "./standalone/vite.config.ts";

/** Writes the service worker with the list of files that the pages need, so that they open without a network. */
function offline(): Plugin {
  return {
    name: "ledgerline-offline",
    apply: "build",
    generateBundle(_options, bundle) {
      const files = Object.keys(bundle).filter((name) => !/engraver|\.map$/.test(name));
      const template = readFileSync(new URL("./offline/worker.js", import.meta.url), "utf8");
      this.emitFile({
        type: "asset",
        fileName: "sw.js",
        source: filled(template, files),
      });
    },
  };
}

/** Builds the script and styles of the page in one file along with the others. */
function standalone(): Plugin {
  return {
    name: "ledgerline-standalone",
    apply: "build",
    async closeBundle() {
      await build({ ...standaloneConfig, configFile: false });
    },
  };
}

function filled(template: string, files: readonly string[]): string {
  const place = /\[\s*\/\* files \*\/\s*\]/;
  if (!place.test(template)) throw new Error("offline/worker.js has no place for the list of files");
  return template.replace(place, JSON.stringify(files.map((name) => `/${name}`)));
}

export default defineConfig({
  root: import.meta.dirname,
  plugins: [offline(), standalone()],
  build: {
    outDir: "../dist/client",
    emptyOutDir: true,
    target: "es2022",
    rolldownOptions: {
      // Of tonal the pages use the arithmetic of names; its dictionaries of chords and scales stay out.
      treeshake: { moduleSideEffects: (id) => !/node_modules.(@tonaljs|tonal)./.test(id) },
      // What three pages or more use comes as one file: a page is read in few requests, not in fifty.
      output: {
        codeSplitting: {
          groups: [{ name: "shared", test: /client|src|d3|lit-html|tonal/, minShareCount: 3 }],
        },
      },
    },
    // The content security policy allows no data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 9000,
  },
});
