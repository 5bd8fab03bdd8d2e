/** What the load test uses of autocannon, which brings no types. */
declare module "autocannon" {
  export interface Load {
    readonly url: string;
    readonly connections: number;
    /** Seconds. */
    readonly duration: number;
    /** Threads that send and read; the calling one when left out. */
    readonly workers?: number;
  }
  export interface Result {
    /** Milliseconds. */
    readonly latency: { readonly p50: number; readonly p97_5: number; readonly p99: number };
    /** A second. */
    readonly requests: { readonly average: number };
    readonly errors: number;
    readonly timeouts: number;
    readonly non2xx: number;
  }
  export default function autocannon(load: Load): Promise<Result>;
}
