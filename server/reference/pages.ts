/** The reference, made from what the program runs by: schemas, tables, rules, shapes, forms, lenses, settings. */
import { FORMS } from "../../src/chart/index.ts";
import { DEVICE_NAMES } from "../../src/devices/names.ts";
import { type JsonSchema, TABLE_NAMES, TABLES } from "../../src/export/index.ts";
import { RULES } from "../../src/findings/index.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/index.ts";
import { HARMONIC_ROLES, LINE_ROLES } from "../../src/harmony/roles.ts";
import { LENS_MEASURES, LENSES } from "../../src/lens/index.ts";
import { TAKE_COLUMNS } from "../corpus/take-columns.ts";
import { TAKE_TABLE } from "../corpus/take-table.ts";
import { ASKERS, openApi, operationId } from "../openapi.ts";
import type { Route } from "../route.ts";
import bundled from "./bundled.json" with { type: "json" };
import { columnMeaning } from "./columns.ts";
import { functionOf } from "./defined-by.ts";
import { GUIDES } from "./guides.ts";
import type { ReferencePage, Section } from "./page.ts";
import scanned from "./scanned.json" with { type: "json" };
import { partsOf, sectionOf } from "./schema-sections.ts";
import { FLAGS, SCRIPTS, SETTINGS } from "./settings.ts";

/** For words that are made up where a code is met. */
const AS_MET = "said in words, as it is met";

/** @param routes all routes below `/api` */
export function referencePages(routes: readonly Route[]): readonly ReferencePage[] {
  const { components } = openApi(routes) as { components: { schemas: Readonly<Record<string, JsonSchema>> } };
  const parts = components.schemas;
  const ofAccount = ["Account", ...partsOf(parts.Account, parts)];
  return [
    {
      id: "account",
      title: "The account",
      intro:
        "All that the analysis says of a take: one JSON value. Performed time is in seconds; chart position is in quarter-note beats from the first bar line; beats of the bar count from 1 in the meter's own unit; pitches are MIDI numbers; shares are from 0 to 1. The same schema is published at /api/account.schema.json.",
      sections: ofAccount.map((name) => sectionOf(name, parts[name]!, parts)),
    },
    {
      id: "api",
      title: "The API",
      intro:
        "Every route below /api, and the parts of its requests and answers that are not parts of the account. /api/openapi.json says the same to programs. Errors are application/problem+json.",
      sections: [
        ...operationSections(routes),
        ...Object.keys(parts)
          .filter((name) => !ofAccount.includes(name))
          .map((name) => sectionOf(name, parts[name]!, parts)),
      ],
    },
    {
      id: "tables",
      title: "Tables",
      intro:
        "Columns of the tables that takes and corpora are exported as: CSV, NDJSON and Parquet have the same. Tables of a corpus begin with the columns of the take. Lists are lists and dates are dates in NDJSON and Parquet; in CSV the items of a list are joined by spaces, in the table of takes (`/api/corpora/{id}/takes`) they stand as JSON. `/api/tables` gives all columns with their types and meanings. Parquet files hold the versions and the meaning of each column in their metadata.",
      sections: [
        columnSection("takes", "takes", TAKE_TABLE),
        columnSection("Of the take, in tables of a corpus", "take", TAKE_COLUMNS),
        ...TABLE_NAMES.map((name) => columnSection(name, name, TABLES[name].columns)),
      ],
    },
    {
      id: "codes",
      title: "Codes of problems and warnings",
      intro:
        "A problem stops the work, and says what, where and what to do; a warning says what was repaired, left out or decided by default. Words that are filled in stand as “…”.",
      sections: [
        {
          title: "Problems",
          columns: ["code", "what is wrong", "what to do"],
          rows: scanned.problems.map((one) => [one.code, one.message || AS_MET, one.mend || AS_MET]),
        },
        {
          title: "Warnings",
          columns: ["code", "what was met, and what was done"],
          rows: scanned.warnings.map((one) => [one.code, one.message || AS_MET]),
        },
      ],
    },
    findingsPage(),
    namesPage(),
    lensesPage(),
    ...[...GUIDES, noticesPage()],
    {
      id: "settings",
      title: "Settings and commands",
      intro: "What the environment decides, and how the programs are called.",
      sections: [
        {
          title: "Settings",
          intro: "Variables of the environment.",
          columns: ["variable", "meaning", "when not set"],
          rows: SETTINGS,
        },
        { title: "Commands", columns: ["command", "what it does"], rows: SCRIPTS },
        {
          title: "ledgerline analyse FILE...",
          intro:
            "Files are MIDI, MusicXML or recordings of a piano. A bad file gets a line on standard error, the others are done, and the exit code is then 1.",
          columns: ["flag", "meaning"],
          rows: FLAGS,
        },
      ],
    },
  ];
}

function operationSections(routes: readonly Route[]): Section[] {
  const groups = new Map<string, Route[]>();
  for (const route of routes) {
    const name = route.path.split("/")[1]!;
    groups.set(name, [...(groups.get(name) ?? []), route]);
  }
  return [...groups].map(([name, own]) => ({
    title: `/${name}`,
    columns: ["request", "name", "what it does", "who may ask"],
    rows: own.map((route) => [
      `${route.method.toUpperCase()} /api${route.path}`,
      operationId(route),
      route.summary,
      ASKERS[route.access],
    ]),
  }));
}

function columnSection(
  title: string,
  table: string,
  columns: readonly { readonly name: string; readonly type: string }[],
): Section {
  return {
    title,
    columns: ["column", "type", "meaning"],
    rows: columns.map(({ name, type }) => [name, type, columnMeaning(table, name)]),
  };
}

function findingsPage(): ReferencePage {
  const headings = [...new Set(RULES.map(({ heading }) => heading))];
  return {
    id: "findings",
    title: "Findings",
    intro:
      "What may be said of a take. Each is a rule with a measure and a limit; most are said only where chance made from the take itself seldom does as well.",
    sections: headings.map((heading) => ({
      title: heading,
      columns: ["id", "kind", "measure", "limit", "why there", "weighed against", "wording"],
      rows: RULES.filter((rule) => rule.heading === heading).map((rule) => [
        rule.id,
        rule.kind,
        `${rule.measure} (${rule.unit})`,
        String(rule.threshold),
        rule.reason,
        typeof rule.chance === "string" ? rule.chance : rule.chance.null,
        rule.wording[0]!,
      ]),
    })),
  };
}

function namesPage(): ReferencePage {
  const definitions: Readonly<Record<string, string>> = scanned.definitions;
  const defined = (name: string) => definitions[functionOf(name)] ?? "";
  return {
    id: "names",
    title: "Roles, devices, shapes and forms",
    intro: "The names that accounts use, and what each means.",
    sections: [
      {
        title: "Harmonic roles",
        intro: definitions.harmonicRoleOf ?? "",
        columns: ["role"],
        rows: HARMONIC_ROLES.map((role) => [role]),
      },
      {
        title: "Line roles",
        intro: "In order of precedence: the first that fits names the note.",
        columns: ["role", "definition"],
        rows: LINE_ROLES.map((role) => [role, defined(role)]),
      },
      {
        title: "Devices",
        columns: ["device", "definition"],
        rows: DEVICE_NAMES.map((name) => [name, defined(name)]),
      },
      {
        title: "Hand shapes",
        columns: ["shape", "fingers", "semitones above the first", "anchor finger", "anchor degrees"],
        rows: BUILT_IN_SHAPES.map((shape) => [
          shape.name,
          shape.fingers.join(" "),
          shape.semitones.join(" "),
          String(shape.anchorFinger),
          shape.anchorDegrees
            .map(({ degree, qualities }) => `${degree} on ${qualities.join(", ") || "all chords"}`)
            .join("; "),
        ]),
      },
      {
        title: "Forms",
        columns: ["form", "name", "bars", "what it is", "in C"],
        rows: FORMS.map((form) => [
          form.id,
          form.name,
          String(form.bars),
          form.description,
          (form.major ?? form.minor ?? "").replace(/\s+/g, " "),
        ]),
      },
    ],
  };
}

function noticesPage(): ReferencePage {
  return {
    id: "notices",
    title: "Notices",
    intro:
      "Ledgerline is free software under the GNU Affero General Public License, version 3 or later. Its own files carry these packages of others along, or serve them; what is installed beside it has its licence with it. The sampled piano is by Alexander Holm (CC BY 3.0).",
    sections: [
      {
        title: "Packages",
        columns: ["package", "version", "licence"],
        rows: bundled.map((one) => [one.name, one.version, one.licence]),
      },
      {
        title: "Their licences in full",
        columns: ["package", "text"],
        rows: bundled.map((one) => [
          one.name,
          one.text || `It carries no text of its own; ${one.licence} applies.`,
        ]),
      },
    ],
  };
}

function lensesPage(): ReferencePage {
  return {
    id: "lenses",
    title: "Lenses",
    intro: "What teacher and student work on, as data: a lens asks for one number of the account, or a few.",
    sections: [
      {
        title: "Built-in lenses",
        columns: ["lens", "name", "what it is about", "asks for"],
        rows: LENSES.map(({ id, name, about, asks }) => [
          id,
          name,
          about,
          asks
            .map(
              ({ measure, least, most }) =>
                `${measure} ${least === null ? `at most ${most}` : `at least ${least}`}`,
            )
            .join("; "),
        ]),
      },
      {
        title: "Numbers that a lens may ask for",
        columns: ["measure", "what is counted", "unit", "weighed against"],
        rows: LENS_MEASURES.map(({ id, name, unit, chance }) => [
          id,
          name,
          unit === "share" ? "share, 0 to 1" : unit,
          chance,
        ]),
      },
    ],
  };
}
