#!/usr/bin/env node
/** The command line of an installed package: `ledgerline analyse FILE...`. */
process.argv.splice(2, 0, "cli");
await import("./run.js");
