/**
 * Every answer that a test gets from a server is held against the OpenAPI document that this server publishes, by an
 * independent validator: a status, a field or a shape that is not published fails the test that met it.
 */
import { openApi } from "../../server/openapi.ts";
import { routes } from "../../server/routes/index.ts";
import { closed, type Json, type Validate, validatorsOf } from "./published.ts";

interface Operation {
  readonly operationId: string;
  readonly responses: Readonly<Record<string, { readonly content?: Readonly<Record<string, unknown>> }>>;
}

const JSON_TYPES = new Set(["application/json", "application/problem+json"]);
const servers = new Set<string>();
let checks: ((request: string, path: string, status: number, type: string) => Validate | null) | null = null;
const unchecked = globalThis.fetch;

/** From now on the answers of the server at this address are checked. */
export function checkAnswersOf(url: string): void {
  servers.add(url);
  globalThis.fetch = checkedFetch;
}

async function checkedFetch(input: Parameters<typeof fetch>[0], init?: RequestInit): Promise<Response> {
  const response = await unchecked(input, init);
  const address = new URL(input instanceof Request ? input.url : String(input));
  const type = (response.headers.get("content-type") ?? "").split(";")[0]!;
  if (!servers.has(address.origin) || !JSON_TYPES.has(type) || !address.pathname.startsWith("/api/"))
    return response;
  checks ??= checksOf(closed(openApi(routes)));
  const method = (init?.method ?? (input instanceof Request ? input.method : "GET")).toLowerCase();
  const validate = checks(method, address.pathname, response.status, type);
  if (validate === null) return response;
  const fault = validate(await response.clone().json());
  if (fault !== null) {
    throw new Error(`${method.toUpperCase()} ${address.pathname} answered what is not published:\n${fault}`);
  }
  return response;
}

/** Finds the operation of a document that a request asks for, and its path there. */
export function operationsOf(document: Json) {
  const paths = Object.entries(document.paths as Record<string, Record<string, Operation>>)
    .map(([path, operations]) => ({
      path,
      operations,
      // Names before parameters, so that /api/shapes/built-in is not taken for a shape.
      pattern: new RegExp(`^${path.replace(/\./g, "\\.").replace(/\{\w+\}/g, "[^/]+")}$`),
    }))
    .sort((a, b) => a.path.split("{").length - b.path.split("{").length);
  return (method: string, pathname: string) => {
    const found = paths.find(({ pattern, operations }) => pattern.test(pathname) && method in operations);
    return found === undefined ? null : { path: found.path, operation: found.operations[method]! };
  };
}

function checksOf(document: Json) {
  const at = validatorsOf(document);
  const operationAt = operationsOf(document);
  return (method: string, pathname: string, status: number, type: string): Validate | null => {
    const found = operationAt(method, pathname);
    // The two documents themselves, and paths that there are not.
    if (found === null) return type === "application/problem+json" ? at("/components/schemas/Problem") : null;
    const { responses } = found.operation;
    const name = status < 400 ? String(status) : "default";
    if (responses[name]?.content?.[type] === undefined)
      return () => `${status} with ${type} is not published`;
    const way = ["paths", found.path, method, "responses", name, "content", type, "schema"];
    return at(`/${way.map((step) => step.replaceAll("~", "~0").replaceAll("/", "~1")).join("/")}`);
  };
}
