/** What the panel says wherever its results are seen. */
export const shortCaution =
  "For a competent engineer: the standard in force and licensed local practice decide; have the design " +
  "checked independently before construction. A tensioned tendon stores lethal energy: nobody stands " +
  "behind or in line with jacks and anchorages.";

export function Cautions({ of }: { readonly of: readonly string[] }) {
  return (
    <aside class="kb-cautions" aria-label="Cautions">
      <ul>
        {of.map((c) => (
          <li key={c}>{c}</li>
        ))}
      </ul>
    </aside>
  );
}

/** In full, beside results whose template is not at hand. */
export const fullCautions: readonly string[] = [
  "Results are for use by a competent engineer. The standard in force and licensed local practice " +
    "decide; an independent check is needed before construction.",
  "A tensioned tendon stores lethal energy. Nobody stands behind or in line with jacks and anchorages. " +
    "Follow the anchorage supplier's and the site's procedures; stop when elongation and pressure " +
    "disagree beyond tolerance.",
];
