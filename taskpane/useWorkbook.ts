import { useEffect, useState } from "preact/hooks";
import { onForgotten } from "./built.ts";

/** A number for the workbook that is open: another one once another workbook is opened in its place. */
export function useWorkbook(): number {
  const [number, setNumber] = useState(0);
  useEffect(() => onForgotten(() => setNumber((n) => n + 1)), []);
  return number;
}
