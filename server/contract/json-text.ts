/** JSON text that was written before, of a value of this shape. */
export type JsonText<T> = string & { readonly writtenFrom?: T };
