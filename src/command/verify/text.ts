import { basisText, families, type Family } from "../../core/index.ts";
import { verdictOf } from "../../reference/index.ts";
import type { Judgement } from "../../published/index.ts";
import { grouped, type Concern, type Survey } from "./survey.ts";

const digits = (value: number): string => String(Number(value.toPrecision(8)));

function check(j: Judgement): readonly string[] {
  const { id, function: name, step, source, where, basis, unit, because, note, mustDiffer } = j.case;
  return [
    `${j.passed ? "✓" : "✗"} ${id}   KERN.${name}${step ? `, step ${step}` : ""}   [${basis}${mustDiffer ? ", must differ" : ""}]`,
    `    ${source}; ${where}`,
    ...j.outcomes.flatMap((o) => [
      `    printed ${o.row.printed} ${unit}   computed ` +
        `${o.computed === undefined ? "–" : digits(o.computed)}   tolerance ±${digits(o.tolerance)}   ` +
        `${verdictOf(j, o)}${o.row.then ? `   (${o.row.then.text})` : ""}`,
      ...(o.row.because ? [`        tolerance because: ${o.row.because}`] : []),
    ]),
    ...(because ? [`    tolerance because: ${because}`] : []),
    ...(note ? [`    note: ${note}`] : []),
  ];
}

/** What each list of cases to be looked at is headed. */
export const concernText: Readonly<Record<Concern, string>> = {
  failed: "Failed",
  superseded: "Superseded values that the function must not give",
  "wider tolerance": "Compared with more than half a unit of the last printed digit, with the reason",
  "from memory": "Recalled or second-hand: not counted as published",
  note: "Notes: errors and disagreements of sources, parts left out, inputs derived",
};

function table(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  return rows.map(
    (row) => `  ${row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join("  ")}`,
  );
}

/** The whole answer, line by line: each check, the counts, the cases to be looked at, the functions without a check, the total. */
export function surveyText({ judgements, functions, listed, byBasis, byCheck, total }: Survey): readonly string[] {
  const without = functions.filter(({ published }) => published === 0);
  const concerns = [...new Set(listed.map(({ concern }) => concern))];
  const ofFamily = (Object.keys(families) as readonly Family[])
    .map((family) => ({ family, own: functions.filter((f) => f.declaration.family === family) }))
    .filter(({ own }) => own.length > 0);
  return [
    ...judgements.flatMap(check),
    "",
    "Checks by function (published, from memory):",
    ...functions
      .filter((f) => f.published + f.fromMemory > 0)
      .map((f) => `  KERN.${f.id}: ${f.published}, ${f.fromMemory}`),
    "",
    "Functions by subject:",
    ...table([
      ["", "functions", "with a published check", "from memory only", "without"],
      ...ofFamily.map(({ family, own }) => [
        families[family],
        String(own.length),
        String(own.filter((f) => f.published > 0).length),
        String(own.filter((f) => f.published === 0 && f.fromMemory > 0).length),
        String(own.filter((f) => f.published + f.fromMemory === 0).length),
      ]),
    ]),
    "",
    "Functions by how their source was established:",
    ...table([
      ["", "functions", "with a published check", "from memory only", "without"],
      ...byBasis
        .filter((b) => b.functions > 0)
        .map((b) => [
          basisText[b.basis],
          String(b.functions),
          String(b.published),
          String(b.fromMemoryOnly),
          String(b.unchecked),
        ]),
    ]),
    "",
    "Checks by how the printed result was established:",
    ...table([
      ["", "checks", "values", "failed"],
      ...byCheck.map((b) => [b.basis, String(b.cases), String(b.values), String(b.failed)]),
    ]),
    ...concerns.flatMap((concern) => [
      "",
      `${concernText[concern]}:`,
      ...grouped(listed, concern).map(
        ({ reason, cases }) => `  ${cases.map((c) => `${c.id} (KERN.${c.function})`).join(", ")}: ${reason}`,
      ),
    ]),
    "",
    "Functions without a published check:",
    ...without.map(
      ({ id, declaration, fromMemory }) =>
        `  KERN.${id}: ${declaration.unpublished ?? "no reason given"}${fromMemory > 0 ? ` (${fromMemory} from memory)` : ""}`,
    ),
    "",
    `${total.cases} checks with ${total.values} values: ${total.published} published, ${total.fromMemory} ` +
      `from memory, ${total.mustDiffer} of superseded values that must differ; ${total.failed} failed`,
    `${total.withPublished} of ${total.functions} functions have a published check`,
  ];
}

/** The same for programs. */
export function surveyJson({ judgements, functions, listed, byBasis, byCheck, total }: Survey): unknown {
  return {
    checks: judgements.map(({ case: c, outcomes, passed }) => ({
      ...c,
      rows: outcomes.map(({ row, computed, error, tolerance, agrees }) => ({
        ...row,
        computed,
        error,
        tolerance,
        agrees,
      })),
      passed,
    })),
    functions: functions.map(({ id, declaration, published, fromMemory, mustDiffer }) => ({
      id,
      basis: declaration.source.basis,
      published,
      fromMemory,
      mustDiffer,
      ...(declaration.unpublished !== undefined && { unpublished: declaration.unpublished }),
    })),
    byBasis,
    byCheck,
    listed: listed.map(({ judgement: { case: c }, concern, reason }) => ({
      id: c.id,
      function: c.function,
      concern,
      reason,
    })),
    total,
  };
}
