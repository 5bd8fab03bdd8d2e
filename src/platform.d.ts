/**
 * What every place that runs this code offers beyond the language (a browser, a worker, Node): the encoding of text
 * and the signal that ends a long piece of work. Nothing else of these places is known here, on purpose.
 */
declare class TextEncoder {
  encode(text: string): Uint8Array<ArrayBuffer>;
}
declare class TextDecoder {
  constructor(label?: string, options?: { readonly fatal?: boolean });
  decode(bytes?: ArrayBufferView | ArrayBuffer): string;
}
declare class AbortSignal {
  readonly aborted: boolean;
  readonly reason: unknown;
  throwIfAborted(): void;
}
