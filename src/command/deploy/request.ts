import { reasonOf, version } from "../../core/index.ts";
import { Refused } from "../../office/index.ts";
import { given, optionsIn } from "../words.ts";
import { deploymentAddress } from "../address.ts";

/** A folder to be made for an office's address. */
export interface DeployRequest {
  readonly kind: "deploy";
  readonly address: string;
  readonly out: string;
  /** The file of the office's defaults. */
  readonly defaults?: string;
  /** The folder of the office's templates. */
  readonly templates?: string;
  /** The folder of an earlier version, to tell what has changed since. */
  readonly since?: string;
  /** Stays as it is while newer versions follow at another address. */
  readonly pinned: boolean;
  readonly force: boolean;
  /** Makes the folder although worksheet functions of the earlier one are gone. */
  readonly acceptGone: boolean;
}

const options = {
  help: { type: "boolean" },
  address: { type: "string" },
  out: { type: "string" },
  defaults: { type: "string" },
  templates: { type: "string" },
  since: { type: "string" },
  pin: { type: "boolean" },
  force: { type: "boolean" },
  "accept-gone": { type: "boolean" },
} as const;

function faultOfAddress(text: string | undefined, pinned: boolean): string | undefined {
  if (text === undefined || text === "")
    return "--address is missing: where the files will be served, such as https://sheets.example.com/kernbook";
  try {
    const address = deploymentAddress(text, "--address");
    if (pinned && !address.endsWith(`/${version}`))
      return (
        `--address is “${address}”; with --pin it must end in the version, such as ${address}/${version}: the address ` +
        "of the newest version gets other files with the next update"
      );
    return undefined;
  } catch (error) {
    return reasonOf(error);
  }
}

/** Reads the words of a call. Throws Refused where they do not make one. */
export function deployRequestOf(words: readonly string[]): DeployRequest | { readonly kind: "help" } {
  const { values, positionals } = optionsIn(words, options);
  if (values.help) return { kind: "help" };
  const { address, out, defaults, templates, since, pin: pinned = false, force = false } = values;
  const { "accept-gone": acceptGone = false } = values;
  const faults = [
    ...(positionals.length > 0 ? [`“${positionals[0]}” belongs to no option; see --help`] : []),
    ...[faultOfAddress(address, pinned) ?? []].flat(),
    ...(out === undefined || out === "" ? ["--out is missing: the folder to make, such as kernbook-files"] : []),
  ];
  if (faults.length > 0) throw new Refused(faults);
  return {
    kind: "deploy",
    address: address!,
    out: out!,
    pinned,
    force,
    acceptGone,
    ...given({ defaults, templates, since }),
  };
}
