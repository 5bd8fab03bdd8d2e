/** The page of tokens and links: reads them, sends what is made, changed and ended. */
import { players } from "../shell/api.ts";
import { corpora } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { PageMaker } from "../shell/page.ts";
import { reachesOf, tokens } from "./access-api.ts";
import { accessDrawing } from "./access-drawing.ts";
import { made, opened, reachRequest, readAgain, settled, tokenRequest } from "./access-model.ts";

export const accessPage: PageMaker = async (_parameters, query, shell) => {
  // Tokens first: whoever may not read them gets to know that, and nothing else.
  const rows = await tokens.list();
  const [all, kept] = await Promise.all([players(), corpora.list()]);
  const host = h("div", { class: "stack access-page" });
  const first = opened({ tokens: rows, players: all, corpora: kept });
  const { state, change } = drawnFrom(host, first, (now, next) =>
    accessDrawing(now, new Date().toISOString(), {
      change: next,
      make: () => void attempt(make),
      keep: () => void attempt(keep),
      end: ({ id, name }) =>
        void attempt(() => gone(tokens.end(id), `“${name}” is ended: it opens nothing any more.`)),
      forget: ({ id, name }) => void attempt(() => gone(tokens.forget(id), `“${name}” is forgotten.`)),
      copy: (field) => void copy(field),
      look: (player) => void attempt(() => look(player)),
    }),
  );

  async function attempt(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      change((now) => ({ ...now, refused: error }));
    }
  }

  async function refresh(): Promise<void> {
    const read = await tokens.list();
    change((now) => readAgain(now, read));
    const { seen } = state();
    if (seen !== null) await look(seen.player);
  }

  async function make(): Promise<void> {
    const { token } = await tokens.make(tokenRequest(state()));
    change((now) => made(now, token));
    await refresh();
  }

  async function keep(): Promise<void> {
    const { changing } = state();
    if (changing === null) return;
    const { name } = await tokens.change(changing.id, reachRequest(changing));
    change(settled);
    await refresh();
    shell.notify(`What “${name}” reaches is changed, from the next request on.`);
  }

  async function gone(sent: Promise<unknown>, words: string): Promise<void> {
    await sent;
    change(settled);
    await refresh();
    shell.notify(words);
  }

  async function look(player: string): Promise<void> {
    const seen = player === "" ? null : { player, reaches: await reachesOf(player) };
    change((now) => ({ ...now, seen }));
  }

  async function copy(field: HTMLInputElement): Promise<void> {
    field.select();
    try {
      await navigator.clipboard.writeText(field.value);
      shell.notify("The token is copied.");
    } catch {
      shell.notify("The token is marked: copy it with the keyboard.");
    }
  }

  const asked = query.get("player");
  if (asked !== null && all.some(({ id }) => id === asked)) await attempt(() => look(asked));
  return { title: "Who may see what", element: host };
};
