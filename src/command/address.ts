const local = "https://localhost:3000";

/**
 * Where the add-in's files are served from, by the one variable of the build; https, without a slash at the end. Throws
 * where it is not that.
 */
export function deploymentAddress(text: string | undefined = process.env["KERNBOOK_ADDRESS"]): string {
  const address = text === undefined || text === "" ? local : text;
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    throw new Error(
      `KERNBOOK_ADDRESS is “${address}”, which is no address; give one such as https://sheets.example.com/kernbook`,
    );
  }
  if (url.protocol !== "https:")
    throw new Error(`KERNBOOK_ADDRESS is “${address}”; the spreadsheet program loads add-ins over https only`);
  if (address.endsWith("/") || url.search !== "" || url.hash !== "")
    throw new Error(`KERNBOOK_ADDRESS is “${address}”; leave out a slash at the end, and anything after ? or #`);
  return address;
}
