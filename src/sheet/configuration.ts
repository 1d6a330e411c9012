import { expandLoosely, type Expansion } from "./builder.ts";
import { KeptByTemplate } from "./keptByTemplate.ts";
import type { SourceSheet } from "./links.ts";
import { problemsOf } from "./lint.ts";
import type { ShapedSheet, ShapeValues } from "./shape.ts";
import type { Skeleton, InputCell } from "./skeleton.ts";
import type { Template } from "./template.ts";

/** What follows from a template and its shape inputs alone, whatever the other inputs are. */
export class Configuration {
  readonly sheet: ShapedSheet;
  /** Why it could not be laid out. */
  readonly problems: readonly string[];
  /** Until both of these are worked out. */
  #expansion: Expansion | undefined;
  #skeleton: Skeleton | undefined;
  #faults: readonly string[] | undefined;

  constructor(
    private readonly template: Template,
    expansion: Expansion,
  ) {
    this.#expansion = expansion;
    this.sheet = expansion.sheet;
    this.problems = expansion.problems;
  }

  /** Only where nothing is wrong. */
  get skeleton(): Skeleton {
    this.#skeleton ??= skeletonFrom(this.#expansion!);
    this.#release();
    return this.#skeleton;
  }

  /** What lint says of the template in this configuration. */
  get faults(): readonly string[] {
    this.#faults ??= problemsOf(this.template, this.#expansion!);
    this.#release();
    return this.#faults;
  }

  #release(): void {
    if (this.#skeleton && this.#faults) this.#expansion = undefined;
  }
}

/** Those worked out last; whoever goes over all templates again and again may keep more of them. */
export const configurations = new KeptByTemplate<Configuration>();

/** Laid out once for all sheets of this configuration; `shape`: a value for each shape input. */
export function configurationOf(template: Template, shape: ShapeValues, source?: SourceSheet): Configuration {
  const key = JSON.stringify([source?.sheet, shape]);
  return configurations.of(
    template,
    source?.names ?? template,
    key,
    () => new Configuration(template, expandLoosely(template, shape, source)),
  );
}

function skeletonFrom({ plan: planned, sheet }: Expansion): Skeleton {
  const plan = planned();
  const inputs = plan.meanings.flatMap(({ id, at }): readonly InputCell[] => {
    const subject = sheet.subjects.get(id)!;
    if (subject.kind === "row" && subject.row.row.input)
      return [{ id, index: 0, of: 1, at, spec: subject.row.row.input, says: subject.says }];
    const spec = subject.kind === "column" ? subject.column.column.input : undefined;
    if (subject.kind !== "column" || !spec) return [];
    const of = subject.table.groups[0]!.rows;
    return Array.from({ length: of }, (_, index) => ({
      id,
      index,
      of,
      at: { row: at.row + index, column: at.column },
      spec,
      says: subject.says,
    }));
  });
  return { plan, inputs };
}
