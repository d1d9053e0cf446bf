/** SHA-256 in hex; undefined where the page is not served safely: browsers keep their digests to themselves there. */
export const sha256 = globalThis.isSecureContext
  ? async (bytes: Uint8Array): Promise<string> => {
      const digest = await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>);
      return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
    }
  : undefined;
