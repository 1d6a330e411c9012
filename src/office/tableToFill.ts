import type { FileSheet } from "../hosts/index.ts";
import { missingText, plainSymbol, type MissingInput, type Template } from "../sheet/index.ts";
import { builtMember, missingOn, plannedMember, type Run } from "./memberSheets.ts";
import { remarkWord } from "./memberTable.ts";
import { placeOf } from "./settings.ts";

/** A table of members with a column for each input that has to be given, and a row that says what each is. */
export interface TableToFill {
  readonly rows: readonly (readonly string[])[];
  /** The sheets it was read from: without any value of a member. */
  readonly sheets: readonly FileSheet[];
}

/** "span, L [m]"; "exposure for the tension limits: XC1, XC2_XC4, XD_XS". */
function saying({ plan }: FileSheet, missing: MissingInput, templates: readonly Template[]): string {
  const id = missing.id.replace(/\[.*$/, "");
  const unit = plainSymbol(plan.meanings.find((one) => one.id === id)?.unit ?? "–");
  const choices = templates.flatMap((template) => placeOf(template, id)?.input.choices ?? []);
  return (
    missingText(missing) +
    (unit === "–" || unit === "" ? "" : ` [${unit}]`) +
    (choices.length === 0 ? "" : `: ${[...new Set(choices.map(({ value }) => value))].join(", ")}`)
  );
}

/** What the members of a run still have to give beside what is given for all. Throws Refused. */
export function tableToFill(template: Template, run: Run): TableToFill {
  const nobody = { name: "member", line: 1, template, settings: new Map(), linkedSettings: new Map(), chosen: {} };
  const { sheets } = builtMember(plannedMember(nobody, run), run, "");
  const templates = [template, ...run.linked(template)];
  const columns = new Map(
    sheets.flatMap((sheet) => missingOn(sheet).map((one) => [one.id, saying(sheet, one, templates)] as const)),
  );
  return {
    rows: [
      ["member", ...columns.keys()],
      [remarkWord, ...columns.values()],
    ],
    sheets,
  };
}
