/** Builds the add-in and serves it over https on this machine, for side-loading into the spreadsheet program. */
import { createServer } from "node:https";
import { dirname, join } from "node:path";
import { sideLoading } from "../hosts/index.ts";
import { deploymentAddress } from "./address.ts";
import { buildIfStale, dist } from "./build.ts";
import { authorityName, developmentCertificates } from "./certificates.ts";
import { guardOutput } from "./output.ts";
import { builtPages, serveBuilt } from "./serve/builtPages.ts";
import { listen } from "./serve/listen.ts";

/** How a person tells this system to trust the authority, and how to take that back. */
function trustSteps(file: string): string {
  if (process.platform === "win32")
    return `  certutil -user -addstore Root "${file}"\nTo take it back:\n  certutil -user -delstore Root "${authorityName}"`;
  if (process.platform === "darwin")
    return (
      `  security add-trusted-cert -k ~/Library/Keychains/login.keychain-db "${file}"\nTo take it back:\n  ` +
      `security remove-trusted-cert "${file}"`
    );
  return (
    `  (in the settings of the browser) import ${file} as an authority for websites\nTo take it back:\n  ` +
    `delete “${authorityName}” there`
  );
}

guardOutput();
await serveBuilt(async () => {
  const address = deploymentAddress();
  const { hostname, port, pathname } = new URL(address);
  if (hostname !== "localhost" || pathname !== "/")
    throw new Error(
      `KERNBOOK_ADDRESS is ${address}, but this command serves on this machine: unset it, or give ` +
        "https://localhost with a port and no path",
    );
  await buildIfStale((text) => console.log(text));
  const { key, cert, authority, fresh } = await developmentCertificates();
  const server = createServer({ key, cert }, builtPages("addin"));
  const at = port === "" ? 443 : Number(port);
  if (!(await listen(server, at, hostname)))
    throw new Error(
      `port ${at} is taken by another program, and the manifest names it: end that program, or set ` +
        "KERNBOOK_ADDRESS to https://localhost with another port",
    );
  return `
Kernbook's add-in is served at ${address}/
Manifest: ${join(dist, "manifest.xml")}

${fresh ? "New certificates were made for this machine." : "The certificates made earlier are used."}
The program loads the add-in only if the system trusts them.
Nothing was installed. If you decide to trust this authority (its key was not kept, so it signs nothing but these), run
${trustSteps(authority)}
and delete the folder ${dirname(authority)}

Then side-load the manifest:
${sideLoading.map(({ where, steps }) => `  ${`${where}:`.padEnd(9)}${steps}`).join("\n")}
Press Ctrl+C here to stop.`;
}, "The add-in could not be served");
