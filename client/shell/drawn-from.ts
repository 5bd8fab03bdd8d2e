/** A page as model and drawing: one state, changed by pure functions, drawn anew after each change. */
import { render, type TemplateResult } from "lit-html";

/** Gives the state that follows; what is drawn follows by itself. */
export type Change<State> = (next: (state: State) => State) => void;

/**
 * Draws `state` into `host` now and after every change. Only what differs is touched, so the focus and a half-typed
 * field stay as they are.
 *
 * @param draw what is to be seen of a state; its events call `change`
 * @returns the state as it stands, and `change` for what happens outside of the drawing
 */
export function drawnFrom<State>(
  host: HTMLElement,
  first: State,
  draw: (state: State, change: Change<State>) => TemplateResult,
): { readonly state: () => State; readonly change: Change<State> } {
  let state = first;
  const change: Change<State> = (next) => {
    state = next(state);
    render(draw(state, change), host);
  };
  change((same) => same);
  return { state: () => state, change };
}

/** What a field of a drawing holds when it tells of a change. */
export function fieldText({ target }: Event): string {
  return (target as HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement).value;
}
