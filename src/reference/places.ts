export { referencePage as pageOf } from "../../functions/index.ts";

/** Name of the list by name. */
export const namesPage = "names.html";
