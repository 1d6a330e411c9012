import { compare, toCondition } from "../values/convert.ts";
import type { Frame, NativeFunction, Node } from "../values/frame.ts";
import {
  Block,
  broadcast,
  each,
  Fault,
  notFound,
  single,
  wrongValue,
  type Scalar,
  type Value,
} from "../values/values.ts";
import { any, lifted, plain } from "./define.ts";

const nothing: Node = () => false;

function choose(condition: Value, then: Node, otherwise: Node, frame: Frame): Value {
  const one = single(condition);
  if (one === undefined) {
    return broadcast([condition, then(frame), otherwise(frame)], (c, a, b) => {
      const holds = toCondition(c);
      return holds instanceof Fault ? holds : holds ? a : b;
    });
  }
  const holds = toCondition(one);
  return holds instanceof Fault ? holds : holds ? then(frame) : otherwise(frame);
}

/** What stands in for an error, evaluated only where there is one. */
const insteadOf = (caught: (fault: Fault) => boolean): NativeFunction => ({
  min: 2,
  max: 2,
  fills: "with",
  run: ([first, instead], frame) => {
    const value = first!(frame);
    const one = single(value);
    if (one !== undefined) return one instanceof Fault && caught(one) ? instead!(frame) : value;
    return [...each(value)].some((s) => s instanceof Fault && caught(s))
      ? broadcast([value, instead!(frame)], (s, other) => (s instanceof Fault && caught(s) ? other : s))
      : value;
  },
});

/** The conditions of AND, OR and XOR: texts and blanks of ranges do not count; with none at all it is #VALUE!. */
function conditions(args: readonly Node[], frame: Frame): readonly boolean[] | Fault {
  const out: boolean[] = [];
  for (const arg of args) {
    const value = arg(frame);
    const ofBlock = value instanceof Block;
    for (const scalar of each(value)) {
      if (scalar instanceof Fault) return scalar;
      if (ofBlock && (scalar === null || typeof scalar === "string")) continue;
      const holds = toCondition(scalar);
      if (holds instanceof Fault) return holds;
      out.push(holds);
    }
  }
  return out.length === 0 ? wrongValue : out;
}

const joining = (f: (all: readonly boolean[]) => boolean): NativeFunction => ({
  min: 1,
  max: any,
  run: (args, frame) => {
    const all = conditions(args, frame);
    return all instanceof Fault ? all : f(all);
  },
});

/** The single value of an argument that decides which others are evaluated; blocks decide nothing. */
function deciding(node: Node, frame: Frame): Scalar {
  return single(node(frame)) ?? wrongValue;
}

export const logic: Readonly<Record<string, NativeFunction>> = {
  IF: {
    min: 2,
    max: 3,
    fills: "with",
    run: ([condition, then, otherwise], frame) => choose(condition!(frame), then!, otherwise ?? nothing, frame),
  },
  IFERROR: insteadOf(() => true),
  IFNA: insteadOf(({ code }) => code === "#N/A"),
  AND: joining((all) => all.every(Boolean)),
  OR: joining((all) => all.some(Boolean)),
  XOR: joining((all) => all.filter(Boolean).length % 2 === 1),
  NOT: plain(1, 1, (value) => {
    const holds = toCondition(value);
    return holds instanceof Fault ? holds : !holds;
  }),
  TRUE: lifted(0, 0, () => true),
  FALSE: lifted(0, 0, () => false),
  NA: lifted(0, 0, () => notFound),
  IFS: {
    min: 2,
    max: any,
    fills: "with",
    run: (args, frame) => {
      for (let i = 0; i + 1 < args.length; i += 2) {
        const holds = toCondition(deciding(args[i]!, frame));
        if (holds instanceof Fault) return holds;
        if (holds) return args[i + 1]!(frame);
      }
      return notFound;
    },
  },
  SWITCH: {
    min: 3,
    max: any,
    fills: "with",
    run: ([first, ...rest], frame) => {
      const value = deciding(first!, frame);
      if (value instanceof Fault) return value;
      for (let i = 0; i + 1 < rest.length; i += 2) {
        const candidate = deciding(rest[i]!, frame);
        if (candidate instanceof Fault) return candidate;
        if (compare(value, candidate) === 0) return rest[i + 1]!(frame);
      }
      return rest.length % 2 === 1 ? rest.at(-1)!(frame) : notFound;
    },
  },
  CHOOSE: {
    min: 2,
    max: any,
    fills: "with",
    run: ([first, ...rest], frame) => {
      const index = deciding(first!, frame);
      if (index instanceof Fault) return index;
      const chosen = typeof index === "number" ? rest[Math.trunc(index) - 1] : undefined;
      return chosen ? chosen(frame) : wrongValue;
    },
  },
};
