/** A page of the reference as data, and the two ways in which it is written: for the repository, and as the program serves it. */

export interface Section {
  readonly title: string;
  readonly intro?: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export interface ReferencePage {
  /** File and address: "account" is `account.md` and `/reference/account`. */
  readonly id: string;
  readonly title: string;
  readonly intro: string;
  readonly sections: readonly Section[];
}

/** What every page begins with in the repository. */
const MADE = "<!-- Made by `npm run reference` from the schemas and the sources. -->";

export function markdownOf({ title, intro, sections }: ReferencePage): string {
  const parts = sections.map((section) => {
    const rows = section.rows.map((row) => `| ${row.map(markdownCell).join(" | ")} |`);
    const head = [
      `| ${section.columns.join(" | ")} |`,
      `| ${section.columns.map(() => "---").join(" | ")} |`,
    ];
    return [`## ${section.title}`, section.intro ?? "", [...head, ...rows].join("\n")]
      .filter(Boolean)
      .join("\n\n");
  });
  return `${[MADE, `# ${title}`, intro, ...parts].join("\n\n")}\n`;
}

function markdownCell(text: string): string {
  return text.replace(/([\\|<>*_])/g, "\\$1").replace(/\s*\n\s*/g, " ");
}

/** The page as HTML, with ways to all others. */
export function htmlOf(page: ReferencePage, all: readonly ReferencePage[]): string {
  const links = all.map(({ id, title }) =>
    id === page.id
      ? `<li aria-current="page">${escaped(title)}</li>`
      : `<li><a href="/reference/${id}">${escaped(title)}</a></li>`,
  );
  const inside = page.sections.map(
    ({ title, id = anchorOf(title), ...section }: Section & { id?: string }) => {
      const head = section.columns.map((name) => `<th scope="col">${escaped(name)}</th>`).join("");
      const rows = section.rows.map(
        (row) => `<tr>${row.map((cell) => `<td>${escaped(cell)}</td>`).join("")}</tr>`,
      );
      const intro = section.intro === undefined ? "" : `<p>${escaped(section.intro)}</p>`;
      return `<section id="${id}"><h2>${escaped(title)}</h2>${intro}<div class="wide"><table><thead><tr>${head}</tr></thead><tbody>${rows.join("\n")}</tbody></table></div></section>`;
    },
  );
  return `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>${escaped(page.title)}: Ledgerline reference</title><link rel="stylesheet" href="/reference/reference.css"></head>
<body><nav aria-label="Reference"><a href="/">Ledgerline</a><ul>${links.join("")}</ul></nav>
<main><h1>${escaped(page.title)}</h1><p>${escaped(page.intro)}</p>
${inside.join("\n")}
</main></body>
</html>
`;
}

export const REFERENCE_STYLES = `:root { color-scheme: light dark; }
body { margin: 0 auto; max-width: 76rem; padding: 1rem; font: 1rem/1.5 Georgia, serif; color: #2b2620; background: #fbf7ef; }
nav ul { display: flex; flex-wrap: wrap; gap: 0.3rem 1rem; padding: 0; list-style: none; }
a { color: #7a3b12; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: 0.3rem 0.8rem 0.3rem 0; border-bottom: 1px solid #d8cdbb; }
td:first-child { font-family: ui-monospace, monospace; font-size: 0.9em; }
@media (prefers-color-scheme: dark) { body { color: #ece4d6; background: #1f1b16; } a { color: #e3a36f; } th, td { border-color: #4a4238; } }
`;

function anchorOf(title: string): string {
  return title.toLowerCase().replace(/[^a-z0-9]+/g, "-");
}

function escaped(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}
