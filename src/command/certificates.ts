import { X509Certificate } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import { createCA, createCert } from "mkcert";

export interface Certificates {
  readonly key: string;
  readonly cert: string;
  /** File of the authority that a person tells the system to trust. */
  readonly authority: string;
  /** Made just now, so it is not trusted yet. */
  readonly fresh: boolean;
}

/** What the authority is called where a system lists what it trusts. */
export const authorityName = "Kernbook development, this machine only";
const days = 365;

/** Still good for a week or more. */
function good(file: string): boolean {
  return (
    existsSync(file) &&
    new Date(new X509Certificate(readFileSync(file)).validTo).getTime() > Date.now() + 7 * 24 * 3600 * 1000
  );
}

/**
 * Certificates for https on this machine, made once and kept in the user's own folder. Nothing is told to the system: whether to trust the
 * authority is the person's decision.
 */
export async function developmentCertificates(
  folder = join(homedir(), ".kernbook-certificates"),
): Promise<Certificates> {
  const file = (name: string): string => join(folder, name);
  const [authority, cert, key] = [file("kernbook-development-ca.crt"), file("localhost.crt"), file("localhost.key")];
  const fresh = !(good(authority) && good(cert) && existsSync(key));
  if (fresh) {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const ca = await createCA({
      organization: authorityName,
      countryCode: "XX",
      state: "none",
      locality: "none",
      validity: days,
    });
    const made = await createCert({ ca, domains: ["localhost", "127.0.0.1"], validity: days });
    writeFileSync(authority, ca.cert);
    writeFileSync(cert, made.cert);
    writeFileSync(key, made.key, { mode: 0o600 });
    // The authority's own key is not kept: nobody can sign with it again.
  }
  return { key: readFileSync(key, "utf8"), cert: readFileSync(cert, "utf8"), authority, fresh };
}
