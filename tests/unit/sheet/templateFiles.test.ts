import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { expect, test } from "vitest";

const folder = join(import.meta.dirname, "../../../src/templates");
const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".json"));

/** Names that stand twice in one object, with their lines: JSON silently takes the last. */
function twice(text: string): string[] {
  const source = ts.parseJsonText("template.json", text);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isObjectLiteralExpression(node)) {
      const names = new Set<string>();
      for (const property of node.properties) {
        const name = property.name?.getText(source) ?? "";
        const line = source.getLineAndCharacterOfPosition(property.getStart(source)).line + 1;
        if (names.has(name)) found.push(`${name} in line ${line}`);
        names.add(name);
      }
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

test("a name that stands twice is found", () => {
  expect(twice('{ "a": 1,\n "b": { "a": 1,\n "a": 2 } }')).toEqual(['"a" in line 3']);
});

test.each(files)("%s says nothing twice in one object", (file) => {
  expect(twice(readFileSync(join(folder, file), "utf8"))).toEqual([]);
});
