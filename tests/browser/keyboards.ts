/** MIDI keyboards for pages that are tested. */
import type { Page } from "playwright-core";

/** Keyboards that are not there, behind the interface of the Web MIDI API (W3C), for a page that is opened next. */
export async function plugKeyboards(page: Page, names: readonly string[]): Promise<void> {
  await page.addInitScript((first: readonly string[]) => {
    type Port = { name: string; onmidimessage: ((event: unknown) => void) | null };
    const inputs = new Map<string, Port>();
    const access = { inputs, outputs: new Map(), onstatechange: null as (() => void) | null };
    const plug = (name: string) => inputs.set(name, { name, onmidimessage: null });
    for (const name of first) plug(name);
    Object.defineProperty(navigator, "requestMIDIAccess", { value: async () => access });
    Object.assign(window, {
      keyboards: {
        plug(name: string) {
          plug(name);
          access.onstatechange?.();
        },
        unplug(name: string) {
          inputs.delete(name);
          access.onstatechange?.();
        },
        /** One message, `ms` after the moment `from`. */
        send(name: string, bytes: readonly number[], at: number) {
          inputs.get(name)?.onmidimessage?.({ data: Uint8Array.from(bytes), timeStamp: at });
        },
      },
    });
  }, names);
}

export interface Keyboards {
  plug(name: string): void;
  unplug(name: string): void;
  send(name: string, bytes: readonly number[], at: number): void;
}
