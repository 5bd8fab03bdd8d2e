export * from "./choruses.ts";
export * from "./quantile.ts";
export * from "./register.ts";
export * from "./rests.ts";
export * from "./shares.ts";
