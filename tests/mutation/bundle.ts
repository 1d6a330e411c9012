import { readFileSync, readdirSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { root } from "../../src/command/build.ts";
import type { Mutant } from "./alternatives.ts";
import { instrument } from "./instrument.ts";

/** Tests of the calculation that need neither grid nor page. */
const testFolders = [
  "unit/cracking",
  "unit/mechanics",
  "unit/en1992",
  "unit/functions",
  "property",
  "published",
  "equation",
  "contract",
  "fuzz",
];
/**
 * The calls at random take longest, and other tests see what they would see; the bundle of the worksheet functions is
 * built from the files as they are, so that no mutant gets into it.
 */
const leftOut = new Set(["fuzz.test.ts", "bundle.test.ts"]);

export interface MutantInFile extends Mutant {
  readonly id: number;
  readonly file: string;
  readonly line: number;
}

export interface Bundle {
  /** Everything, core and tests, as the body of a function of `require`, `module` and `mutants`. */
  readonly code: string;
  readonly mutants: readonly MutantInFile[];
}

function filesIn(folder: string, matches: (name: string) => boolean): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && matches(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

/** Files of the core whose path holds one of the words; all where there is none. */
export function coreFiles(words: readonly string[]): readonly string[] {
  return filesIn(join(root, "src", "core"), (name) => name.endsWith(".ts")).filter(
    (file) => words.length === 0 || words.some((word) => relative(root, file).includes(word)),
  );
}

interface Wanted {
  /** One mutant in so many. */
  readonly every?: number;
  /** Bounds and everyday ranges of declarations too. */
  readonly ranges?: boolean;
  /** Folders of tests. */
  readonly folders?: readonly string[];
}

/**
 * Builds core and tests into one piece, with the mutants wanted of the files given asleep in it. All others stay out:
 * each costs time wherever the calculation passes it.
 */
export async function bundle(
  files: readonly string[],
  { every = 1, ranges = false, folders = testFolders }: Wanted = {},
): Promise<Bundle> {
  let passed = 0;
  const choose = (isRange: boolean): boolean => (ranges || !isRange) && passed++ % every === 0;
  const mutants: MutantInFile[] = [];
  const codeOf = new Map<string, string>();
  for (const file of files) {
    const text = readFileSync(file, "utf8");
    const made = instrument(file, text, mutants.length, choose);
    codeOf.set(file, made.code);
    const first = mutants.length;
    made.mutants.forEach((mutant, i) =>
      mutants.push({
        ...mutant,
        id: first + i,
        file: relative(root, file),
        line: text.slice(0, mutant.at).split("\n").length,
      }),
    );
  }
  const harness = join(import.meta.dirname, "harness.ts");
  const tests = folders.flatMap((folder) =>
    filesIn(join(root, "tests", folder), (name) => name.endsWith(".test.ts") && !leftOut.has(name)),
  );
  const built = await build({
    stdin: {
      contents:
        [...tests, harness].map((file) => `import ${JSON.stringify(file)};`).join("\n") +
        `\nexport { gathered } from ${JSON.stringify(harness)};`,
      resolveDir: root,
      loader: "ts",
    },
    bundle: true,
    write: false,
    format: "cjs",
    platform: "node",
    target: "node20",
    packages: "external",
    // The tests are imported for what they do; the package says that only styles do anything when they are imported.
    ignoreAnnotations: true,
    logLevel: "silent",
    plugins: [
      {
        name: "mutants",
        setup(made) {
          made.onResolve({ filter: /^vitest$/ }, () => ({ path: harness }));
          made.onLoad({ filter: /\.ts$/ }, ({ path }) => ({
            // A file of the bundle still finds what lies beside it.
            contents: (codeOf.get(path) ?? readFileSync(path, "utf8"))
              .replaceAll("import.meta.url", JSON.stringify(pathToFileURL(path).href))
              .replaceAll("import.meta.dirname", JSON.stringify(dirname(path))),
            loader: "ts",
          }));
        },
      },
    ],
  });
  return { code: built.outputFiles[0]!.text, mutants };
}
