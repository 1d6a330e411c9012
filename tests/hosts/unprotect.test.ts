import { afterAll, beforeAll, expect, it } from "vitest";
import { openGridInNode, type GridHost } from "../../src/hosts/index.ts";
import { expand, type Template } from "../../src/sheet/index.ts";
import { small } from "../unit/office/smallTemplate.ts";

let host: GridHost;
beforeAll(async () => {
  host = await openGridInNode();
});
afterAll(() => host.dispose());

it("takes the protection off one sheet and leaves that of others", async () => {
  const plan = expand(small as unknown as Template, {});
  for (const sheetName of ["Beam", "Slab"]) await host.apply(plan, { sheetName, progress: () => undefined });
  const { row, column } = plan.meanings.find(({ id }) => id === "Fmax")!.at;
  const put = (sheet: string) => host.enterAll(sheet, [{ row, column, value: 30 }]);
  await expect(put("Beam")).rejects.toThrow(/is protected/);
  await host.unprotect("Beam");
  await put("Beam");
  expect((await host.read("Beam", { row, column, rows: 1, columns: 1 }))[0]![0]!.value).toBe(30);
  await expect(put("Slab")).rejects.toThrow(/is protected/);
});
