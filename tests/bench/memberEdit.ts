/**
 * `npx tsx tests/bench/memberEdit.ts`: how long a stress check with all its linked sheets takes to follow one input, in
 * our own calculation and, with `--grid`, in the grid, by the clock and of the processor. Medians of `--times` edits (5)
 * on one machine; decides no test.
 */
import { linkedPlan } from "../../src/checker/index.ts";
import { openGridInNode, type Host } from "../../src/hosts/index.ts";
import { expand } from "../../src/sheet/index.ts";
import { allTemplates } from "../../src/templates/index.ts";
import { MemoryHost } from "../hosts/memory/memoryHost.ts";

const argumentOf = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const times = Number(argumentOf("--times") ?? 5);
const median = (of: readonly number[]): number => [...of].sort((a, b) => a - b)[Math.floor(of.length / 2)]!;
const progress = (): void => undefined;

type Entering = Host & Pick<MemoryHost, "enterAll">;

async function measured(host: Entering, id: string): Promise<void> {
  const source = allTemplates.find((one) => one.id === id)!;
  const linked = allTemplates.filter((one) => one.source?.template.id === id);
  // What the examples of linked sheets need of their source: topping, second stressing, a web that widens at the end.
  const needed = linked.flatMap(({ example }) => Object.entries(example.source ?? {}));
  const plan = expand(source, { ...source.example.inputs, ...Object.fromEntries(needed) });
  await host.apply(plan, { sheetName: "Beam", progress });
  for (const [i, one] of linked.entries())
    await host.apply(await linkedPlan(host, one, "Beam", one.example.inputs), {
      sheetName: `Linked ${i + 1}`,
      progress,
    });
  for (const input of ["gs", "fck"]) {
    const { at } = plan.meanings.find((one) => one.id === input)!;
    const first = Number(source.example.inputs[input]);
    const taken: number[] = [];
    const worked: number[] = [];
    for (let i = 1; i <= times; i++) {
      const [began, idle] = [performance.now(), process.cpuUsage()];
      await host.enterAll("Beam", [{ row: at.row, column: at.column, value: first * (1 + 0.001 * i) }]);
      taken.push(performance.now() - began);
      worked.push(process.cpuUsage(idle).user / 1000);
    }
    console.log(
      `${host.name}, ${id} with ${linked.length} linked sheets, ${input}: ${(median(taken) / 1000).toFixed(2)} s ` +
        `(${Math.min(...taken).toFixed(0)} to ${Math.max(...taken).toFixed(0)} ms), of processor ` +
        `${(median(worked) / 1000).toFixed(2)} s; aim 1 s`,
    );
  }
}

for (const id of ["post-tensioned-en1992-2004", "pre-tensioned-en1992-2004"]) {
  await measured(new MemoryHost(), id);
  if (!process.argv.includes("--grid")) continue;
  const host = await openGridInNode();
  try {
    await measured(host, id);
  } finally {
    host.dispose();
  }
}
