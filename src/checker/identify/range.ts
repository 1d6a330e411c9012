import type { Difference } from "./finding.ts";
import { compareAll, type Agreement, type Match } from "./match.ts";
import { shownName, shownNumber, valueBy } from "./said.ts";

const inPart = "Agrees in a part of the range only: a limit or a case of the rule is left out";
const halvings = 50;
const digits = 4;
const nothing = 1e-9;

/** Whether formula and rule agree at one point. */
function agreesAt(match: Match, point: readonly number[]): boolean {
  const rule = { ...match.rule, points: [point], values: [match.rule.evaluate(point)] };
  return compareAll({ ...match, rule }).agreeing[0]!;
}

/** Where agreement ends between two values of one input, the others as at a point where it holds; undefined where it does not end there. */
function endOf(
  match: Match,
  point: readonly number[],
  j: number,
  [within, beyond]: readonly [number, number],
): number | undefined {
  const agrees = (value: number): boolean =>
    agreesAt(
      match,
      point.map((own, i) => (i === j ? value : own)),
    );
  if (!agrees(within) || agrees(beyond)) return undefined;
  let [yes, no] = [within, beyond];
  for (let n = 0; n < halvings; n++) {
    const middle = (yes + no) / 2;
    if (agrees(middle)) yes = middle;
    else no = middle;
  }
  // Halving comes next to a bound of 0 and never to it.
  return Math.abs(yes) < nothing * Math.abs(beyond - within) ? 0 : Number(yes.toPrecision(digits));
}

/** "Agrees only up to f_cm = 35 MPa", where one input tells the agreeing points from the others. */
export function whereItAgrees(match: Match, { agreeing }: Agreement): string {
  const { rule } = match;
  for (const [j, { quantity }] of rule.inputs.entries()) {
    const points = (agrees: boolean): readonly (readonly number[])[] =>
      rule.points.filter((_, k) => agreeing[k] === agrees);
    const [yes, no] = [points(true), points(false)];
    const at = (of: readonly (readonly number[])[]): readonly number[] => of.map((point) => point[j]!);
    const isBelow = yes.length > 0 && Math.max(...at(yes)) < Math.min(...at(no));
    if (!isBelow && !(Math.min(...at(yes)) > Math.max(...at(no)))) continue;
    const between: readonly [number, number] = isBelow
      ? [Math.max(...at(yes)), Math.min(...at(no))]
      : [Math.min(...at(yes)), Math.max(...at(no))];
    // Where the others move the end, it is no bound of this input.
    const ends = new Set(yes.slice(0, 6).map((point) => endOf(match, point, j, between)));
    const [end] = ends;
    if (ends.size !== 1 || end === undefined) continue;
    const bound = `${shownName(quantity)} = ${shownNumber(end)}${quantity.unit === "–" ? "" : ` ${quantity.unit}`}`;
    return isBelow
      ? `Agrees only up to ${bound}; what the rule has beyond is left out`
      : `Agrees only from ${bound} on; what the rule has below is left out`;
  }
  return inPart;
}

/** What a formula leaves out of its rule; undefined where it agrees in the whole range. */
export function leftOut(match: Match, agreement: Agreement, range?: string): Difference | undefined {
  const kind = "case";
  const { onlyWhere } = match.rule.particular ?? {};
  if (onlyWhere !== undefined) return { kind, says: onlyWhere };
  if (agreement.agreeing.every(Boolean)) return undefined;
  const effect = match.target.value / valueBy(match) - 1;
  const says = range ?? whereItAgrees(match, agreement);
  return { kind, says, ...(Number.isFinite(effect) && { effect }) };
}
