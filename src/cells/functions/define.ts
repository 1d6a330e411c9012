import { toNumber } from "../values/convert.ts";
import type { NativeFunction } from "../values/frame.ts";
import { finite } from "../values/operators.ts";
import { broadcast, Fault, type Scalar, type Value } from "../values/values.ts";

/** As many arguments as a program takes. */
export const any = 255;

/** A function of single values; of blocks it takes them element by element. */
export function lifted(min: number, max: number, f: (...scalars: Scalar[]) => Scalar): NativeFunction {
  return {
    min,
    max,
    fills: "with",
    run: (args, frame) =>
      broadcast(
        args.map((arg) => arg(frame)),
        f,
      ),
  };
}

/** A lifted function whose arguments are never errors: the first of them is the result. */
export function plain(min: number, max: number, f: (...scalars: Exclude<Scalar, Fault>[]) => Scalar): NativeFunction {
  return lifted(
    min,
    max,
    (...scalars) => scalars.find((s) => s instanceof Fault) ?? f(...(scalars as Exclude<Scalar, Fault>[])),
  );
}

/** A lifted function of numbers; what it gives is #NUM! where it is not finite. */
export function numeric(min: number, max: number, f: (...numbers: number[]) => number | Fault): NativeFunction {
  return lifted(min, max, (...scalars) => {
    const numbers: number[] = [];
    for (const scalar of scalars) {
      const value = toNumber(scalar);
      if (value instanceof Fault) return value;
      numbers.push(value);
    }
    const result = f(...numbers);
    return result instanceof Fault ? result : finite(result);
  });
}

/** A function of whole values, blocks as they are. */
export function whole(
  min: number,
  max: number,
  f: (...values: Value[]) => Value,
  fills?: NativeFunction["fills"],
): NativeFunction {
  return { min, max, ...(fills && { fills }), run: (args, frame) => f(...args.map((arg) => arg(frame))) };
}
