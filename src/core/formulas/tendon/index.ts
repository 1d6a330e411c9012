export { tendonFormulas } from "./geometry.ts";
