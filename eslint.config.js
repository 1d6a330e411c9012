import { createNodeResolver, importX } from "eslint-plugin-import-x";
import tseslint from "typescript-eslint";

/** Folder of each area and the areas it may use. Arrows of the design: core <- cells <- sheet <- hosts <- checker <- office <- taskpane, command; core <- functions <- hosts. */
const areas = {
  core: { folder: "./src/core", uses: [] },
  cells: { folder: "./src/cells", uses: ["core"] },
  sheet: { folder: "./src/sheet", uses: ["core", "cells"] },
  templates: { folder: "./src/templates", uses: ["sheet"], doors: ["./index.ts", "./catalogue.ts", "./offices.ts"] },
  functions: { folder: "./functions", uses: ["core"] },
  published: { folder: "./src/published", uses: ["core", "functions"] },
  typeset: { folder: "./src/typeset", uses: ["core"] },
  reference: { folder: "./src/reference", uses: ["core", "functions", "published", "typeset"] },
  hosts: { folder: "./src/hosts", uses: ["cells", "sheet", "functions"] },
  checker: {
    folder: "./src/checker",
    uses: ["core", "cells", "sheet", "templates", "functions", "published", "hosts", "typeset"],
  },
  office: { folder: "./src/office", uses: ["core", "cells", "sheet", "templates", "hosts", "checker"] },
  taskpane: {
    folder: "./taskpane",
    uses: ["core", "cells", "sheet", "templates", "functions", "hosts", "typeset", "checker", "office"],
  },
  command: {
    folder: "./src/command",
    uses: [
      "core",
      "cells",
      "sheet",
      "templates",
      "functions",
      "published",
      "hosts",
      "typeset",
      "reference",
      "checker",
      "office",
    ],
  },
};

/** For each area: nothing of the areas it may not use, and only the index of those it may. */
const zones = Object.entries(areas).flatMap(([name, { folder, uses }]) => [
  ...Object.entries(areas)
    .filter(([other]) => other !== name)
    .map(([other, { folder: from, doors = ["./index.ts"] }]) =>
      uses.includes(other)
        ? { target: folder, from, except: doors, message: `${name} enters ${other} through its index only.` }
        : { target: folder, from, message: `${name} does not depend on ${other}.` },
    ),
  { target: folder, from: "./tests", message: `${name} does not depend on the tests.` },
]);

const mathjs = { name: "mathjs", message: "Only Trace, computing copies, the reference and the tests use mathjs." };
const fxBehindCells = {
  selector: "ImportDeclaration[source.value='@borgar/fx']",
  message: "Formulas are read and written by src/cells alone.",
};
const reasonBehindLoading = {
  selector: "ImportSpecifier[imported.name='reasonOf']",
  message: "A part of the page may not have come: whyNot of taskpane/loading.ts says so, and all else as it is.",
};
const unused = ["error", { argsIgnorePattern: "^_", varsIgnorePattern: "^_" }];

export default tseslint.config(
  { ignores: ["node_modules/", "dist/", ".cache/"] },
  {
    files: ["**/*.{ts,tsx}"],
    extends: [tseslint.configs.recommendedTypeChecked],
    languageOptions: {
      parserOptions: {
        projectService: true,
        tsconfigRootDir: import.meta.dirname,
      },
    },
    plugins: { "import-x": importX },
    settings: {
      "import-x/resolver-next": [createNodeResolver({ extensions: [".ts", ".tsx", ".mjs", ".js", ".json"] })],
    },
    rules: {
      "import-x/no-restricted-paths": ["error", { zones }],
      "@typescript-eslint/no-unused-vars": unused,
      "@typescript-eslint/consistent-type-imports": "error",
      "no-empty": ["error", { allowEmptyCatch: false }],
      eqeqeq: "error",
    },
  },
  {
    files: ["**/*.{js,mjs,cjs}"],
    extends: [tseslint.configs.base],
    rules: { "no-empty": ["error", { allowEmptyCatch: false }], eqeqeq: "error" },
  },
  // What Prettier leaves long, texts above all, is broken by hand; a regular expression cannot be.
  {
    files: ["**/*.{ts,tsx}"],
    rules: { "max-len": ["error", { code: 140, ignoreRegExpLiterals: true }] },
  },
  // The calculation and the sheets are pure: they say nothing to a console.
  { files: ["src/core/**", "src/cells/**", "src/sheet/**"], rules: { "no-console": "error" } },
  // One door to what reads formulas.
  {
    files: ["src/**", "functions/**", "taskpane/**"],
    ignores: ["src/cells/**"],
    rules: { "no-restricted-syntax": ["error", fxBehindCells] },
  },
  // Whatever the panel says of an error may be of a part that did not come.
  {
    files: ["taskpane/**"],
    ignores: ["taskpane/loading.ts"],
    rules: { "no-restricted-syntax": ["error", fxBehindCells, reasonBehindLoading] },
  },
  // mathjs is large: it stays out of all that loads first.
  {
    files: ["src/**", "functions/**", "taskpane/**"],
    ignores: [
      "taskpane/trace/**",
      "src/checker/trace/**",
      "src/checker/portable/equation.ts",
      "src/typeset/**",
      "src/reference/**",
    ],
    rules: { "no-restricted-imports": ["error", { paths: [mathjs] }] },
  },
  // Templates come to pages one by one: what pages use too asks the catalogue for the one it needs.
  {
    files: ["src/checker/**", "src/office/**", "taskpane/**"],
    rules: {
      "import-x/no-restricted-paths": [
        "error",
        {
          zones: [
            ...zones,
            {
              target: ["./src/checker", "./src/office", "./taskpane"],
              from: "./src/templates/index.ts",
              message: "All templates at once are for commands and tests.",
            },
          ],
        },
      ],
    },
  },
  // Trace and the checker's tools load when they are first shown.
  {
    files: ["taskpane/**"],
    ignores: [
      ...["taskpane/trace/**", "taskpane/check/*/**", "taskpane/build/membersForm.tsx"],
      ...["keepForm.tsx", "aboutTemplate.ts", "understoodList.tsx", "notATemplates.tsx"].map(
        (file) => `taskpane/templates/${file}`,
      ),
    ],
    rules: {
      "no-restricted-imports": ["error", { paths: [mathjs] }],
      "@typescript-eslint/no-restricted-imports": [
        "error",
        {
          patterns: [
            {
              group: ["**/checker/index.ts", "**/office/index.ts", "**/trace/traceView.tsx"],
              allowTypeImports: true,
              message: "What the panel loads first leaves Trace and the checker out.",
            },
          ],
        },
      ],
    },
  },
);
