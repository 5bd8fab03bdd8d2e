/**
 * Must be loaded before musicxml-interfaces, `interfaces-close.ts` after it: see `interfaces.ts`.
 *
 * While it loads, the package looks for a `window` with a `DOMParser`, and for an `XSLTProcessor`. For that moment it
 * is given ours: a parser that hands back the element it is given, and a processor that does nothing.
 */
class HandedElement {
  parseFromString(element: unknown): { documentElement: unknown } {
    return { documentElement: element };
  }
}

class NoStylesheet {
  importStylesheet(): void {}
}

type Scope = Record<string, unknown> & { window?: Record<string, unknown> };
const scope = globalThis as unknown as Scope;

interface Borrowed {
  readonly owner: Record<string, unknown>;
  readonly name: string;
  readonly before: PropertyDescriptor | undefined;
}

const borrowed: Borrowed[] = [];

function lend(owner: Record<string, unknown>, name: string, value: unknown): void {
  borrowed.push({ owner, name, before: Object.getOwnPropertyDescriptor(owner, name) });
  Object.defineProperty(owner, name, { value, configurable: true, writable: true, enumerable: true });
}

// A page has a window that cannot be replaced: only its parser is, for the same moment.
if (scope.window === undefined) lend(scope, "window", { DOMParser: HandedElement });
else lend(scope.window, "DOMParser", HandedElement);
lend(scope, "XSLTProcessor", NoStylesheet);

/** Puts everything back as it was. */
export function giveBack(): void {
  for (const { owner, name, before } of borrowed.splice(0).reverse()) {
    if (before === undefined) delete owner[name];
    else Object.defineProperty(owner, name, before);
  }
}
