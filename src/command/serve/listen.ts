import type { Server } from "node:http";
import { reasonOf } from "../../core/index.ts";

/** Without a listener, an error of the running server (too many open files, say) would end the program. */
function goesOn(error: Error): void {
  console.error(`The server reports: ${reasonOf(error)}. It goes on.`);
}

/** Whether the port could be opened; false where another program has it. */
export function listen(server: Server, port: number, host: string): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const failed = (error: NodeJS.ErrnoException): void => {
      if (error.code === "EADDRINUSE") resolve(false);
      else if (error.code === "EACCES")
        reject(new Error(`port ${port} may not be opened by this user; choose one above 1024`));
      else reject(error);
    };
    server.once("error", failed);
    server.listen(port, host, () => {
      server.off("error", failed);
      server.on("error", goesOn);
      resolve(true);
    });
  });
}
