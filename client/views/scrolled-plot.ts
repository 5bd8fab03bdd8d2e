/** The frame of a picture that is too tall for the page: it scrolls in itself and goes to what is chosen, lit and played. */
import type { StoreChange } from "../shell/selection.ts";
import { isSeen, leading, nearest, type Seen } from "./scroll-places.ts";
import type { Drawing, Marked, Scrolled, Span } from "./view.ts";

export interface ScrolledPlot {
  /** Shows a new drawing, at the place that was looked at; one that fits the page needs no frame. */
  set(drawing: Drawing): void;
  /** Goes to what is marked now, where it is not seen. */
  follow(marked: Marked, change: Exclude<StoreChange, "reading" | "hover">): void;
  end(): void;
}

export function scrolledPlot(plot: HTMLElement): ScrolledPlot {
  let scrolled: Scrolled | null = null;
  /** Where the picture stood before something was lit, and where that put it. */
  let away: { readonly from: number; readonly to: number } | null = null;
  let played: Span | null = null;
  const seen = (): Seen => ({
    top: plot.scrollTop,
    height: plot.clientHeight,
    covered: scrolled?.headHeight ?? 0,
  });
  const show = () => scrolled?.show(plot.scrollTop, plot.scrollTop + plot.clientHeight);
  const go = (top: number) => {
    plot.scrollTop = top;
    show();
  };
  const rowsOf = (ids: Iterable<string>): Span[] => {
    const rows = new Map<number, Span>();
    for (const id of ids) {
      const row = scrolled?.rowOf(id);
      if (row) rows.set(row.top, row);
    }
    return [...rows.values()];
  };
  /** @returns the first of the rows, where none of them is seen */
  const missed = (ids: Iterable<string>): Span | null => {
    const rows = rowsOf(ids);
    return rows.some((row) => isSeen(row, seen())) ? null : (rows[0] ?? null);
  };
  const light = (marked: Marked, on: boolean) => {
    if (!on) {
      if (away !== null && Math.abs(plot.scrollTop - away.to) < 2) go(away.from);
      away = null;
      return;
    }
    const row = missed(marked.notes ?? []);
    if (row === null) return;
    const from = away?.from ?? plot.scrollTop;
    go(leading(row, seen()));
    away = { from, to: plot.scrollTop };
  };
  const play = (note: string | null) => {
    const row = note === null ? null : (scrolled?.rowOf(note) ?? null);
    // Who scrolled elsewhere while it plays is left there.
    const stays = played !== null && !isSeen(played, seen());
    played = row;
    if (row !== null && !stays && !isSeen(row, seen())) go(leading(row, seen()));
  };
  plot.addEventListener("scroll", show, { passive: true });
  return {
    set(drawing) {
      const top = plot.scrollTop;
      scrolled = drawing.scrolled ?? null;
      plot.classList.toggle("long", scrolled !== null);
      plot.replaceChildren(...(scrolled ? [scrolled.head] : []), drawing.svg);
      if (scrolled) go(top);
    },
    follow(marked, change) {
      if (scrolled === null) return;
      if (change === "playing") play(marked.playing);
      else if (change === "lit") light(marked, marked.lit);
      else {
        const row = missed(marked.notes ?? []);
        if (row) go(nearest(row, seen()));
      }
    },
    end: () => plot.removeEventListener("scroll", show),
  };
}
