import { expect, it } from "vitest";
import { all, create } from "mathjs";
import { logoToTake } from "../../src/hosts/index.ts";
import { readHandOut, readPortable } from "../../src/checker/index.ts";
import { blankPng } from "../hosts/blankPng.ts";
import { openFake } from "../hosts/openFake.ts";
import { smallPlan } from "../hosts/smallPlan.ts";
import { memoryCalculator } from "../hosts/excelFake/memoryCalculator.ts";
import { logoName, withLogo, type Plan } from "../../src/sheet/index.ts";

const facts = { when: "today", host: "test" };
const texts = ({ cells }: Plan): string => cells.map(({ value }) => String(value ?? "")).join("\n");

it("copies go on without a logo that cannot be taken along, and say so", async () => {
  const { excel, host } = openFake({ calculator: memoryCalculator() });
  const logo = { image: `data:image/png;base64,${blankPng(40, 10)}`, width: 30 };
  const wide = Array.from({ length: 16 }, () => 12);
  const plan = withLogo({ ...smallPlan, columns: 16, widths: wide }, logo);
  await host.apply(plan, { sheetName: "Beam", progress: () => undefined });
  const [shape] = excel.workbook.sheets.find(({ name }) => name === "Beam")!.shapes;
  // Somebody has drawn it out to a tall one: no width from 5 mm on makes it low enough.
  shape!.height = shape!.width * 4;
  const why = `Without the logo: the picture “${logoName}” cannot be taken along`;
  // What new sheets, changed sheets and templates start from.
  expect((await logoToTake(host, "Beam")).without).toContain(why);
  const { plan: handOut } = await readHandOut(host, "Beam", facts);
  expect(handOut.logo).toBeUndefined();
  expect(texts(handOut)).toContain(why);
  const { plan: portable } = await readPortable(host, "Beam", facts, create(all!));
  expect(portable.logo).toBeUndefined();
  expect(texts(portable)).toContain(why);
}, 120_000);
