/** What takes time to read, shown in its place: busy meanwhile, and where it was refused the way to try again. */
import { refusalNote } from "./refusal-note.ts";

/** @param make reads and makes what is to be seen */
export async function showIn(place: HTMLElement, make: () => Promise<readonly Node[]>): Promise<void> {
  place.setAttribute("aria-busy", "true");
  try {
    place.replaceChildren(...(await make()));
  } catch (error) {
    place.replaceChildren(refusalNote(error, () => void showIn(place, make)));
  } finally {
    place.removeAttribute("aria-busy");
  }
}
