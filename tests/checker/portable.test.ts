import * as mathjs from "mathjs/number";
import { expect, it } from "vitest";
import { formulas } from "../../../src/core/index.ts";
import { ourFunctions } from "../../../functions/index.ts";
import { helpers, lambdaText, translated, withHelpers } from "../../../src/checker/portable/index.ts";
import { definedFunctions } from "../../../src/cells/index.ts";
import { callsOf } from "./calls.ts";

it("proves", async () => {
  const defs = helpers.map((h) => ({ name: h.name, formula: "=" + lambdaText(h) }));
  const calls: any[] = [];
  const only = process.env["ONLY"];
  for (const f of formulas) {
    if (only && !f.id.includes(only)) continue;
    const t = translated(f, mathjs as never, withHelpers);
    if ("why" in t) continue;
    defs.push({ name: t.name, formula: "=" + lambdaText(t) });
    for (const c of callsOf(f, Number(process.env["ACC"] ?? 4), Number(process.env["CH"] ?? 12)))
      calls.push({ ...c, name: t.name });
  }
  console.log(calls.length, process.cpuUsage().user / 1e6);
  const all = definedFunctions(ourFunctions, defs);
  const bad: string[] = [];
  const badIds = new Set<string>();
  for (const c of calls) {
    const r: any = all.get(c.name.toUpperCase())!.call(c.args);
    const v = r.error ? r.error.code : r.value;
    const ok =
      c.value === undefined
        ? v === c.message
        : typeof v === "number" && (v === c.value || Math.abs(v / c.value - 1) <= 1e-12);
    if (!ok) {
      badIds.add(c.id);
      bad.push(`${c.name} ${JSON.stringify(c.args)}\n   expected ${c.value ?? c.message}\n   got      ${v}`);
    }
  }
  console.log(process.cpuUsage().user / 1e6);
  console.log(bad.length, [...badIds].join(" "));
  console.log(bad.slice(0, Number(process.env["SHOW"] ?? 40)).join("\n"));
}, 300000);
