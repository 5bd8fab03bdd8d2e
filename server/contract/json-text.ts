/** JSON that was written before, UTF-8, of a value of this shape. */
export type JsonText<T> = Uint8Array & { readonly writtenFrom?: T };
