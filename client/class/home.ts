/** The first page: drop a solo, and the takes that there are. */

import type { TakeRow } from "../../server/contract/takes.ts";
import { count, placeInWords, withAccidentals } from "../../src/words/index.ts";
import { thisBrowser } from "../offline/this-browser.ts";
import { unsentNotice } from "../record/unsent-notice.ts";
import { indexAccount } from "../shell/account-index.ts";
import { forms, players, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker, Shell } from "../shell/page.ts";
import { createSelection, NOTHING, selectionQuery } from "../shell/selection.ts";
import { day } from "../shell/words.ts";
import { chorusPage } from "../views/chorus-page.ts";
import { frameView } from "../views/frame.ts";
import { addTakes } from "./add-takes.ts";

export const home: PageMaker = async (_parameters, _query, shell) => {
  const [formRows, playerRows, rows] = await Promise.all([forms(), players(), takes.list()]);
  const list = h("div", { class: "take-list" });
  const show = (next: readonly TakeRow[]) => list.replaceChildren(takeTable(next, shell, refresh));
  const refresh = async () => show(await takes.list());
  const add = addTakes(formRows, playerRows, shell, () => void refresh());
  show(rows);
  const open = await openSolo(rows, shell);
  const dropped = shell.takeDropped();
  if (dropped.length > 0) add.add(dropped);
  return {
    title: "Takes",
    element: h(
      "div",
      { class: "home" },
      unsentNotice(),
      h(
        "section",
        { class: "sheet intro" },
        h(
          "div",
          {},
          h("h1", {}, "Every note of a solo, accounted for"),
          h(
            "p",
            { class: "lead" },
            "Give a piano solo and its chord chart. What comes back says of each note what it is against its chord, what it does in the line, which hand placement and finger played it, and which figure it belongs to.",
          ),
        ),
        add.element,
      ),
      open?.element ?? null,
      h("section", { class: "sheet" }, h("h2", {}, "Takes"), list),
      thisBrowser(),
    ),
    end: () => open?.end(),
  };
};

/** A solo that lies open on the desk: the newest take, or a demo one while there is no other. */
async function openSolo(
  rows: readonly TakeRow[],
  shell: Shell,
): Promise<{ element: HTMLElement; end(): void } | null> {
  const row = rows.find((one) => !one.demo) ?? rows.find((one) => one.tags.includes("strong")) ?? rows[0];
  if (!row) return null;
  const index = indexAccount(await takes.analysis(row.id));
  const store = createSelection(NOTHING, (selection) => {
    if (selection.kind !== "none") shell.go(`/takes/${row.id}?${selectionQuery(selection)}`);
  });
  const sentence = h("p", { class: "sentence open-sentence" }, "Point at a note to read what it is.");
  const unwatch = store.watch(() => {
    const note = store.hover === null ? undefined : index.note.get(store.hover);
    if (note)
      sentence.textContent = `${withAccidentals(note.spelling)}, ${placeInWords(note)}: ${note.account}`;
  });
  const { controls: _left, readings: _one, ...view } = chorusPage(store);
  const frame = frameView(view, index, store);
  const facts = [row.player, day(row.date), row.chartName].filter(Boolean).join(", ");
  return {
    element: h(
      "div",
      { class: "open-solo" },
      h(
        "p",
        { class: "open-head" },
        h("a", { href: `#/takes/${row.id}` }, row.title ?? "Untitled take"),
        h("span", { class: "faint" }, ` ${facts}`),
      ),
      frame.element,
      sentence,
    ),
    end() {
      frame.end();
      unwatch();
    },
  };
}

function takeTable(rows: readonly TakeRow[], shell: Shell, refresh: () => void): HTMLElement {
  if (rows.length === 0) {
    return h(
      "p",
      { class: "empty" },
      "There is no take yet. Drop a file above, or record one from a keyboard.",
    );
  }
  const players = new Map<string, TakeRow[]>();
  for (const row of rows) {
    const name = row.player ?? "Without a player";
    players.set(name, [...(players.get(name) ?? []), row]);
  }
  return h(
    "div",
    { class: "players" },
    ...[...players]
      .sort(([a], [b]) => a.localeCompare(b))
      .map(([name, own]) => {
        const id = own[0]?.playerId;
        return h(
          "section",
          { class: "player" },
          h(
            "h3",
            {},
            name,
            h("span", { class: "faint" }, ` ${count(own.length, "take")}`),
            id ? h("a", { class: "aside-link", href: `#/players/${id}` }, "Progress") : null,
          ),
          h(
            "ul",
            {},
            ...[...own]
              .sort((a, b) => (b.date ?? "").localeCompare(a.date ?? ""))
              .map((row) => takeLine(row, shell, refresh)),
          ),
        );
      }),
  );
}

function takeLine(row: TakeRow, shell: Shell, refresh: () => void): HTMLLIElement {
  const name = row.title ?? row.chartName ?? "Untitled take";
  const remove = async () => {
    await takes.remove(row.id);
    refresh();
    shell.notify(`“${name}” is deleted.`, {
      label: "Undo",
      run: () => void takes.restore(row.id).then(refresh),
    });
  };
  return h(
    "li",
    {},
    h("a", { class: "take-link", href: `#/takes/${row.id}` }, name),
    h(
      "span",
      { class: "take-facts" },
      [
        row.chartName,
        row.key ? withAccidentals(row.key) : null,
        count(row.choruses, "chorus", "choruses"),
        `${row.notes} notes`,
        row.method,
      ]
        .filter(Boolean)
        .join(" · "),
    ),
    h("span", { class: "take-date" }, day(row.date)),
    row.demo ? h("span", { class: "tag" }, "demo") : null,
    h(
      "button",
      { type: "button", class: "quiet", "aria-label": `Delete ${name}`, onClick: () => void remove() },
      "Delete",
    ),
  );
}
