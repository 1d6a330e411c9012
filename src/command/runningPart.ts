import ts from "typescript";

/**
 * What people read about a formula and no call needs: the panel, the reference and functions.json have it from the declarations themselves.
 * Not among them: names, texts and ranges of parameters, limits and cautions, for messages and KERN.WARNINGS say them.
 */
const onlyRead: ReadonlySet<string> = new Set([
  // Said of the whole function.
  "family",
  "summary",
  "notes",
  "empirical",
  "unpublished",
  // Where it comes from; the bibliography goes with it.
  "source",
  "sourceFollows",
  // What several functions put into their equations and summaries.
  "says",
  "tex",
]);

/** The second way of computing, which Trace and the tests drive to zero: stands beside the first. Elsewhere the word means a load. */
const besideCompute = "proof";

/** How a step is written down; a call computes it with `compute`. */
const workings: ReadonlySet<string> = new Set(["equation", "governing", "lookup", "cases"]);
/** All that a step says of itself; its name alone counts for a call, since the last one is the result. */
const ofStep: ReadonlySet<string> = new Set([...workings, "symbol", "unit", "reads", "text", "clause"]);

const nameOf = ({ name }: ts.ObjectLiteralElementLike): string | undefined =>
  name && (ts.isIdentifier(name) || ts.isStringLiteral(name)) ? name.text : undefined;

/** Is it a step of a calculation, and nothing besides? */
function isStep({ properties }: ts.ObjectLiteralExpression): boolean {
  const names = properties.filter((p) => !ts.isSpreadAssignment(p)).map(nameOf);
  return names.some((name) => workings.has(name ?? "")) && names.every((name) => ofStep.has(name ?? ""));
}

function isOnlyRead(property: ts.ObjectLiteralElementLike, { properties }: ts.ObjectLiteralExpression): boolean {
  const name = nameOf(property) ?? "";
  return (
    onlyRead.has(name) ||
    workings.has(name) ||
    (name === besideCompute && properties.some((p) => nameOf(p) === "compute"))
  );
}

/** Leaves out of declarations what a running function does not need: the spreadsheet program loads all functions at every start. */
export const runningPart: ts.TransformerFactory<ts.SourceFile> = (context) => {
  const visit = (node: ts.Node): ts.Node => {
    if (!ts.isObjectLiteralExpression(node)) return ts.visitEachChild(node, visit, context);
    const kept = node.properties.filter(
      isStep(node) ? (p) => !ofStep.has(nameOf(p) ?? "") : (p) => !isOnlyRead(p, node),
    );
    return ts.visitEachChild(context.factory.updateObjectLiteralExpression(node, kept), visit, context);
  };
  return (file) => ts.visitEachChild(file, visit, context);
};
