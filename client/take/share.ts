/** Read-only links to a take: make one, copy it, see which are in force, end them; and the take as one file. */
import type { MadeShare, ShareRow } from "../../server/contract/access.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { Shell } from "../shell/page.ts";
import { type Linked, STUDENT_LINKS, shareDrawing, TAKE_LINKS } from "./share-drawing.ts";
import { shareEnded, shareMade, shareRequest, sharesRead, UNSHARED } from "./share-model.ts";

export function sharePanel(takeId: string, shell: Shell): HTMLElement {
  const base = `/takes/${encodeURIComponent(takeId)}`;
  return linkPanel(base, { ...TAKE_LINKS, file: `/api${base}/page.html` }, shell);
}

/** Links by which a player opens their own page. */
export const studentLinks = (player: string, shell: Shell): HTMLElement =>
  linkPanel(`/players/${encodeURIComponent(player)}`, STUDENT_LINKS, shell);

/** @param base path below the API of what the links open */
function linkPanel(base: string, what: Linked, shell: Shell): HTMLElement {
  const panel = h("details", { class: "share-panel no-print" });
  const ways = {
    make: () => void attempt(make),
    end: (share: ShareRow) => void attempt(() => end(share)),
    copy: (field: HTMLInputElement) => void copy(field, shell),
  };
  const { state, change } = drawnFrom(panel, UNSHARED, (now, next) =>
    shareDrawing(now, what, { ...ways, change: next }),
  );
  panel.addEventListener("toggle", () => {
    if (panel.open) void attempt(refresh);
  });

  async function attempt(work: () => Promise<void>): Promise<void> {
    change((now) => ({ ...now, refused: null }));
    try {
      await work();
    } catch (error) {
      change((now) => ({ ...now, refused: error }));
    }
  }

  async function refresh(): Promise<void> {
    const { shares } = await fetchJson<{ shares: readonly ShareRow[] }>(`${base}/shares`);
    change((now) => sharesRead(now, shares));
  }

  async function make(): Promise<void> {
    const { path } = await fetchJson<MadeShare>(`${base}/shares`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(shareRequest(state())),
    });
    change((now) => shareMade(now, new URL(path, location.href).href));
    await refresh();
  }

  async function end({ id, name }: ShareRow): Promise<void> {
    await fetchJson(`${base}/shares/${encodeURIComponent(id)}`, { method: "DELETE" });
    change(shareEnded);
    await refresh();
    shell.notify(`The link “${name}” is ended: it opens nothing any more.`);
  }

  return panel;
}

async function copy(field: HTMLInputElement, shell: Shell): Promise<void> {
  field.select();
  try {
    await navigator.clipboard.writeText(field.value);
    shell.notify("The link is copied.");
  } catch {
    shell.notify("The link is marked: copy it with the keyboard.");
  }
}
