/** Initials, as they are typed: one to five letters, in capitals. */
export function readInitials(typed: string): { readonly value: string } | { readonly problem: string } {
  const text = typed.trim();
  if (text === "") return { problem: "Initials are missing; allowed: 1 to 5 letters, such as AB." };
  return /^\p{L}{1,5}$/u.test(text)
    ? { value: text.toUpperCase() }
    : { problem: `Initials = “${text}”; allowed: 1 to 5 letters, such as AB.` };
}

/** A day as year-month-day. */
export function readDate(typed: string): { readonly value: string } | { readonly problem: string } {
  const text = typed.trim();
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text)?.map(Number) ?? [];
  const made = year === undefined ? undefined : new Date(Date.UTC(year, month! - 1, day));
  // A day that does not exist becomes another one.
  if (made?.getUTCMonth() === (month ?? 0) - 1 && made.getUTCDate() === day && year! >= 1900) return { value: text };
  return {
    problem:
      text === ""
        ? "The date is missing; allowed: a day as year-month-day, such as 2026-11-26."
        : `Date = “${text}”; allowed: a day that exists, from 1900 on, as year-month-day, such as 2026-11-26.`,
  };
}

/** The name of a revision. */
export function readRevisionName(
  typed: string,
  taken: readonly string[],
): { readonly value: string } | { readonly problem: string } {
  const text = typed.trim();
  if (!/^[\p{L}\p{N}][\p{L}\p{N} ._-]{0,11}$/u.test(text))
    return {
      problem:
        `Revision ${text === "" ? "is missing" : `= “${text}”`}; allowed: 1 to 12 letters, digits, dots or ` +
        "dashes, such as A or P02.",
    };
  return taken.some((name) => name.toLowerCase() === text.toLowerCase())
    ? { problem: `Revision = “${text}” stands in the table already; allowed: a name that does not.` }
    : { value: text };
}

/** Today where the user is, as year-month-day. */
export function today(now = new Date()): string {
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
}
