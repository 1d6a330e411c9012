/** What is shown wherever results could hurt someone. */
export const cautions = {
  competence:
    "For use by a competent engineer. The standard in force, its National Annex and licensed local " +
    "practice decide. An independent check is needed before construction.",
  stressing:
    "A tensioned tendon stores lethal energy: nobody stands behind or in line with jacks and anchorages. " +
    "Follow the anchorage supplier's and the site's procedures. Stop when elongation and pressure " +
    "disagree beyond tolerance.",
  release:
    "Release only after tests have proved the strength of the concrete, and gradually: sudden release lengthens the transmission.",
} as const;
