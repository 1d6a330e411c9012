import { ESLint, type Linter } from "eslint";
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import tseslint from "typescript-eslint";
import { beforeAll, describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
let eslint: ESLint;

/** Rules that a text would break if it stood in that file. */
async function broken(file: string, code: string): Promise<readonly string[]> {
  const [result] = await eslint.lintText(code, { filePath: `${root}${file}` });
  return result!.messages.map(({ ruleId, message }) => ruleId ?? message);
}

/** An existing file of the area. */
const someFile = (folder: string): string =>
  `${folder}/${readdirSync(`${root}${folder}`).find((name) => name.endsWith(".ts") && name !== "index.ts")!}`;

beforeAll(() => {
  // None of these rules asks for types; working them out for each text would take most of the time.
  eslint = new ESLint({ cwd: root, overrideConfig: tseslint.configs.disableTypeChecked as Linter.Config });
});

describe("the dependency rule is an error", () => {
  const forbidden: readonly (readonly [string, string, string])[] = [
    ["core", "src/core/run.ts", "../sheet/index.ts"],
    ["core", "src/core/run.ts", "../../functions/index.ts"],
    ["core", "src/core/run.ts", "../cells/index.ts"],
    ["cells", "src/cells/address/address.ts", "../../sheet/index.ts"],
    ["cells", "src/cells/address/address.ts", "../../../functions/index.ts"],
    ["sheet", "src/sheet/plan.ts", "../hosts/index.ts"],
    ["sheet", "src/sheet/plan.ts", "../../functions/index.ts"],
    ["functions", "functions/register.ts", "../src/hosts/index.ts"],
    ["functions", "functions/register.ts", "../src/sheet/index.ts"],
    ["hosts", "src/hosts/host/host.ts", "../../core/index.ts"],
    ["hosts", "src/hosts/host/host.ts", "../../command/build.ts"],
    ["published", "src/published/judge.ts", "../sheet/index.ts"],
    ["typeset", "src/typeset/symbols.ts", "../../functions/index.ts"],
    ["reference", "src/reference/pages.ts", "../command/cases.ts"],
    ["reference", "src/reference/pages.ts", "../hosts/index.ts"],
    ["command", "src/command/build.ts", "../../tests/all.ts"],
  ];
  it.each(forbidden)("%s (%s) may not import %s", async (_, file, wanted) => {
    expect(await broken(file, `import "${wanted}";\n`)).toContain("import-x/no-restricted-paths");
  });

  it("an area is entered through its index only", async () => {
    expect(await broken("src/hosts/host/host.ts", 'import "../../sheet/plan.ts";\n')).toContain(
      "import-x/no-restricted-paths",
    );
    expect(await broken("src/command/build.ts", 'import "../sheet/plan.ts";\n')).toContain(
      "import-x/no-restricted-paths",
    );
    expect(await broken("functions/register.ts", 'import "../src/core/run.ts";\n')).toContain(
      "import-x/no-restricted-paths",
    );
  });

  it("what the arrows allow is no error", async () => {
    expect(
      await broken("src/hosts/host/host.ts", 'import "../../sheet/index.ts";\nimport "../../../functions/index.ts";\n'),
    ).toEqual([]);
    expect(await broken("functions/register.ts", 'import "../src/core/index.ts";\n')).toEqual([]);
  });
});

describe("other house rules are errors", () => {
  it("no console in the core and in sheets", async () => {
    expect(await broken("src/core/run.ts", 'console.log("x");\n')).toContain("no-console");
    expect(await broken(someFile("src/sheet"), 'console.log("x");\n')).toContain("no-console");
  });

  it("no swallowed error", async () => {
    expect(await broken("src/core/run.ts", "try { void 0; } catch { }\n")).toContain("no-empty");
  });

  it("no mathjs outside Trace and the tests", async () => {
    expect(await broken("src/core/run.ts", 'import "mathjs";\n')).toContain("no-restricted-imports");
    expect(await broken("functions/register.ts", 'import "mathjs";\n')).toContain("no-restricted-imports");
  });
});
