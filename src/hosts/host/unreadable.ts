/** What an expression gives that no spreadsheet program can read. */
export const unreadable = {
  code: "#ERROR!",
  message: "the formula cannot be read: look for a missing bracket, argument or operator",
} as const;
