import type { Template } from "../sheet/index.ts";
import postTensionedEn1992 from "./post-tensioned-en1992-2004.json";

/** Every template, in the order people choose from. What a JSON file holds is checked by lint, not by the compiler. */
export const templates: readonly Template[] = [postTensionedEn1992 as unknown as Template];
