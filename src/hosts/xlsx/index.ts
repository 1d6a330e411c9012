export { type Values } from "./cells.ts";
export { writeWorkbook } from "./writeWorkbook.ts";
