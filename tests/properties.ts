/**
 * Runs before each file of tests: properties are tried on the same inputs everywhere, so that what is red on one
 * machine is red on all. `PROPERTY_SEED=N` tries others; what fails there becomes an example of its own.
 */
import fc from "fast-check";

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: Number(process.env.PROPERTY_SEED ?? 1) });
