/** Where the pages start: the ways, the kept theme, and the worker that lets them open without a network. */
import { startKeeping } from "./findings/not-kept-bar.ts";
import { type Route, startShell } from "./shell/shell.ts";
import { readTheme, setTheme } from "./shell/theme.ts";

/** What the page of a take reads first: asked for at once, the account of a long solo comes while the page's code does. */
function ofTake([id = ""]: readonly string[]): string[] {
  const take = `/takes/${encodeURIComponent(id)}`;
  return [take, `${take}/analysis`, `${take}/feedback`];
}

const ROUTES: readonly Route[] = [
  { path: "/", load: async () => (await import("./class/home.ts")).home },
  { path: "/takes/:id", load: async () => (await import("./take/take.ts")).takePage, reads: ofTake },
  {
    path: "/takes/:id/findings",
    load: async () => (await import("./findings/findings.ts")).findingsPage,
    reads: ofTake,
  },
  { path: "/read/:id", load: async () => (await import("./take/shared-take.ts")).readPage },
  { path: "/link-ended", load: async () => (await import("./take/link-ended.ts")).linkEndedPage },
  { path: "/compare", load: async () => (await import("./compare/compare.ts")).comparePage },
  { path: "/shapes", load: async () => (await import("./shapes/shapes.ts")).shapesPage },
  { path: "/lenses", load: async () => (await import("./lenses/lenses.ts")).lensesPage },
  { path: "/players/:id/report", load: async () => (await import("./player/term-report.ts")).termReportPage },
  { path: "/players/:id", load: async () => (await import("./player/progress.ts")).progressPage },
  { path: "/takes/:id/practice", load: async () => (await import("./practice/practice.ts")).practicePage },
  { path: "/lesson", load: async () => (await import("./lesson/prepare-lesson.ts")).prepareLessonPage },
  { path: "/students/:id", load: async () => (await import("./student/student.ts")).studentPage },
  {
    path: "/students/:id/takes/:take",
    load: async () => (await import("./student/own-take.ts")).ownTakePage,
  },
  {
    path: "/students/:id/takes/:take/practice",
    load: async () => (await import("./practice/practice.ts")).ownPracticePage,
  },
  {
    path: "/students/:id/lessons/:lesson",
    load: async () => (await import("./lesson/handed-lesson.ts")).ownLessonPage,
  },
  {
    path: "/players/:id/lessons/:lesson",
    load: async () => (await import("./lesson/handed-lesson.ts")).handedLessonPage,
  },
  { path: "/placements", load: async () => (await import("./shapes/placement-map.ts")).placementMapPage },
  { path: "/record", load: async () => (await import("./record/record.ts")).recordPage },
  { path: "/search", load: async () => (await import("./search/search.ts")).searchPage },
  { path: "/ideas", load: async () => (await import("./search/ideas.ts")).ideasPage },
  { path: "/corpora", load: async () => (await import("./corpus/corpora.ts")).corporaPage },
  { path: "/access", load: async () => (await import("./access/access.ts")).accessPage },
  { path: "/audit", load: async () => (await import("./access/audit.ts")).auditPage },
  { path: "/corpora/:id", load: async () => (await import("./corpus/corpus.ts")).corpusPage },
];

// A link that has ended opens the pages at its own address; what is said of it stands at one of ours.
if (location.pathname.startsWith("/shared/")) history.replaceState(null, "", "/#/link-ended");
setTheme(readTheme());
startShell(document.querySelector<HTMLElement>("#app")!, ROUTES);
startKeeping(document.querySelector<HTMLElement>("main")!);

if ("serviceWorker" in navigator && import.meta.env.PROD) {
  window.addEventListener("load", () => {
    // Without it the pages still work; they only need the network.
    navigator.serviceWorker.register("/sw.js").catch(() => {});
  });
}
