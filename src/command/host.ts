/** Builds the add-in and serves it over https on this machine, for side-loading into the spreadsheet program. */
import { createServer } from "node:https";
import { join } from "node:path";
import { deploymentAddress } from "./address.ts";
import { buildIfStale, dist } from "./build.ts";
import { developmentCertificates } from "./certificates.ts";
import { listen, pages } from "./pages.ts";

/** Sites on which the program shows add-ins on the web. */
const frames = "'self' https://*.officeapps.live.com https://*.sharepoint.com https://excel.cloud.microsoft https://onedrive.live.com";

const trust: Readonly<Partial<Record<NodeJS.Platform, (file: string) => string>>> = {
  win32: (file) => `  certutil -user -addstore Root "${file}"\n  (to take it back: certutil -user -delstore Root “Kernbook development, this machine only”, or remove it in certmgr.msc)`,
  darwin: (file) => `  security add-trusted-cert -k ~/Library/Keychains/login.keychain-db "${file}"\n  (to take it back: remove “Kernbook development” in Keychain Access)`,
};

try {
  const address = deploymentAddress();
  const { hostname, port } = new URL(address);
  if (hostname !== "localhost") throw new Error(`KERNBOOK_ADDRESS is ${address}, but this command serves on this machine: unset it, or give an address on https://localhost`);
  await buildIfStale((text) => console.log(text));
  const { key, cert, authority, fresh } = await developmentCertificates();
  const server = createServer({ key, cert }, pages({ "Content-Security-Policy": `frame-ancestors ${frames}`, "Access-Control-Allow-Origin": "*" }));
  const at = port === "" ? 443 : Number(port);
  if (!(await listen(server, at, hostname))) throw new Error(`port ${at} is taken by another program, and the manifest names it: end that program, or set KERNBOOK_ADDRESS to https://localhost with another port`);
  const how = trust[process.platform]?.(authority) ?? `  tell your browser or system to trust ${authority} for websites`;
  console.log(`
Kernbook's add-in is served at ${address}/
Manifest: ${join(dist, "manifest.xml")}

${fresh ? "New certificates were made for this machine." : "The certificates made earlier are used."} The program loads the add-in only if the system trusts them.
Nothing was installed: if you decide to trust this authority (its key was thrown away; it is good for localhost only), run
${how}

Then side-load the manifest:
  Windows: put it into a shared folder, add that folder under File, Options, Trust Center, Trusted Add-in Catalogs; then Insert, My Add-ins, Shared Folder.
  Mac:     copy it to ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef/ and start the program again; then Insert, My Add-ins.
  Web:     Insert, Add-ins, Upload My Add-in.
Press Ctrl+C here to stop.`);
} catch (error) {
  console.error(`The add-in could not be served: ${error instanceof Error ? error.message : String(error)}`);
  process.exitCode = 1;
}
