/** Folder of the reference pages, beside the add-in's own page. */
export const referenceFolder = "reference";

/** File name of a function's page in that folder; of the front page without an id. */
export const referencePage = (id?: string): string => `${id ?? "index"}.html`;
