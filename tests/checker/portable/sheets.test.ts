import { it } from "vitest";
import { planValues } from "../../../src/hosts/index.ts";
import { outOfDate, portableHeadRows } from "../../../src/checker/portable/index.ts";
import { templates } from "../../../src/templates/index.ts";
import { expand } from "../../../src/sheet/index.ts";
import { copyOf } from "./copied.ts";

const only = process.env["ONLY"] ?? "";
it.each(templates.filter((t) => t.id.includes(only)).map((t) => [t.id, t] as const))("%s", async (_id, t) => {
  const { plan, original } = await copyOf(t);
  for (const [id, value] of [["ql", 11], ["gs", 10], ["fck", 45], ["L", 21.5], ["phi28", 1], ["k1", 0.55], ["rh", 70]] as const) {
    if (!(id in t.example.inputs)) { console.log(t.id, "no", id); continue; }
    let changed; try { changed = expand(t, { ...t.example.inputs, [id]: value }); } catch (e) { console.log(id, String(e).slice(0, 100)); continue; }
    const before = new Map(original.cells.filter((c) => c.formula === undefined).map((c) => [`${c.row} ${c.column}`, c.value]));
    const cells = changed.cells.filter((c) => c.formula === undefined && before.get(`${c.row} ${c.column}`) !== c.value);
    const values = new Map(cells.map((c) => [`${c.row + portableHeadRows} ${c.column}`, c.value]));
    if (cells.length !== 1) console.log("cells", cells.length);
    const copy = { ...plan, cells: plan.cells.map((c) => values.has(`${c.row} ${c.column}`) ? { ...c, value: values.get(`${c.row} ${c.column}`)! } : c) };
    const a = planValues(changed, "Beam")!;
    const b = planValues(copy, "Beam")!;
    const diffs: string[] = []; let na = 0, ood = 0, equal = 0, moved = 0;
    const old = planValues(original, "Beam")!;
    a.forEach((row, r) => row.forEach((c, col) => { const d = b[r + portableHeadRows]![col]!; if (c.formula === undefined) return; const x = c.error?.code ?? c.value, y = d.error?.code ?? d.value; 
      if (y === "#N/A") { na++; return; } if (y === outOfDate) { ood++; return; }
      const same = x === y || (x === "" && y === null) || (typeof x === "number" && typeof y === "number" && Math.abs(x - y) <= 1e-12 * Math.max(Math.abs(x), Math.abs(y))); if (same) { equal++; if (x !== (old[r]![col]!.error?.code ?? old[r]![col]!.value)) moved++; } else diffs.push(`${r} ${col} ${c.formula?.slice(0,80)} ${x} ${y} ${plan.cells.find((k) => k.row === r + portableHeadRows && k.column === col)?.formula?.slice(0,200)}`); }));
    const o = a[original.summary.overall.row]![original.summary.overall.column]!.value, p = b[plan.summary.overall.row]![plan.summary.overall.column]!.value;
    console.log(t.id, id, "equal", equal, "moved", moved, "#N/A", na, "ood", ood, "diff", diffs.length, "overall", o, p);
    console.log(diffs.slice(0, 8).join("\n"));
  }
}, 300000);
