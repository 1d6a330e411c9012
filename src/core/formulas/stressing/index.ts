export { stressingFormulas } from "./elongation.ts";
