function utf8(text: string): number[] {
  const bytes: number[] = [];
  for (const character of text) {
    const c = character.codePointAt(0)!;
    if (c < 0x80) bytes.push(c);
    else if (c < 0x800) bytes.push(0xc0 | (c >> 6), 0x80 | (c & 63));
    else if (c < 0x10000) bytes.push(0xe0 | (c >> 12), 0x80 | ((c >> 6) & 63), 0x80 | (c & 63));
    else bytes.push(0xf0 | (c >> 18), 0x80 | ((c >> 12) & 63), 0x80 | ((c >> 6) & 63), 0x80 | (c & 63));
  }
  return bytes;
}

/** FNV-1a of 64 bits over the text's UTF-8 bytes, as 16 hexadecimal digits. Tells versions apart; it is no seal against forgery. */
export function fnv1a64(text: string): string {
  // Offset basis and prime of the algorithm's definition; the prime is 2^40 + 435, so two halves of 32 bits suffice.
  let high = 0xcbf29ce4;
  let low = 0x84222325;
  for (const byte of utf8(text)) {
    low = (low ^ byte) >>> 0;
    const product = low * 435;
    high = (high * 435 + Math.floor(product / 2 ** 32) + (low & 0xffffff) * 256) % 2 ** 32;
    low = product % 2 ** 32;
  }
  return high.toString(16).padStart(8, "0") + low.toString(16).padStart(8, "0");
}
