#!/usr/bin/env node
/** The command line of an installed package: `ledgerline analyse FILE...`. */
// Where npm was called from tells nothing here: names of files are meant from the folder that this runs in.
delete process.env.INIT_CWD;
process.argv.splice(2, 0, "cli");
await import("./run.js");
