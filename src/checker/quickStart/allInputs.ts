import {
  isEn,
  lockedValues,
  singlesOf,
  withoutLocked,
  type InputCell,
  type Inputs,
  type InputValue,
  type Template,
} from "../../sheet/index.ts";
import { sectionSaid, sheetSection } from "./sections.ts";
import { lean, shapeOnly } from "./shaping.ts";
import type { Task } from "./task.ts";
import { usual } from "./usualInputs.ts";

/** What the invented example has for an input nobody answered and no rule gives: better stated and marked than missing. */
function fromExample(template: Template, cells: readonly InputCell[], inputs: Inputs): Inputs {
  const out: Record<string, InputValue> = {};
  for (const { id, of, spec, index } of cells) {
    if (index > 0 || id in inputs || spec.mayBeEmpty || spec.freeText || spec.default !== undefined) continue;
    const [first] = singlesOf(template.example.inputs[id]);
    if (first === undefined || first === null) continue;
    out[id] = of === 1 ? first : Array.from({ length: of }, () => first);
  }
  return out;
}

interface Assembled {
  readonly inputs: Inputs;
  readonly assumed: ReadonlySet<string>;
}

/** What each tendon has alike, as a list over the tendons. */
function forEach({ strands }: Inputs, alike: Inputs = {}): Inputs {
  const tendons = Array.isArray(strands) ? strands.length : 0;
  return Object.fromEntries(
    Object.entries(alike).map(([id, value]) => [id, Array.from({ length: tendons }, () => value) as InputValue]),
  );
}

/** All inputs of the sheet with these tendons, and which of them nobody answered. */
export function assembled({ template, trials, answers, dimensions }: Task, steel: Inputs): Assembled {
  const said = sectionSaid(answers.section);
  const answered: Inputs = {
    L: answers.L,
    section: sheetSection(answers.section),
    ...(said !== undefined && { member: said }),
    h: answers.h,
    fck: answers.fck,
    gs: answers.gs,
    ql: answers.ql,
    product: answers.product,
    [isEn(template) ? "exposure" : "memberType"]: answers.demand,
  };
  const shaping = new Set(template.shape.map(({ id }) => id));
  const given: Inputs = {
    ...shapeOnly(template, lean),
    ...withoutLocked(template, usual(template, answers)),
    ...dimensions,
    ...steel,
    ...answered,
    ...answers.sizing?.inputs,
    ...forEach(steel, answers.sizing?.eachTendon),
  };
  const { inputs: cells } = trials.skeleton(given);
  const known = new Set(cells.map(({ id }) => id));
  const placed = Object.fromEntries(Object.entries(given).filter(([id]) => known.has(id) || shaping.has(id)));
  const inputs: Inputs = { ...placed, ...fromExample(template, cells, placed) };
  const confirmed = new Set([...Object.keys(answered), ...lockedValues(template).keys()]);
  if (answers.tendons !== undefined && answers.strands !== undefined) confirmed.add("strands");
  for (const id of answers.sizing?.said ?? []) confirmed.add(id);
  const assumed = new Set(cells.map(({ id, spec }) => (spec.freeText || confirmed.has(id) ? "" : id)).filter(Boolean));
  return { inputs, assumed };
}
