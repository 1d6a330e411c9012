/** Without a library of Node, since the stand-in of the program draws in a page, too. PNG specification, annexes B and D. */
const numberBytes = (value: number): readonly number[] => [24, 16, 8, 0].map((by) => (value >>> by) & 255);

function crc32(bytes: readonly number[]): number {
  let crc = ~0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return ~crc >>> 0;
}

function adler32(bytes: readonly number[]): number {
  let [a, b] = [1, 0];
  for (const byte of bytes) {
    a = (a + byte) % 65521;
    b = (b + a) % 65521;
  }
  return b * 65536 + a;
}

/** As zlib keeps what it does not press together: RFC 1950, and blocks of RFC 1951 3.2.4. */
function stored(bytes: readonly number[]): readonly number[] {
  const most = 65535;
  const blocks = Array.from({ length: Math.ceil(bytes.length / most) }, (_, i) => {
    const part = bytes.slice(i * most, (i + 1) * most);
    const size = [part.length & 255, part.length >> 8];
    return [(i + 1) * most >= bytes.length ? 1 : 0, ...size, ...size.map((byte) => 255 - byte), ...part];
  });
  return [0x78, 0x01, ...blocks.flat(), ...numberBytes(adler32(bytes))];
}

/** A white PNG of that size in pixels, as base64. */
export function blankPng(width: number, height: number): string {
  const chunk = (kind: string, data: readonly number[]): readonly number[] => {
    const named = [...Array.from(kind, (letter) => letter.charCodeAt(0)), ...data];
    return [...numberBytes(data.length), ...named, ...numberBytes(crc32(named))];
  };
  // Eight bits a pixel, in grey; a line begins with how it is filtered: not at all.
  const head = [...numberBytes(width), ...numberBytes(height), 8, 0, 0, 0, 0];
  const lines = Array.from({ length: height }, () => [0, ...Array.from({ length: width }, () => 255)]).flat();
  const sign = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
  const bytes = [...sign, ...chunk("IHDR", head), ...chunk("IDAT", stored(lines)), ...chunk("IEND", [])];
  return btoa(bytes.map((byte) => String.fromCharCode(byte)).join(""));
}
