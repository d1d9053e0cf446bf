declare module 'pako' {
  export class Inflate {
    constructor(options?: { chunkSize?: number });
    push(data: Uint8Array, flush: boolean | number): boolean;
    onData: (part: Uint8Array) => void;
    readonly err: number;
    readonly msg: string;
  }
}

declare module 'lerc' {
  interface LercPixels {
    readonly width: number;
    readonly height: number;
    readonly pixels: readonly ArrayLike<number>[];
    /** 1 where a value is stored, 0 where the cell is masked; absent when all are stored. */
    readonly mask?: Uint8Array | null;
  }
  const lerc: {
    decode(
      bytes: ArrayBufferLike,
      options?: { inputOffset?: number; returnPixelInterleavedDims?: boolean },
    ): LercPixels;
  };
  export default lerc;
}
