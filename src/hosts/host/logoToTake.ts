import type { Logo } from "../../sheet/index.ts";
import { LogoNotTaken, type Host } from "./host.ts";

/** The logo of a sheet for what is made of it; `without`: a sentence that says why it goes without, else empty. */
export interface LogoToTake {
  readonly logo?: Logo;
  readonly without: string;
}

/** A picture that no other sheet can have stops nothing: what is made goes on without it, and says so. */
export async function logoToTake(host: Host, sheet: string): Promise<LogoToTake> {
  try {
    const logo = await host.logo(sheet);
    return { ...(logo && { logo }), without: "" };
  } catch (error) {
    if (!(error instanceof LogoNotTaken)) throw error;
    return { without: `Without the logo: ${error.message}` };
  }
}
