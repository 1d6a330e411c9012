import { it } from "vitest";
import { planValues } from "../../../src/hosts/index.ts";
import { portableHeadRows } from "../../../src/checker/portable/index.ts";
import { templates } from "../../../src/templates/index.ts";
import { copyOf } from "./copied.ts";

it.each(templates.map((t) => [t.id, t] as const))("%s", async (_id, t) => {
  let t0 = Date.now();
  const { plan, counts, original } = await copyOf(t);
  console.log(t.id, counts.computing, counts.staying, counts.warnings, counts.functions.length, counts.values.join(" "), Date.now() - t0);
  t0 = Date.now();
  const a = planValues(original, "Beam")!;
  const b = planValues(plan, "Beam");
  console.log("computed", b !== undefined, Date.now() - t0, plan.cells.length, Math.max(...plan.cells.map((c) => c.formula?.length ?? 0)));
  if (!b) return;
  const diffs: string[] = [];
  a.forEach((row, r) => row.forEach((c, col) => { const d = b[r + portableHeadRows]![col]!; const x = c.error?.code ?? c.value, y = d.error?.code ?? d.value; const same = x === y || (x === "" && y === null) || (typeof x === "number" && typeof y === "number" && Math.abs(x - y) <= 1e-12 * Math.max(Math.abs(x), Math.abs(y))); if (!same) diffs.push(`${r} ${col} ${c.formula?.slice(0,80)} ${x} ${y} ${plan.cells.find((k) => k.row === r + portableHeadRows && k.column === col)?.formula?.slice(0,200)}`); }));
  console.log(diffs.length, diffs.slice(0, 12).join("\n"));
  console.log(b.flatMap((row, r) => { const m = row[plan.columns - 6]; return m?.value && typeof m.value === "string" && r > portableHeadRows ? [m.value] : []; }).slice(0, 5));
}, 300000);
