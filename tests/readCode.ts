/**
 * Compiles the whole project once and lints it with what the compiler has found out: each by itself would read all types
 * anew. Ends with 1 if types do not fit, 2 if the linter finds something, 3 for both.
 */
import { ESLint } from "eslint";
import ts from "typescript";
import { root } from "../src/command/build.ts";
import { join } from "node:path";

const config = ts.getParsedCommandLineOfConfigFile(
  join(root, "tsconfig.json"),
  {},
  {
    ...ts.sys,
    onUnRecoverableConfigFileDiagnostic: ({ messageText }) => {
      throw new Error(ts.flattenDiagnosticMessageText(messageText, "\n"));
    },
  },
);
if (!config) throw new Error("tsconfig.json cannot be read");
const program = ts.createProgram({ rootNames: config.fileNames, options: config.options });
const diagnostics = [...config.errors, ...ts.getPreEmitDiagnostics(program)];
if (diagnostics.length > 0)
  console.log(
    ts.formatDiagnosticsWithColorAndContext(diagnostics, {
      getCurrentDirectory: () => root,
      getCanonicalFileName: (name) => name,
      getNewLine: () => "\n",
    }),
  );

const eslint = new ESLint({
  cwd: root,
  overrideConfig: {
    files: ["**/*.{ts,tsx}"],
    languageOptions: { parserOptions: { projectService: false, programs: [program] } },
  },
});
const found = (await eslint.lintFiles(["."])).filter(({ messages }) => messages.length > 0);
if (found.length > 0) console.log(await (await eslint.loadFormatter("stylish")).format(found));
const wrong = found.some(({ errorCount, fatalErrorCount }) => errorCount + fatalErrorCount > 0);

process.exitCode = (diagnostics.length > 0 ? 1 : 0) + (wrong ? 2 : 0);
