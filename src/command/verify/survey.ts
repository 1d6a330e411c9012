import type { WorksheetFunction } from "../../../functions/index.ts";
import { basisText, type Basis, type Declaration } from "../../core/index.ts";
import {
  asItShould,
  countsAsPublished,
  halfLastDigit,
  judge,
  type Judgement,
  type PublishedCase,
} from "../../published/index.ts";

/** A function that computes something, with what stands against it. */
export interface Surveyed {
  readonly id: string;
  readonly declaration: Declaration;
  readonly judgements: readonly Judgement[];
  readonly published: number;
  readonly fromMemory: number;
  readonly mustDiffer: number;
}

const whyUncounted = {
  "published, second-hand": "read in another work that quotes it; not counted as published",
  "published, from memory": "recalled, not read; not counted as published",
} as const;

/** Why a check is to be looked at by a person. */
export type Concern = "failed" | "superseded" | "wider tolerance" | "from memory" | "note";

export interface Listed {
  readonly judgement: Judgement;
  readonly concern: Concern;
  readonly reason: string;
}

/** The checks to be looked at for one concern, those with the same reason together. */
export function grouped(
  listed: readonly Listed[],
  concern: Concern,
): readonly { readonly reason: string; readonly cases: readonly PublishedCase[] }[] {
  const byReason = new Map<string, readonly PublishedCase[]>();
  for (const l of listed)
    if (l.concern === concern) byReason.set(l.reason, [...(byReason.get(l.reason) ?? []), l.judgement.case]);
  return [...byReason].map(([reason, cases]) => ({ reason, cases }));
}

/** Checks by how the printed result was established. */
export interface CheckCount {
  readonly basis: "published" | "from memory" | "superseded, must differ";
  readonly cases: number;
  readonly values: number;
  readonly failed: number;
}

/** How many functions rest on a source established in one way, and what stands against them. */
export interface BasisCount {
  readonly basis: Basis;
  readonly functions: number;
  readonly published: number;
  readonly fromMemoryOnly: number;
  readonly unchecked: number;
}

export interface Survey {
  readonly judgements: readonly Judgement[];
  readonly functions: readonly Surveyed[];
  readonly listed: readonly Listed[];
  readonly byBasis: readonly BasisCount[];
  readonly byCheck: readonly CheckCount[];
  readonly total: {
    readonly functions: number;
    readonly withPublished: number;
    readonly cases: number;
    readonly published: number;
    readonly fromMemory: number;
    readonly mustDiffer: number;
    readonly values: number;
    readonly failed: number;
  };
}

function failure({ case: c, outcomes }: Judgement): string {
  const bad = outcomes.filter((o) => !asItShould(c, o));
  if (outcomes.length === 0) return "it has no value to compare";
  return bad
    .map(
      (o) =>
        o.error ??
        (c.mustDiffer ? `gives the superseded ${o.row.printed}` : `printed ${o.row.printed}, computed ${o.computed}`),
    )
    .join("; ");
}

/** Every reason to look at a check, the gravest first. */
function concernsOf(judgement: Judgement): readonly Listed[] {
  const { case: c, outcomes, passed } = judgement;
  const wider = outcomes.filter((o) => o.tolerance > halfLastDigit(o.row.printed) * (1 + 1e-9));
  const because = [
    ...new Set(
      [
        ...(wider.some((o) => o.row.because === undefined) ? [c.because] : []),
        ...wider.map((o) => o.row.because),
      ].filter((b) => b !== undefined),
    ),
  ];
  return [
    ...(passed ? [] : [{ judgement, concern: "failed", reason: failure(judgement) } as const]),
    ...(c.mustDiffer
      ? [
          {
            judgement,
            concern: "superseded",
            reason: c.note ?? "the source is superseded; the function must not give its values",
          } as const,
        ]
      : []),
    ...(wider.length > 0
      ? [{ judgement, concern: "wider tolerance", reason: because.join("; ") || "no reason given" } as const]
      : []),
    ...(c.basis !== "published" ? [{ judgement, concern: "from memory", reason: whyUncounted[c.basis] } as const] : []),
    ...(c.note !== undefined && !c.mustDiffer ? [{ judgement, concern: "note", reason: c.note } as const] : []),
  ];
}

function checkCount(basis: CheckCount["basis"], own: readonly Judgement[]): CheckCount {
  return {
    basis,
    cases: own.length,
    values: own.reduce((sum, { outcomes }) => sum + outcomes.length, 0),
    failed: own.filter(({ passed }) => !passed).length,
  };
}

/** What every published check gives, and every count and list made from it. Nothing is dropped: a case of an unknown function fails. */
export function survey(all: readonly WorksheetFunction[], cases: readonly PublishedCase[]): Survey {
  const judgements = cases.map((c) => judge(c, all));
  const functions = all.flatMap((f): readonly Surveyed[] => {
    const declaration = f.formula ?? f.spill;
    if (!declaration) return [];
    const own = judgements.filter(({ case: c }) => c.function === f.id);
    return [
      {
        id: f.id,
        declaration,
        judgements: own,
        published: own.filter(({ case: c }) => countsAsPublished(c)).length,
        fromMemory: own.filter(({ case: c }) => c.basis !== "published").length,
        mustDiffer: own.filter(({ case: c }) => c.mustDiffer).length,
      },
    ];
  });
  const order: readonly Concern[] = ["failed", "superseded", "wider tolerance", "from memory", "note"];
  const listed = judgements.flatMap(concernsOf).sort((a, b) => order.indexOf(a.concern) - order.indexOf(b.concern));
  const byBasis = (Object.keys(basisText) as readonly Basis[]).map((basis): BasisCount => {
    const own = functions.filter(({ declaration }) => declaration.source.basis === basis);
    const published = own.filter((f) => f.published > 0).length;
    const fromMemoryOnly = own.filter((f) => f.published === 0 && f.fromMemory > 0).length;
    return {
      basis,
      functions: own.length,
      published,
      fromMemoryOnly,
      unchecked: own.length - published - fromMemoryOnly,
    };
  });
  return {
    judgements,
    functions,
    listed,
    byBasis,
    byCheck: [
      checkCount(
        "published",
        judgements.filter(({ case: c }) => countsAsPublished(c)),
      ),
      checkCount(
        "from memory",
        judgements.filter(({ case: c }) => c.basis !== "published" && !c.mustDiffer),
      ),
      checkCount(
        "superseded, must differ",
        judgements.filter(({ case: c }) => c.mustDiffer),
      ),
    ],
    total: {
      functions: functions.length,
      withPublished: functions.filter(({ published }) => published > 0).length,
      cases: judgements.length,
      published: judgements.filter(({ case: c }) => countsAsPublished(c)).length,
      fromMemory: judgements.filter(({ case: c }) => c.basis !== "published").length,
      mustDiffer: judgements.filter(({ case: c }) => c.mustDiffer).length,
      values: judgements.reduce((sum, { outcomes }) => sum + outcomes.length, 0),
      failed: judgements.filter(({ passed }) => !passed).length,
    },
  };
}
