import { parseArgs } from "node:util";
import { reasonOf } from "../../core/index.ts";
import { worksheetFunctions } from "../../../functions/index.ts";
import { publishedCases } from "../cases.ts";
import type { Voice } from "../voice.ts";
import { checkFree, NotWritten, writeSafely } from "../writeSafely.ts";
import { verificationBook } from "./book.ts";
import { survey } from "./survey.ts";
import { surveyJson, surveyText } from "./text.ts";

const help = `Compares every published result with what the functions give.

  npm run -s verify                      each check, the counts, what is to be looked at, the functions without a check
  npm run -s verify -- --json            the same for programs
  npm run -s verify -- --html book.html  the verification book: one printable document, beside a short answer on the screen

  --force   replaces a file that is there already
  --help    this text

Ends with 0 when every check is as it should be, 1 when one fails, 2 when it was called wrongly or the file could not be written.`;

const options = {
  help: { type: "boolean" },
  json: { type: "boolean" },
  html: { type: "string" },
  force: { type: "boolean" },
} as const;

/** Runs the command and gives its exit code. */
export function runVerify(words: readonly string[], { say, complain }: Voice): number {
  let asked;
  try {
    asked = parseArgs({ args: [...words], options }).values;
    if (asked.html === "") throw new Error("--html wants the file to write, such as book.html");
    if (asked.json && asked.html !== undefined) throw new Error("--json and --html exclude each other");
    if (asked.html !== undefined) checkFree(asked.html, asked.force === true);
  } catch (error) {
    complain(`${reasonOf(error)}\nTry --help.`);
    return 2;
  }
  if (asked.help) {
    say(help);
    return 0;
  }
  const found = survey(worksheetFunctions, publishedCases());
  if (asked.html !== undefined) {
    try {
      writeSafely(
        asked.html,
        Buffer.from(verificationBook(found, new Date().toISOString().slice(0, 10))),
        asked.force === true,
        complain,
      );
    } catch (error) {
      if (!(error instanceof NotWritten)) throw error;
      complain(error.message);
      return 2;
    }
    surveyText(found).slice(-2).forEach(say);
    say(`written to ${asked.html}`);
  } else if (asked.json) {
    say(JSON.stringify(surveyJson(found), null, 2));
  } else {
    surveyText(found).forEach(say);
  }
  return found.total.failed === 0 ? 0 : 1;
}
