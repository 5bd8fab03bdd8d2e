import { defineConfig } from "vite";

/** One script and one style sheet with its fonts inside, for a page that opens without a server. */
export default defineConfig({
  root: import.meta.dirname,
  logLevel: "error",
  build: {
    outDir: "../../dist/standalone",
    emptyOutDir: true,
    target: "es2022",
    // Of tonal the pages use the arithmetic of names; its dictionaries of chords and scales stay out.
    rolldownOptions: { treeshake: { moduleSideEffects: (id) => !/node_modules.(@tonaljs|tonal)./.test(id) } },
    assetsInlineLimit: Number.MAX_SAFE_INTEGER,
    cssCodeSplit: false,
    modulePreload: false,
    lib: {
      entry: `${import.meta.dirname}/main.ts`,
      formats: ["iife"],
      name: "ledgerline",
      fileName: () => "page.js",
      cssFileName: "page",
    },
  },
});
