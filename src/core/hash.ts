/** Hands each byte of a text's UTF-8 form on. */
function eachByte(text: string, take: (byte: number) => void): void {
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    if (unit < 0x80) {
      take(unit);
      continue;
    }
    const c = text.codePointAt(i)!;
    if (c >= 0x10000) i++;
    if (c < 0x800) take(0xc0 | (c >> 6));
    else if (c < 0x10000) take(0xe0 | (c >> 12));
    else take(0xf0 | (c >> 18));
    if (c >= 0x10000) take(0x80 | ((c >> 12) & 63));
    if (c >= 0x800) take(0x80 | ((c >> 6) & 63));
    take(0x80 | (c & 63));
  }
}

/** FNV-1a of 64 bits over the text's UTF-8 bytes, as 16 hexadecimal digits. Tells versions apart; it is no seal against forgery. */
export function fnv1a64(text: string): string {
  // Offset basis and prime of the algorithm's definition; the prime is 2^40 + 435, so two halves of 32 bits suffice.
  let high = 0xcbf29ce4 | 0;
  let low = 0x84222325 | 0;
  eachByte(text, (byte) => {
    low ^= byte;
    const carry = Math.floor(((low >>> 0) * 435) / 2 ** 32);
    high = (Math.imul(high, 435) + carry + (low << 8)) | 0;
    low = Math.imul(low, 435);
  });
  const digits = (half: number): string => (half >>> 0).toString(16).padStart(8, "0");
  return digits(high) + digits(low);
}
