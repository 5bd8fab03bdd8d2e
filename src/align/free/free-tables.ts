/**
 * Counted in pieces that people played with both hands, with known beats, and with chords that were read off what
 * sounds between them (`npm run report -- two-handed tables`). No piece can be read from them.
 */
import type { FreeTables } from "./free-model.ts";

export const FREE_TABLES: FreeTables = {
  beat: [-1.19, 1, 0.26, 0.22, 0.61, 0.28, 0, 0.17, 0.27],
  bar: [-0.95, 0.07, -0.09, 0.17, 0.18, -0.03, -0.17, 0.58, 0.28],
  beatOdds: -0.97,
  barOdds: -0.57,
  struck: -0.07,
  silent: -2.65,
  parts: [
    -0.49, -0.86, -0.82, -0.75, -0.36, 0.56, 0.42, 0.1, 0.03, -0.22, 0.02, 0.79, 0.74, -0.05, -0.11, 0.21,
    0.32, 0.67, 0.38, -0.34, -0.65, -1, -1.26, -2.7,
  ],
  roles: [0.85, 0.79, 0.88, 0.9, -0.7],
  lowRoles: [1.02, 0.67, 0.82, 0.7, -0.67],
  spread: 0.14,
};
