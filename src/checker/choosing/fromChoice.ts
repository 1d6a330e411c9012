import { cellAt } from "../../cells/index.ts";
import type { Host } from "../../hosts/index.ts";
import { rootId, type Inputs, type InputValue, type Template } from "../../sheet/index.ts";
import type { Answers } from "../quickStart/answers.ts";
import { sectionInputs, type SectionType } from "../quickStart/sections.ts";
import { recognise } from "../recognise/recognise.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { standing } from "../recognise/standing.ts";

/** The numbers of a sheet cannot go to a stress check: the message says why and what to do. */
export class NotChosen extends Error {
  override readonly name = "NotChosen";
}

/** The stress check that follows from a choice. */
export interface FromChoice {
  readonly template: Template;
  readonly answers: Answers;
}

/** The values of a row or column of a sheet, as they stand on it. */
class Values {
  constructor(private readonly sheet: Recognised) {}

  #cell(id: string, line: number): unknown {
    const meaning = this.sheet.plan.meanings.find((one) => one.id === id);
    const at = meaning && standing(this.sheet, { row: meaning.at.row + line, column: meaning.at.column });
    return at && cellAt(this.sheet.snapshot, at.row, at.column).value;
  }

  has(id: string, line = 0): boolean {
    const value = this.#cell(id, line);
    return value !== undefined && value !== null && value !== "";
  }

  number(id: string, line = 0): number {
    const value = this.#cell(id, line);
    if (typeof value !== "number") throw new NotChosen(`${this.#named(id)} has no number: fill in the sheet first.`);
    return value;
  }

  text(id: string, line = 0): string {
    const value = this.#cell(id, line);
    if (typeof value !== "string" || value === "")
      throw new NotChosen(`${this.#named(id)} is not chosen: fill in the sheet first.`);
    return value;
  }

  #named(id: string): string {
    const meaning = this.sheet.inputCells.find((one) => one.id === id);
    return meaning?.says.text ?? id;
  }
}

/** Inputs that both kinds of sheet have by one name. */
const alike = [
  "psi1",
  "psi2",
  "gamma",
  "RH",
  "ts",
  "tEnd",
  "tg",
  "exposure",
  "surroundings",
  "zone",
  "memberType",
  "ftTransferIn",
];

/** Worked out here from what was entered: nobody has said them, and they are marked until somebody confirms them. */
const workedOut: ReadonlySet<string> = new Set(["members", "tBed"]);

const bothEnds = (values: Values, line: number): boolean => line === 1 && values.text("jacks") === "BOTH";

function furtherInputs(values: Values, line: number, en: boolean): Record<string, InputValue> {
  const same = alike
    .filter((id) => values.has(id))
    .map(
      (id) => [id, ["exposure", "surroundings", "zone"].includes(id) ? values.text(id) : values.number(id)] as const,
    );
  const own: Record<string, InputValue> = Object.fromEntries(same);
  const atTransfer = values.number("fcktM", line);
  const t0 = values.number("t0M", line);
  own["t0"] = t0;
  own[en ? "fckt" : "fci"] = atTransfer;
  if (en) own["cement"] = values.text("cemM", line);
  if (line === 0) {
    own["bedLength"] = values.number("bedLength");
    own["overU"] = Math.round((values.number("unitL") - values.number("L")) * 500) / 1000;
    own["slip"] = values.number("slipBed");
    const units = values.number("unBed");
    if (units < 1) throw new NotChosen("no unit fits on the bed: correct its length or that of the unit first.");
    own["members"] = units;
    if (en) own["tBed"] = 24 * t0 + 24;
    return own;
  }
  own["slip"] = values.number("slipPost");
  if (bothEnds(values, line)) own["twoJacks"] = "YES";
  if (en) {
    // Here the wobble stands beside μ, there as an angle inside it.
    const [mu, wobble] = [values.number("mu"), values.number("kw")];
    if (mu === 0 && wobble > 0)
      throw new NotChosen(
        `a wobble of ${wobble} per metre cannot go with μ = 0: there it is an angle times μ. Enter a μ above 0.`,
      );
    own["mu"] = mu;
    own["k"] = mu > 0 ? wobble / mu : 0;
  } else {
    // There μ by test comes before the table of surfaces.
    own["muTest"] = values.number("mu");
    own["k"] = values.number("kw");
  }
  return own;
}

/** What a sheet for choosing and sizing says of the method chosen, as the beginning of a stress check; nothing is built. */
export async function fromChoice(
  host: Host,
  sheet: string,
  templateOf: (id: string) => Promise<Template>,
): Promise<FromChoice> {
  const choice = await recognise(host, sheet);
  if (!choice || !rootId(choice.template).startsWith("choosing-"))
    throw new NotChosen(
      `“${sheet}” is no sheet for choosing and sizing: select a cell of one, or build one under Build.`,
    );
  const values = new Values(choice);
  const method = values.text("method");
  const line = method === "PRE" ? 0 : 1;
  const standard = rootId(choice.template).slice("choosing-".length);
  const id = `${line === 0 ? "pre" : "post"}-tensioned-${standard}`;
  if (!values.has("nM", line))
    throw new NotChosen(`“${sheet}” has found no strands for this method: fill in the sheet, or choose the other one.`);
  const section = String(choice.plan.inputs["section"] ?? "I") as SectionType;
  const ids = sectionInputs(section);
  const dimensions: Inputs = Object.fromEntries(ids.map((one) => [one, values.number(one)]));
  const en = standard.startsWith("en");
  const inputs = furtherInputs(values, line, en);
  const typed = ids.filter((one) => values.has(`${one}In`));
  return {
    template: await templateOf(id),
    answers: {
      L: values.number("L"),
      section,
      h: values.number("h"),
      fck: values.number("fckM", line),
      gs: values.number("gs"),
      ql: values.number("ql"),
      demand: en ? values.text("exposure") : values.number("memberType"),
      product: values.text("productM", line),
      sizing: {
        strands: values.number("nM", line),
        tendons: values.number("nT", line),
        e: values.number("eM", line),
        sigj: values.number("sigjM", line),
        dimensions,
        said: new Set([...typed, "both", ...Object.keys(inputs).filter((one) => !workedOut.has(one))]),
        inputs,
        ...(bothEnds(values, line) && { eachTendon: { both: "YES" } }),
      },
    },
  };
}
