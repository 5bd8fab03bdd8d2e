/**
 * The sign of each harmonic role: its own shape and its own tone beside its hue, so that it survives print, a grey
 * copy and colour blindness. Guide tones are round or pointed and solid, tensions hollow, what lies outside a cross.
 */
import type { HarmonicRole } from "../../src/harmony/roles.ts";

export interface RoleMark {
  readonly role: HarmonicRole;
  /** Word for legends and tables. */
  readonly word: string;
  /** Path of radius about 1 around 0,0. */
  readonly path: string;
  /** Solid, or drawn as an outline. */
  readonly fill: "solid" | "hollow" | "half";
}

const round = (r: number) => `M${-r},0a${r},${r} 0 1,0 ${2 * r},0a${r},${r} 0 1,0 ${-2 * r},0Z`;

export const ROLE_MARKS: readonly RoleMark[] = [
  { role: "root", word: "root", path: "M-.92,-.92H.92V.92H-.92Z", fill: "solid" },
  { role: "third", word: "third", path: round(1.06), fill: "solid" },
  { role: "fifth", word: "fifth", path: "M-1.25,-.5H1.25V.5H-1.25Z", fill: "solid" },
  { role: "seventh", word: "seventh", path: "M0,-1.36L1.22,0L0,1.36L-1.22,0Z", fill: "solid" },
  { role: "tension", word: "tension", path: round(0.98), fill: "hollow" },
  // An outline whose lower half is filled.
  { role: "blue", word: "blue note", path: `${round(0.98)}M-.98,0a.98,.98 0 0,0 1.96,0Z`, fill: "half" },
  { role: "avoid", word: "avoid note", path: "M-1.15,-.9H1.15L0,1.12Z", fill: "hollow" },
  { role: "outside", word: "outside", path: "M-.95,-.95L.95,.95M.95,-.95L-.95,.95", fill: "hollow" },
];

const BY_ROLE = new Map(ROLE_MARKS.map((mark) => [mark.role, mark]));

/** The sign of a role; `outside`'s for a note that has none. */
export const roleMark = (role: HarmonicRole | null): RoleMark => BY_ROLE.get(role ?? "outside")!;

/** Class names that give a sign its colours. */
export const roleClass = (role: HarmonicRole | null): string =>
  `sign role-${role ?? "none"} ${roleMark(role).fill}`;

/** The path of a sign with `r` pixels of radius at (x, y), ready for `d`. Arcs, lines and closings only. */
export function signPath(mark: RoleMark, r: number): string {
  return scaled(mark.path, r);
}

const ring = round(0.98);
/** What a sign becomes on a staff, where filling tells the length: as a short note, and from a half note on. */
const ON_STAFF: Readonly<Partial<Record<HarmonicRole, { readonly short: string; readonly long: string }>>> = {
  tension: { short: `${ring}${round(0.34)}`, long: ring },
  blue: { short: `${ring}M-.98,0a.98,.98 0 0,0 1.96,0Z`, long: `${ring}M-.98,0H.98` },
};

/**
 * The sign as a notehead of `r` units around 0,0: filled for notes shorter than a half note, else an outline. A tension's
 * ring has a dot while it is short; what lies outside is a cross at any length.
 */
export function staffSign(
  role: HarmonicRole | null,
  long: boolean,
  r: number,
): { d: string; filled: boolean } {
  const own = role === null ? undefined : ON_STAFF[role];
  if (own !== undefined)
    return { d: scaled(long ? own.long : own.short, r), filled: role === "blue" && !long };
  return { d: signPath(roleMark(role), r), filled: !long && role !== "outside" && role !== null };
}

const memo = new Map<string, string>();

function scaled(path: string, r: number): string {
  const key = `${r}:${path}`;
  const known = memo.get(key);
  if (known) return known;
  const result = path.replace(/([a-zA-Z])([^a-zA-Z]*)/g, (_all, letter: string, rest: string) => {
    const numbers = rest.match(/-?[\d.]+/g)?.map(Number) ?? [];
    const scale = letter === "a" || letter === "A" ? (i: number) => [0, 1, 5, 6].includes(i % 7) : () => true;
    return letter + numbers.map((n, i) => (scale(i) ? Number((n * r).toFixed(3)) : n)).join(",");
  });
  memo.set(key, result);
  return result;
}
