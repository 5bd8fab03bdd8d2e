import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { ROLE_MARKS } from "../../client/draw/role-marks.ts";

const CSS = readFileSync(join(import.meta.dirname, "../../client/styles/tokens.css"), "utf8");

type Rgb = readonly [number, number, number];

/** The custom properties of the block that starts with `selector`. */
function tokens(selector: string): Map<string, Rgb> {
  const from = CSS.indexOf(`${selector} {`);
  const block = CSS.slice(from, CSS.indexOf("}", from));
  return new Map(
    [...block.matchAll(/--([a-z-]+):\s*#([0-9a-f]{6})/g)].map(([, name, hex]) => [
      name!,
      [0, 2, 4].map((i) => Number.parseInt(hex!.slice(i, i + 2), 16)) as unknown as Rgb,
    ]),
  );
}

const linear = (value: number): number => {
  const c = value / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
};

/** Relative luminance and contrast ratio: WCAG 2.2, definitions in section 6. */
const luminance = ([r, g, b]: Rgb) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
const contrast = (a: Rgb, b: Rgb): number => {
  const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (high + 0.05) / (low + 0.05);
};

/** Full dichromacy in linear RGB: Machado, Oliveira & Fernandes 2009, severity 1.0 [memory]. */
const DICHROMATS: Readonly<Record<string, readonly Rgb[]>> = {
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

/** CIE L*a*b* (D65) of linear RGB, and the CIE 1976 colour difference. */
function lab(rgb: Rgb): Rgb {
  const [r, g, b] = rgb;
  const f = (t: number) => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const seenBy = (kind: string, colour: Rgb): Rgb => {
  const light = colour.map(linear);
  return DICHROMATS[kind]!.map((row) =>
    Math.min(
      1,
      Math.max(
        0,
        row.reduce((sum, factor, i) => sum + factor * light[i]!, 0),
      ),
    ),
  ) as unknown as Rgb;
};

const difference = (a: Rgb, b: Rgb) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

for (const [name, selector] of [
  ["light", ":root"],
  ["dark", ':root[data-theme="dark"]'],
] as const) {
  describe(`the ${name} palette`, () => {
    const palette = tokens(selector);
    const colour = (token: string) => palette.get(token)!;

    test("was measured right: black on white is 21:1 (WCAG 2.2)", () => {
      expect(contrast([0, 0, 0], [255, 255, 255])).toBeCloseTo(21, 6);
    });

    test("gives words 4.5:1 on every ground (WCAG 2.2, 1.4.3)", () => {
      for (const ground of ["paper", "sheet", "field", "accent-wash"]) {
        for (const ink of ["ink", "ink-soft", "accent"]) {
          expect(contrast(colour(ink), colour(ground)), `${ink} on ${ground}`).toBeGreaterThanOrEqual(4.5);
        }
      }
    });

    test("gives the sign of every role 3:1 on its field (WCAG 2.2, 1.4.11)", () => {
      for (const { role } of ROLE_MARKS) {
        for (const ground of ["sheet", "field", "accent-wash"]) {
          expect(
            contrast(colour(`role-${role}`), colour(ground)),
            `${role} on ${ground}`,
          ).toBeGreaterThanOrEqual(3);
        }
      }
    });

    // A difference of about 2.3 is just noticeable (Mahy et al. 1994) [memory]; small signs get four times that.
    test("keeps solid signs apart for protan, deutan and tritan readers by colour too", () => {
      const solid = ROLE_MARKS.filter((mark) => mark.fill === "solid");
      for (const kind of Object.keys(DICHROMATS)) {
        for (const [i, a] of solid.entries()) {
          for (const b of solid.slice(i + 1)) {
            const apart = difference(
              lab(seenBy(kind, colour(`role-${a.role}`))),
              lab(seenBy(kind, colour(`role-${b.role}`))),
            );
            expect(apart, `${a.role} and ${b.role}, ${kind}`).toBeGreaterThan(9.2);
          }
        }
      }
    });
  });
}

test("no two roles share a shape, so that a grey copy still tells them apart", () => {
  expect(new Set(ROLE_MARKS.map((mark) => `${mark.fill} ${mark.path}`)).size).toBe(ROLE_MARKS.length);
});

test("both ways into the dark have the same colours", () => {
  const media = tokens(':root:not([data-theme="light"])');
  expect([...media]).toEqual([...tokens(':root[data-theme="dark"]')]);
});
