/** What browsers, workers and Node have alike, and nothing more. The core compiles against this instead of DOM or Node types. */

declare class TextDecoder {
  constructor(label?: string, options?: { fatal?: boolean; ignoreBOM?: boolean });
  readonly encoding: string;
  decode(input?: Uint8Array | ArrayBuffer, options?: { stream?: boolean }): string;
}

declare class TextEncoder {
  encode(input?: string): Uint8Array<ArrayBuffer>;
}

/** A file as a data URL, put in by the bundler. */
declare module '*.woff2?inline' {
  const dataUrl: string;
  export default dataUrl;
}
