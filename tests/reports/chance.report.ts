/** `npm run report -- chance [SOLOS] [SEED]`: another name of `npm run report -- findings`. */
export { report } from "./findings.report.ts";
