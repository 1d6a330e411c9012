import { elongationFormulas } from "./elongation.ts";

export const stressingFormulas = elongationFormulas;
