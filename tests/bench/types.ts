/** A benchmark: prints its figures, each as a ratio against a floor measured in the same run. */
export interface Bench {
  readonly name: string;
  run(): Promise<string[]> | string[];
}
