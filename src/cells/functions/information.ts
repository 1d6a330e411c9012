import { Ref, type NativeFunction } from "../values/frame.ts";
import { Block, Fault, wrongValue, type Scalar } from "../values/values.ts";
import { lifted, whole } from "./define.ts";

const is = (f: (value: Scalar) => boolean): NativeFunction => lifted(1, 1, f);

export const information: Readonly<Record<string, NativeFunction>> = {
  ISNUMBER: is((v) => typeof v === "number"),
  ISTEXT: is((v) => typeof v === "string"),
  ISNONTEXT: is((v) => typeof v !== "string"),
  ISLOGICAL: is((v) => typeof v === "boolean"),
  ISBLANK: is((v) => v === null),
  ISERROR: is((v) => v instanceof Fault),
  ISERR: is((v) => v instanceof Fault && v.code !== "#N/A"),
  ISNA: is((v) => v instanceof Fault && v.code === "#N/A"),
  N: lifted(1, 1, (v) => (v instanceof Fault ? v : typeof v === "number" ? v : v === true ? 1 : 0)),
  T: lifted(1, 1, (v) => (v instanceof Fault || typeof v === "string" ? v : "")),
  ROWS: whole(1, 1, (v) => (v instanceof Fault ? v : v instanceof Block ? v.rows : 1)),
  COLUMNS: whole(1, 1, (v) => (v instanceof Fault ? v : v instanceof Block ? v.columns : 1)),
  ROW: {
    min: 0,
    max: 1,
    run: ([of], frame) =>
      counted(of ? of(frame) : undefined, frame.row, ({ row, rows }) => (rows === 1 ? row : undefined)),
  },
  COLUMN: {
    min: 0,
    max: 1,
    run: ([of], frame) =>
      counted(of ? of(frame) : undefined, frame.column, ({ column, columns }) => (columns === 1 ? column : undefined)),
  },
  ISEVEN: lifted(1, 1, (v) => parity(v, 0)),
  ISODD: lifted(1, 1, (v) => parity(v, 1)),
};

function counted(value: unknown, own: number, of: (area: Ref["area"]) => number | undefined): Scalar {
  if (value === undefined) return own + 1;
  if (value instanceof Fault) return value;
  const found = value instanceof Ref ? of(value.area) : undefined;
  return found === undefined ? wrongValue : found + 1;
}

function parity(value: Scalar, odd: number): Scalar {
  if (value instanceof Fault) return value;
  return typeof value === "boolean" || typeof value === "string"
    ? wrongValue
    : Math.abs(Math.trunc(value ?? 0)) % 2 === odd;
}
