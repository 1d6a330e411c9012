const local = "https://localhost:3000";

/**
 * Where the add-in's files are served from, by the one variable of the build or the option that `where` names; https,
 * without a slash at the end. Throws where it is not that.
 */
export function deploymentAddress(
  text: string | undefined = process.env["KERNBOOK_ADDRESS"],
  where = "KERNBOOK_ADDRESS",
): string {
  const address = text === undefined || text === "" ? local : text;
  const given = `${where} is “${address}”`;
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    throw new Error(`${given}, which is no address; give one such as https://sheets.example.com/kernbook`);
  }
  if (url.protocol !== "https:") throw new Error(`${given}; the spreadsheet program loads add-ins over https only`);
  if (address.endsWith("/") || url.search !== "" || url.hash !== "")
    throw new Error(`${given}; leave out a slash at the end, and anything after ? or #`);
  if (url.username !== "" || url.password !== "") throw new Error(`${given}; leave out user name and password`);
  const plain = url.href.replace(/\/$/, "");
  if (plain !== address) throw new Error(`${given}; write it as ${plain}`);
  return address;
}
