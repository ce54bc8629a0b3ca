// What every host has (Node, web worker, web page) and the language's own library doesn't list.
declare class TextDecoder {
  constructor(encoding?: string, options?: { readonly fatal?: boolean; readonly ignoreBOM?: boolean });
  decode(bytes?: Uint8Array): string;
}
declare class TextEncoder {
  encode(text?: string): Uint8Array;
  encodeInto(text: string, into: Uint8Array): { readonly read: number; readonly written: number };
}
