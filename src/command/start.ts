/** Builds the pages where needed and serves the workbench on this machine. */
import { createServer } from "node:http";
import type { Server } from "node:http";
import { buildIfStale } from "./build.ts";
import { guardOutput } from "./output.ts";
import { builtPages, serveBuilt } from "./serve/builtPages.ts";
import { listen } from "./serve/listen.ts";

const defaultPort = 3000;
const portsTried = 20;
const host = "localhost";

/** The port the environment asks for; undefined where it asks for none. */
function wantedPort(): number | undefined {
  const text = process.env.PORT;
  if (text === undefined || text === "") return undefined;
  const port = Number(text);
  if (!Number.isInteger(port) || port < 1 || port > 65_535)
    throw new Error(`PORT is “${text}”; a whole number from 1 to 65535 is needed`);
  return port;
}

async function openPort(server: Server): Promise<number> {
  const wanted = wantedPort();
  if (wanted !== undefined) {
    if (await listen(server, wanted, host)) return wanted;
    throw new Error(`port ${wanted} is taken by another program; end that one, or set PORT to another port`);
  }
  for (let port = defaultPort; port < defaultPort + portsTried; port++) {
    if (await listen(server, port, host)) {
      if (port !== defaultPort) console.log(`Port ${defaultPort} is taken by another program; using ${port}.`);
      return port;
    }
  }
  throw new Error(`ports ${defaultPort} to ${defaultPort + portsTried - 1} are all taken; set PORT to a free one`);
}

guardOutput();
await serveBuilt(async () => {
  await buildIfStale((text) => console.log(text));
  const port = await openPort(createServer(builtPages("workbench")));
  return `
Kernbook is ready: http://${host}:${port}/

Open that address in a browser. The grid shows a worked check sheet of an invented beam: change an input and everything
recalculates; select a cell and open Trace in the panel to see the equation behind it; on Sheet1 type =KERN. to try a function.
Press Ctrl+C here to stop.`;
}, "Kernbook could not be started");
