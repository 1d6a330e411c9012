/**
 * A place in a work as a sentence names it: "Clause 5.10.6(2) (5.46)", "Equation (5.46)", "Table 3.1", "Annex B.2".
 * Tables, figures, annexes and equations are no clauses.
 */
export function clauseWords(clause: string): string {
  if (clause.startsWith("(")) return `${/[,–]/.test(clause) ? "Equations" : "Equation"} ${clause}`;
  if (/^\p{Lu}[\p{Lu}\p{Ll}]/u.test(clause)) return clause;
  if (/^\p{Ll}/u.test(clause)) return `Section on ${clause}`;
  return `${/^[^(]*,/.test(clause) && !/,\s*(?:Tables?|Annex(?:es)?|Fig|with)\b/.test(clause) ? "Clauses" : "Clause"} ${clause}`;
}
