import { LogoNotTaken, type Host } from "../../hosts/index.ts";
import type { Logo } from "../../sheet/index.ts";

/** The logo for a report or a copy of a sheet; `without`: a sentence that says why it goes without, else empty. */
export async function logoForPaper(
  host: Host,
  sheet: string,
): Promise<{ readonly logo?: Logo; readonly without: string }> {
  try {
    const logo = await host.logo(sheet);
    return { ...(logo && { logo }), without: "" };
  } catch (error) {
    if (!(error instanceof LogoNotTaken)) throw error;
    return { without: `Without the logo: ${error.message}` };
  }
}
