/**
 * Lets a thread read TypeScript as modules. The loader's usual entry takes what a thread requires for CommonJS, in
 * which every name of another file is fetched by a function: analyses then take twice the time.
 */
import { register } from "tsx/esm/api";

register();
