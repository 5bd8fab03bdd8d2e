/**
 * Creates an embedded store in a folder and ends. A process of its own, because making the first tables of a store
 * takes several times the memory of working with it, and this memory is not given back.
 */
import { PGlite } from "@electric-sql/pglite";

const store = new PGlite(process.argv[2]);
await store.waitReady;
await store.close();
