/** The page of the audit: reads it a page at a time, by what is chosen. */
import type { AuditEntry } from "../../server/contract/audit.ts";
import { fetchJson, players } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { PageMaker } from "../shell/page.ts";
import { tokens } from "./access-api.ts";
import { auditDrawing } from "./audit-drawing.ts";
import { type AuditChoice, auditQuery, choose, openedAt, pageRead } from "./audit-model.ts";

export const auditPage: PageMaker = async (_parameters, query, shell) => {
  const rows = await tokens.list();
  const host = h("div", { class: "stack access-page" });
  const first = openedAt(query, { players: await players(), tokens: rows });
  let turn = 0;
  const { state, change } = drawnFrom(host, first, (now, next) =>
    auditDrawing(now, {
      change: next,
      choose: chosen,
      more: () => void read(),
    }),
  );

  /** Reads on from where the page ends. */
  async function read(): Promise<void> {
    const own = ++turn;
    const { next } = state();
    const asked = new URLSearchParams(auditQuery(state()));
    if (next !== null) asked.set("after", next);
    change((now) => ({ ...now, reading: true }));
    try {
      const page = await fetchJson<{ entries: readonly AuditEntry[]; next: string | null }>(
        `/audit?${asked}`,
      );
      // Another choice may have been made meanwhile.
      if (own === turn) change((now) => pageRead(now, page));
    } catch (error) {
      if (own === turn) change((now) => ({ ...now, reading: false, refused: error }));
    }
  }

  function chosen(part: Partial<AuditChoice>): void {
    change((now) => choose(now, part));
    shell.replaceQuery(auditQuery(state()));
    void read();
  }

  await read();
  return { title: "Who read and wrote what", element: host };
};
