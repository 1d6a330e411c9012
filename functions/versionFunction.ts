import { version } from "../src/core/index.ts";

/**
 * The function that says which version of the worksheet functions is loaded, as text such as "0.2.0". It takes no argument and never fails.
 * Volatile, since a workbook keeps the value of the version it was last computed with.
 */
export const versionFunction = {
  id: "VERSION",
  summary:
    "Version of the worksheet functions loaded now, as text; a check sheet compares it with the one it was built with",
  params: {},
  volatile: true,
  compute: () => version,
} as const;
