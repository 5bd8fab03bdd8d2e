export * from "./find-devices.ts";
export * from "./names.ts";
