/** Characters that no file name may have on some system. */
const notInNames = /[\u0000-\u001f<>:"/\\|?*]/g;
const longest = 120;

/** A name for a file from what somebody typed or a sheet is called; without its ending. */
export function bookName(wanted: string): string {
  const plain = wanted
    .replace(/\.xlsx$/i, "")
    .replace(notInNames, " ")
    .replace(/\s+/g, " ")
    .trim()
    .slice(0, longest);
  return plain.replace(/^\.+|\.+$/g, "").trim() || "Workbook";
}

export const fileName = (book: string): string => `${bookName(book)}.xlsx`;

/** A name beside that of a file which is not to be written over. */
export function besideName(book: string): string {
  return bookName(`${bookName(book)} (Kernbook)`);
}
