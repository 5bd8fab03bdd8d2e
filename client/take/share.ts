/** Read-only links to a take: make one, copy it, see which are in force, end them; and the take as one file. */
import type { MadeShare, ShareRow } from "../../server/contract/access.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { day } from "../shell/words.ts";

const MONTH = 31;
/** How long a link may be in force, in days; a month for a start, which holds until a few lessons on. */
const LENGTHS: readonly (readonly [days: number | null, words: string])[] = [
  [7, "for a week"],
  [MONTH, "for a month"],
  [120, "for a term"],
  [null, "until I end it"],
];

export function sharePanel(takeId: string, shell: Shell): HTMLElement {
  const base = `/takes/${encodeURIComponent(takeId)}`;
  const list = h("ul", { class: "shares", "aria-label": "Links in force" });
  const made = h("div", { class: "share-made", "aria-live": "polite" });
  const trouble = h("div", {});
  const name = h("input", { name: "share-name", autocomplete: "off", placeholder: "For whom" });
  const length = h(
    "select",
    { name: "share-length", "aria-label": "How long the link is in force" },
    ...LENGTHS.map(([days, words]) =>
      h("option", { value: String(days ?? ""), selected: days === MONTH }, words),
    ),
  );

  const attempt = async (work: () => Promise<void>) => {
    trouble.replaceChildren();
    try {
      await work();
    } catch (error) {
      trouble.replaceChildren(refusalNote(error));
    }
  };
  const refresh = async () => {
    const { shares } = await fetchJson<{ shares: readonly ShareRow[] }>(`${base}/shares`);
    list.replaceChildren(
      ...(shares.length === 0
        ? [h("li", { class: "empty" }, "No link is in force.")]
        : shares.map((share) =>
            h(
              "li",
              { "data-share": share.id },
              h("span", {}, share.name),
              h(
                "span",
                { class: "faint" },
                ` since ${day(share.createdAt)}${share.expiresAt === null ? "" : `, until ${day(share.expiresAt)}`} `,
              ),
              h(
                "button",
                {
                  type: "button",
                  class: "quiet",
                  "aria-label": `End the link ${share.name}`,
                  onClick: () =>
                    void attempt(async () => {
                      await fetchJson(`${base}/shares/${encodeURIComponent(share.id)}`, { method: "DELETE" });
                      made.replaceChildren();
                      await refresh();
                      shell.notify(`The link “${share.name}” is ended: it opens nothing any more.`);
                    }),
                },
                "End the link",
              ),
            ),
          )),
    );
  };
  const form = h(
    "form",
    { class: "row" },
    h("label", {}, "A link for", name),
    length,
    h("button", { type: "submit" }, "Make a link"),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void attempt(async () => {
      const answer = await fetchJson<MadeShare>(`${base}/shares`, {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({
          ...(name.value.trim() === "" ? {} : { name: name.value.trim() }),
          days: length.value === "" ? null : Number(length.value),
        }),
      });
      name.value = "";
      made.replaceChildren(freshLink(new URL(answer.path, location.href).href, shell));
      await refresh();
    });
  });

  const panel = h(
    "details",
    { class: "share-panel no-print" },
    h("summary", {}, "Share"),
    h(
      "div",
      { class: "share-body" },
      h(
        "p",
        { class: "hint" },
        "Who has a link reads this take without signing in: its notes and pictures, the findings with the teacher's remarks and the player's own view, the exercises, the recording itself, and the names of take and player. Nothing can be changed through it, and no other take is seen. It ends after the time that you choose, or when you end it. Where the player is a minor, ask first as your local rules for recordings of minors require, and leave the full name off.",
      ),
      form,
      made,
      list,
      h(
        "p",
        {},
        h("a", { class: "button", href: `/api${base}/page.html`, download: true }, "Save as one file"),
        h(
          "span",
          { class: "hint" },
          " Opens anywhere without a network. It cannot be taken back once it is passed on.",
        ),
      ),
      trouble,
    ),
  );
  panel.addEventListener("toggle", () => {
    if (panel.open) void attempt(refresh);
  });
  return panel;
}

/** The address itself is shown this once; afterwards only that there is a link. */
function freshLink(address: string, shell: Shell): HTMLElement {
  const field = h("input", {
    class: "share-address",
    readonly: true,
    value: address,
    "aria-label": "The link",
  });
  const here = ["127.0.0.1", "localhost", "[::1]"].includes(location.hostname);
  return h(
    "div",
    {},
    h(
      "div",
      { class: "row" },
      field,
      h(
        "button",
        {
          type: "button",
          onClick: async () => {
            field.select();
            try {
              await navigator.clipboard.writeText(address);
              shell.notify("The link is copied.");
            } catch {
              shell.notify("The link is marked: copy it with the keyboard.");
            }
          },
        },
        "Copy",
      ),
    ),
    h(
      "p",
      { class: "hint" },
      here
        ? "The address is shown this once. This service answers on this machine only, so the link opens here; for somebody elsewhere, save the take as one file."
        : "The address is shown this once: copy it now.",
    ),
  );
}
