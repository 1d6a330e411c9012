const greek: Readonly<Record<string, string>> = {
  α: "\\alpha",
  β: "\\beta",
  γ: "\\gamma",
  δ: "\\delta",
  ε: "\\varepsilon",
  ζ: "\\zeta",
  η: "\\eta",
  θ: "\\theta",
  κ: "\\kappa",
  λ: "\\lambda",
  μ: "\\mu",
  µ: "\\mu",
  ν: "\\nu",
  ξ: "\\xi",
  π: "\\pi",
  ρ: "\\rho",
  σ: "\\sigma",
  τ: "\\tau",
  φ: "\\varphi",
  ϕ: "\\phi",
  χ: "\\chi",
  ψ: "\\psi",
  ω: "\\omega",
  Γ: "\\Gamma",
  Δ: "\\Delta",
  Θ: "\\Theta",
  Λ: "\\Lambda",
  Ξ: "\\Xi",
  Π: "\\Pi",
  Σ: "\\Sigma",
  Φ: "\\Phi",
  Ψ: "\\Psi",
  Ω: "\\Omega",
  "∞": "\\infty",
  "′": "'",
  "−": "-",
  "–": "-",
};

/** A piece of a symbol: letters with a subscript. */
interface SymbolPart {
  readonly base: string;
  readonly sub: string;
}

/** `σ_p0` is σ with p0; brackets end a subscript and their contents are symbols themselves, as in `β_c(t,t_0)`. */
export function symbolParts(symbol: string): readonly SymbolPart[] {
  let depth = 0;
  return symbol.split(/([()])/).flatMap((piece): readonly SymbolPart[] => {
    if (piece === "") return [];
    if (piece === "(" || piece === ")") {
      depth += piece === "(" ? 1 : -1;
      return [{ base: piece, sub: "" }];
    }
    // What joins two symbols ends a subscript too, and within brackets so does a comma.
    const pieces = piece.split(depth > 0 ? /([,/·])/ : /([/·])/);
    return pieces
      .filter((p) => p !== "")
      .map((p) => {
        const at = p.indexOf("_");
        return at < 0 ? { base: p, sub: "" } : { base: p.slice(0, at), sub: p.slice(at + 1).replace(/_/g, ",") };
      });
  });
}

/** The symbol without marks for subscripts, for places that hold plain text only. */
export function plainSymbol(symbol: string): string {
  return symbol.replace(/_/g, "");
}

/** Is there a symbol at all? A dash stands for none, and a plain word says no more than the description. */
export function hasSymbol(symbol: string): boolean {
  return symbol !== "" && symbol !== "–" && !/^[a-z]{3,}$/.test(symbol);
}

const escaped = (text: string): string => text.replace(/[#$%&_{}]/g, "\\$&").replace(/[\\^~](?![#$%&_{}])/g, "");

/** Letters in a row are upright; Greek letters and single letters are as the trade writes them. */
function texOf(text: string, upright: boolean): string {
  const parts = text.match(/[\u0370-\u03ffµ∞]|[A-Za-z][A-Za-z0-9]*|[0-9.,]+|./gu) ?? [];
  return parts
    .map((part) => {
      const letter = greek[part];
      if (letter) return `${letter} `;
      if (/^[A-Za-z]$/.test(part)) return upright ? `\\mathrm{${part}}` : part;
      if (/^[A-Za-z]/.test(part)) return `\\mathrm{${part}}`;
      if (/^[0-9.]+$/.test(part)) return part;
      if (part === ",") return "{,}";
      if (part === " ") return "\\ ";
      return /^[0-9.,]+$/.test(part) ? part.replace(/,/g, "{,}") : `\\text{${escaped(part)}}`;
    })
    .join("")
    .trim();
}

/** The TeX of a trade symbol such as `σ_p0`, `Δσ_el` or `β_c(t,t_0)`. */
export function symbolTex(symbol: string): string {
  return symbolParts(symbol)
    .map(({ base, sub }) =>
      sub
        ? `{${texOf(base, false)}}_{${texOf(sub, true)}}`
        : /^[(),/·]$/.test(base)
          ? base.replace(",", "{,}").replace("·", "\\cdot ")
          : texOf(base, false),
    )
    .join("");
}
