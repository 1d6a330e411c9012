import type { IncomingMessage, RequestListener, Server, ServerResponse } from "node:http";
import sirv from "sirv";
import { dist } from "./build.ts";

/**
 * Serves the built pages. They are asked for anew each time, so that a new build is seen; but nothing is said about keeping icons, since the
 * spreadsheet program shows icons of its own where it is. Further headers go with every answer.
 */
export function pages(headers: Readonly<Record<string, string>> = {}): RequestListener {
  const serve = sirv(dist, {
    etag: true,
    setHeaders: (response: ServerResponse, path: string) => {
      if (!path.startsWith("/icons/")) response.setHeader("Cache-Control", "no-cache");
      for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
    },
  });
  return (request: IncomingMessage, response: ServerResponse) =>
    serve(request, response, () => {
      response.statusCode = 404;
      response.end("Not found");
    });
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
      resolve(true);
    });
  });
}
