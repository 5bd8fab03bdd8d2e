export const RESOLVING = new Set([
  "approach",
  "enclosure",
  "passing",
  "neighbour",
  "anticipation",
  "appoggiatura",
]);
