/** The layout around the pages: heading, navigation, notices, dropped files, single keys. */
import { ApiError, askAhead } from "./api.ts";
import { h } from "./dom.ts";
import { openKeysDialog, singleKeysOn } from "./keys-dialog.ts";
import type { Page, PageMaker, Shell } from "./page.ts";
import { refusalNote } from "./refusal-note.ts";
import { readTheme, setTheme, type Theme } from "./theme.ts";

export interface Route {
  /** "/takes/:id" */
  readonly path: string;
  readonly load: () => Promise<PageMaker>;
  /** Paths below the API of what the page reads first; they are asked for while its code is on the way. */
  readonly reads?: (parameters: readonly string[]) => readonly string[];
}

const NAVIGATION: readonly (readonly [string, string])[] = [
  ["/", "Takes"],
  ["/lesson", "Lesson"],
  ["/record", "Record"],
  ["/compare", "Compare"],
  ["/placements", "Placements"],
  ["/shapes", "Shapes"],
  ["/lenses", "Lenses"],
  ["/search", "Search"],
  ["/ideas", "Ideas"],
  ["/corpora", "Corpora"],
  ["/access", "Access"],
];

/** Builds the layout in `root` and shows the page that the address names. */
export function startShell(root: HTMLElement, routes: readonly Route[]): void {
  const { main, notice, nav } = layout(root);
  const letters = lettersReady();
  let page: Page | null = null;
  let shown = "";
  let dropped: File[] = [];
  let turn = 0;

  const shell: Shell = {
    go(path) {
      location.hash = path;
    },
    replaceQuery(query) {
      const path = shown;
      history.replaceState(history.state, "", `#${path}${query === "" ? "" : `?${query}`}`);
    },
    notify: noticeIn(notice),
    takeDropped() {
      const files = dropped;
      dropped = [];
      return files;
    },
  };

  const show = async () => {
    const [path = "/", queryText = ""] = (location.hash.slice(1) || "/").split("?");
    const query = new URLSearchParams(queryText);
    if (page && path === shown && dropped.length === 0) {
      page.query?.(query);
      return;
    }
    const own = ++turn;
    page?.end?.();
    page = null;
    shown = path;
    markCurrent(nav, path);
    main.setAttribute("aria-busy", "true");
    const waiting = setTimeout(() => {
      if (own === turn) main.replaceChildren(h("p", { class: "waiting", role: "status" }, "Reading …"));
    }, 250);
    let forget = () => {};
    try {
      const { route, parameters } = match(routes, path);
      forget = askAhead(route.reads?.(parameters) ?? []);
      const next = await (await route.load())(parameters, query, shell);
      await letters;
      if (own !== turn) {
        next.end?.();
        return;
      }
      page = next;
      document.title = `${next.title} – Ledgerline`;
      main.replaceChildren(next.element);
    } catch (error) {
      if (own !== turn) return;
      main.replaceChildren(notShown(error, nav, () => void show()));
    } finally {
      forget();
      clearTimeout(waiting);
      if (own === turn) main.removeAttribute("aria-busy");
    }
    returnToPlace();
  };

  window.addEventListener("hashchange", () => {
    const before = shown;
    void show().then(() => {
      if (shown !== before) main.focus({ preventScroll: true });
    });
  });
  onFileDrop(root, (files) => {
    dropped = files;
    if (location.hash.split("?")[0] === "#/" || location.hash === "") void show();
    else location.hash = "/";
  });
  onSingleKey((event) => page?.key?.(event));
  keepPlace(main);
  void show();
}

/** Why a page could not be shown, and the ways on: again, or to all takes, which a reader by a link does not have. */
const notShown = (error: unknown, nav: HTMLElement, again: () => void): HTMLElement =>
  h(
    "div",
    { class: "sheet" },
    h("h1", {}, "This page could not be shown"),
    refusalNote(error, again),
    nav.hidden ? null : h("p", {}, h("a", { href: "#/" }, "All takes")),
  );

/** Notes in the history how far down a page was left, so that Back and a reload lead there. */
function keepPlace(main: HTMLElement): void {
  history.scrollRestoration = "manual";
  window.addEventListener("scrollend", () => {
    // While the next page is on the way, what still stands may be cut short under the reader: nobody scrolled.
    if (main.getAttribute("aria-busy") === "true") return;
    history.replaceState({ ...history.state, y: window.scrollY }, "");
  });
}

/** To where the page was left; to its top when it is new. A picture makes room for itself only when it is drawn. */
function returnToPlace(): void {
  const y = Number(history.state?.y ?? 0);
  window.scrollTo(0, y);
  if (y > 0) requestAnimationFrame(() => requestAnimationFrame(() => window.scrollTo(0, y)));
}

/** Heading, room for the page, notices and foot, as elements of `root`. */
function layout(root: HTMLElement) {
  const main = h("main", { id: "main", tabindex: -1 });
  const notice = h("div", { class: "notice", role: "status", "aria-live": "polite" });
  const nav = h(
    "nav",
    { "aria-label": "Pages" },
    ...NAVIGATION.map(([path, name]) => h("a", { href: `#${path}`, "data-page": path }, name)),
  );
  const keys = h(
    "button",
    { type: "button", class: "quiet", "aria-label": "Keyboard commands", onClick: openKeysDialog },
    "?",
  );
  root.append(
    h(
      "header",
      { class: "layout-head" },
      h("a", { class: "mark", href: "#/" }, "Ledgerline"),
      nav,
      h("div", { class: "layout-tools" }, themeButton(), keys),
    ),
    main,
    notice,
    h("footer", { class: "layout-foot" }, ...FOOT.map((text) => h("p", {}, text))),
  );
  return { main, notice, nav };
}

const FOOT: readonly string[] = [
  "Fingering is inferred from the notes and never observed. Stop at pain, numbness or tingling, and ask a licensed clinician or an experienced teacher. Recordings of minors: follow your local rules.",
  "Piano sound: sampled grand by Alexander Holm, CC BY 3.0. Ledgerline is free software under AGPL-3.0-or-later.",
];

/** Milliseconds that a notice without a way back stays. */
const NOTICE_MS = 8000;

function noticeIn(notice: HTMLElement): Shell["notify"] {
  let quiet: ReturnType<typeof setTimeout> | undefined;
  return (text, undo) => {
    clearTimeout(quiet);
    const back = () => {
      notice.replaceChildren();
      undo?.run();
    };
    notice.replaceChildren(
      h("span", {}, text),
      ...(undo ? [h("button", { type: "button", onClick: back }, undo.label)] : []),
      h("button", { type: "button", "aria-label": "Dismiss", onClick: () => notice.replaceChildren() }, "×"),
    );
    // A notice that can be undone stays until it is used or replaced: nobody should have to hurry.
    if (!undo) quiet = setTimeout(() => notice.replaceChildren(), NOTICE_MS);
  };
}

/** Whoever was given a link has one take, or their own; the other pages are not theirs. */
function markCurrent(nav: HTMLElement, path: string): void {
  nav.hidden = /^\/(read|students)\//.test(path) || path === "/link-ended";
  for (const way of nav.querySelectorAll<HTMLAnchorElement>("a")) {
    const here = way.dataset.page === path || (way.dataset.page === "/" && path.startsWith("/takes"));
    if (here) way.setAttribute("aria-current", "page");
    else way.removeAttribute("aria-current");
  }
}

/** Milliseconds that a page waits for its letters, so that lines do not break anew before the reader's eyes. */
const LETTERS_MS = 500;

/** The fonts load beside the first page's own files, so that this hardly ever waits. */
function lettersReady(): Promise<unknown> {
  const fonts = ["600 1rem Literata", '1rem "Source Sans 3"'].map((font) => document.fonts.load(font));
  return Promise.race([
    Promise.all(fonts).catch(() => {}),
    new Promise((resolve) => setTimeout(resolve, LETTERS_MS)),
  ]);
}

function match(routes: readonly Route[], path: string): { route: Route; parameters: string[] } {
  const parts = path.split("/");
  for (const route of routes) {
    const wanted = route.path.split("/");
    if (wanted.length !== parts.length) continue;
    if (!wanted.every((part, i) => part.startsWith(":") || part === parts[i])) continue;
    return {
      route,
      parameters: parts.filter((_, i) => wanted[i]?.startsWith(":")).map(decodeURIComponent),
    };
  }
  throw new ApiError(
    {
      code: "no-such-page",
      detail: "There is no page at this address.",
      todo: "Look at how it is spelled, or go on from one of the pages above.",
    },
    404,
  );
}

function onFileDrop(root: HTMLElement, take: (files: File[]) => void): void {
  document.addEventListener("dragover", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    root.classList.add("dropping");
  });
  document.addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) root.classList.remove("dropping");
  });
  document.addEventListener("drop", (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    root.classList.remove("dropping");
    const files = [...event.dataTransfer.files];
    if (files.length > 0) take(files);
  });
}

/** Calls `press` with keys that are pressed alone, and not for a field, a button or a dialog. */
function onSingleKey(press: (event: KeyboardEvent) => void): void {
  document.addEventListener("keydown", (event) => {
    const target = event.target as HTMLElement;
    if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    if (target.closest("input, textarea, select, dialog")) return;
    if (event.key === " " && target.closest("button, a, summary, [tabindex='0']")) return;
    if (!singleKeysOn()) return;
    if (event.key === "?") openKeysDialog();
    else press(event);
  });
}

const NEXT: Readonly<Record<Theme, Theme>> = { system: "light", light: "dark", dark: "system" };
const WORD: Readonly<Record<Theme, string>> = {
  system: "Theme: system",
  light: "Theme: light",
  dark: "Theme: dark",
};

function themeButton(): HTMLButtonElement {
  const button = h("button", { type: "button", class: "quiet" }, WORD[readTheme()]);
  button.addEventListener("click", () => {
    const next = NEXT[readTheme()];
    setTheme(next);
    button.textContent = WORD[next];
  });
  return button;
}
