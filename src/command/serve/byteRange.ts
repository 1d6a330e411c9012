/** The first and the last byte asked for, both included. */
export interface ByteRange {
  readonly first: number;
  readonly last: number;
}

const bytes = /^bytes=/i;
const oneRange = /^bytes=(?<first>\d*)-(?<last>\d*)$/i;

/**
 * Which bytes of a file a Range header asks for (RFC 9110, 14.1.2). "ALL" without a header, where it counts in other
 * units than bytes (14.2: to be ignored), or where it asks for several ranges at once, which a server may answer with
 * the whole file; "NONE" where the range can't be read or lies outside the file.
 */
export function byteRange(header: string | undefined, size: number): ByteRange | "ALL" | "NONE" {
  if (header === undefined || !bytes.test(header.trim()) || header.includes(",")) return "ALL";
  const groups = oneRange.exec(header.trim())?.groups;
  if (groups === undefined) return "NONE";
  const { first = "", last = "" } = groups;
  if (first === "") return fromTheEnd(last, size);
  const from = Number(first);
  const to = last === "" ? size - 1 : Math.min(Number(last), size - 1);
  return from <= to ? { first: from, last: to } : "NONE";
}

function fromTheEnd(length: string, size: number): ByteRange | "NONE" {
  const wanted = Math.min(Number(length), size);
  return wanted > 0 ? { first: size - wanted, last: size - 1 } : "NONE";
}
