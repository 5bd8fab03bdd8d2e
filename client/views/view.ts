/** What every picture is: what it needs, how it scales and draws, and how it says the same in a table. */
import type { Analysis } from "../../src/account.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import type { Selection, SelectionStore } from "../shell/selection.ts";

/** What a picture can ask the page to do. */
export interface Actions {
  /** Pins a moment to a place on the chart; the take is then placed anew. */
  readonly pin?: (anchor: Analysis["alignment"]["anchors"][number]) => void;
  /** Plays what is selected, or stops. */
  readonly play?: () => void;
}

export interface Scene {
  readonly index: AccountIndex;
  readonly store: SelectionStore;
  readonly actions: Actions;
  /** Width of the place in CSS pixels. */
  readonly width: number;
  /** A drawing that is taller than this, in CSS pixels, scrolls in its frame and draws only what is seen. */
  readonly tallest: number;
}

/** What stands out now. */
export interface Marked {
  readonly selection: Selection;
  /** Whether that is what words elsewhere point at, for as long as they do. */
  readonly lit: boolean;
  /** Ids of the selected notes; null when nothing is selected. */
  readonly notes: ReadonlySet<string> | null;
  readonly hover: string | null;
  readonly playing: string | null;
}

export interface Drawing {
  readonly svg: SVGSVGElement;
  /** Shows the selection; `change` says what is new, so that pointing stays cheap. */
  mark(marked: Marked, change: "selection" | "hover" | "playing"): void;
  /** Where only a part of it stands in the page: what moves that part. */
  readonly scrolled?: Scrolled;
}

/** A drawing that is looked at through a frame; heights are pixels from its top. */
export interface Scrolled {
  /** What stays at the top of the frame while its rows pass below. */
  readonly head: SVGSVGElement;
  /** Pixels that the head covers. */
  readonly headHeight: number;
  /** Draws what lies between two heights and a little more, and takes the rest away. */
  show(top: number, bottom: number): void;
  /** The row of a note; null when the picture does not have it. */
  rowOf(note: string): Span | null;
}

export interface Span {
  readonly top: number;
  readonly bottom: number;
}

export interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

/** One sign of a picture, and what it means. */
export interface KeyEntry {
  /** A drawing of 26 by 18 pixels around 0,0; null for an entry in words alone. */
  readonly sign: SVGElement | null;
  readonly words: string;
}

export interface View {
  /** For the address and the file name of a saved picture. */
  readonly id: string;
  /** Says what is shown. */
  title(index: AccountIndex): string;
  /** Axes and units in words. */
  units(index: AccountIndex): string;
  /** Why there is nothing to draw, or null when there is. */
  empty(index: AccountIndex): string | null;
  /** What its signs mean; stands in its head, on the screen and on paper. */
  key?(index: AccountIndex): readonly KeyEntry[];
  /** Says and draws something else in each reading: it is made anew when another one is chosen. */
  readonly readings?: true;
  draw(scene: Scene): Drawing;
  /** The same for paper, in pieces that are at most `height` pixels tall where a row allows it. */
  pieces?(scene: Scene, height: number): readonly Drawing[];
  table(index: AccountIndex): Table;
  /** Choices that belong to this picture alone; `redraw` after a change. */
  controls?(scene: Omit<Scene, "width" | "tallest">, redraw: () => void): readonly Node[];
}
