import { compare, numberOfText, sameText } from "./convert.ts";
import { Fault, type Scalar } from "./values.ts";

/** A text with `?`, `*` and `~` as an expression; undefined where it has none of them. */
export function wildcards(text: string): RegExp | undefined {
  if (!/[?*~]/.test(text)) return undefined;
  const source = text.replace(/~[?*~]|[\s\S]/g, (c) =>
    c.length === 2
      ? `\\${c[1]!}`
      : c === "?"
        ? "[\\s\\S]"
        : c === "*"
          ? "[\\s\\S]*"
          : c.replace(/[.+^${}()|[\]\\/-]/g, "\\$&"),
  );
  return new RegExp(`^${source}$`, "i");
}

type Test = (value: Scalar) => boolean;

function meaning(text: string): number | string | boolean {
  if (/^true$/i.test(text)) return true;
  if (/^false$/i.test(text)) return false;
  return (text === "" ? undefined : numberOfText(text)) ?? text;
}

function equality(wanted: number | string | boolean): Test {
  if (typeof wanted !== "string")
    return (v) =>
      v === wanted ||
      (typeof wanted === "number" && typeof v === "string" && v !== "" && /\d/.test(v) && numberOfText(v) === wanted);
  if (/^#[A-Z0-9/]+[!?]?$/i.test(wanted)) return (v) => v instanceof Fault && sameText(v.code, wanted);
  const like = wildcards(wanted);
  return like ? (v) => typeof v === "string" && like.test(v) : (v) => typeof v === "string" && sameText(v, wanted);
}

/** The condition of COUNTIF and its like: a value, or a text such as ">=3", "<>OK", "?*". */
export function criterion(given: Scalar): Test {
  if (given instanceof Fault) return (v) => v instanceof Fault && v.code === given.code;
  if (typeof given !== "string") return equality(given ?? 0);
  const [, operator = "", rest = ""] = /^(<>|<=|>=|=|<|>)?([\s\S]*)$/.exec(given)!;
  const wanted = meaning(rest);
  if (operator === "") return rest === "" ? (v) => v === null || v === "" : equality(wanted);
  if (operator === "=") return rest === "" ? (v) => v === null : equality(wanted);
  if (operator === "<>") {
    const same: Test = rest === "" ? (v) => v === null : equality(wanted);
    return (v) => !same(v);
  }
  const holds = {
    "<": (o: number) => o < 0,
    "<=": (o: number) => o <= 0,
    ">": (o: number) => o > 0,
    ">=": (o: number) => o >= 0,
  }[operator]!;
  return (v) => v !== null && !(v instanceof Fault) && typeof v === typeof wanted && holds(compare(v, wanted));
}
