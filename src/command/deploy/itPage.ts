import { requiredSets, sideLoading, type RequiredSet } from "../../hosts/index.ts";
import { html, printedDocument, type Markup } from "../../reference/index.ts";
import { pageNames } from "./installedPage.ts";
import type { Installed } from "./record.ts";

const listOf = (lines: readonly (string | Markup)[]): Markup =>
  html`<ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`;

/** The policy that a page of ours declares in its head. Throws where it has none. */
export function policyOf(page: string): string {
  const policy = /<meta\s+http-equiv="Content-Security-Policy"\s+content="([^"]*)"\s*\/?>/.exec(page)?.[1];
  if (policy === undefined) throw new Error("the page has no content security policy");
  return policy;
}

/** The sites that a policy names beside the page's own. */
const sitesIn = (policy: string): readonly string[] => [...new Set(policy.match(/https?:\/\/[^\s;]+/g) ?? [])];

/** How the manifest is given to one machine. */
const stepsFor = (where: string): string => sideLoading.find((one) => one.where === where)!.steps;

const apiSet = ({ set, version, since }: RequiredSet): string =>
  `${set} ${version} (Windows ${since.windows}, Mac ${since.mac})`;

interface Policies {
  /** In the head of the panel's page. */
  readonly panel: string;
  /** In the head of the workbench. */
  readonly workbench: string;
  /** Headers that the server should send. */
  readonly headers: Readonly<Record<string, string>>;
}

function rollOut({ address, pinned }: Installed): Markup {
  return html`<h2>Roll-out</h2>
<p>First put all files of this folder on a web server, so that <code>${address}/taskpane.html</code> opens. Then give the
manifest to people in one of these ways.</p>
<h3>Admin centre (for production; Windows, Mac and web)</h3>
<p>In the admin centre of the subscription: Settings, Integrated apps, Upload custom apps, app type Office Add-in. Upload
<code>manifest.xml</code> or give its link, <code>${address}/manifest.xml</code>. Assign people or groups. It reaches them
within a day; updates may take up to three days.</p>
<h3>Shared folder (Windows, for trials)</h3>
<p>As a user: ${stepsFor("Windows")} Its maker's documentation does not recommend this way for production. Put a new
<code>manifest.xml</code> over the old one to update.</p>
<h3>Web</h3>
<p>What the admin centre assigns appears in the program on the web as well. One person alone: ${stepsFor("Web")} That
holds for this person and browser.</p>
<h3>A single Mac</h3>
<p>${stepsFor("Mac")}</p>
<p>${
    pinned
      ? "This version is pinned: give it to people who do not have the other one."
      : "Give each person one way only. The same add-in from two sources is taken for two add-ins with the same functions."
  } See <a href="${pageNames.installed}">what is installed</a> for updates, old workbooks and pinned versions.</p>`;
}

/** The page for those who run server and programs of an office: all they ask about an add-in. */
export function itPage(now: Installed, { panel, workbench, headers }: Policies): string {
  const sites = sitesIn(panel);
  return printedDocument(
    `Kernbook ${now.version} for IT`,
    html`<h1>Kernbook ${now.version} for IT</h1>
<p>An add-in for the spreadsheet program, and pages for a browser. Static files, no server program, no database, no accounts. Id
${now.addIn.id}, manifest version ${now.version}.0.</p>
<h2>Addresses contacted</h2>
${listOf([
  html`<code>${now.address}</code>: all files of the add-in, its reference, the templates and the defaults of the office.`,
  ...sites.map(
    (site) =>
      html`<code>${site}</code>: the script of the program's maker (office.js), by which every add-in speaks to the
program. The add-in does not open without it. The workbench (<code>index.html</code>) does not need it.`,
  ),
  "No other address. Whoever searches the files finds more: names of formats, and links in texts of the packages. No " +
    "page asks for them, and the policies below would not let it.",
])}
<h2>No telemetry</h2>
<p>Kernbook sends nothing: no usage data, no error reports, no licence check, no update check. Workbooks stay in the
program. The policies below let panel and workbench connect to their own address alone; that holds for the maker's script
in the panel too. What the program itself reports to its maker is set in the program.</p>
<h2>Permissions</h2>
${listOf([
  html`<code>ReadWriteDocument</code>: read and write the open workbook. No mail, no files, no identity, no single sign-on.`,
  `API sets needed: ${requiredSets.map(apiSet).join(", ")}.`,
  html`In the browser's store of this address: defaults and templates of the office that a user chose (panel), and the
workbooks kept by the workbench. Both stay on the machine.`,
])}
<h2>Server</h2>
${listOf([
  html`https with a certificate that the machines trust. Anonymous read access (GET, HEAD): the program fetches the files
without signing in. An address that only the office's network reaches is enough; for the program on the web, a public site, the browser may
ask the user, or need a policy, before it lets that site reach the network.`,
  html`Types: <code>.html</code> text/html, <code>.js</code> text/javascript, <code>.css</code> text/css,
<code>.json</code> application/json, <code>.xml</code> text/xml, <code>.png</code> image/png, <code>.txt</code> text/plain,
all in UTF-8.`,
  ...Object.entries(headers).map(([name, value]) => html`Header <code>${name}: ${value}</code>`),
  html`The second header lets the program on the web, which is another site, read the functions. Whoever reaches the
address can read its files: put nothing confidential into templates and defaults.`,
  html`Header <code>X-Content-Type-Options: nosniff</code>`,
  html`Header <code>Cache-Control: no-cache</code> for all but <code>parts/</code> and <code>icons/</code>, so that an update
arrives. Names in <code>parts/</code> change with their content and may be kept.`,
  "A file that is not there must be answered with 404, not with another page.",
])}
<h2>Content security policies</h2>
<p>Of the panel: <code>${panel}</code></p>
<p>Of the workbench: <code>${workbench}</code></p>
<p>The policies are part of the pages. They allow no script from text, no site but those named and no form.
Reference and this page run no script at all.</p>
<h2>Licences</h2>
<p>Kernbook: MIT (<a href="LICENSE.txt">LICENSE.txt</a>). Packages in it, all with open licences: <a href="THIRD-PARTY.txt"
>THIRD-PARTY.txt</a>.</p>
<h2>Verify the files</h2>
<p>In the folder, <code>sha256sum -c SHA256SUMS.txt</code> checks every file. Windows has no such command; there
<code>Get-FileHash</code> in PowerShell gives the hash of a file to compare. The office's templates are checked by the
panel too, against <code>templates/index.json</code>.</p>
<p>Where the files of Kernbook's source are, <code>npx office-addin-manifest validate manifest.xml</code> has the manifest
checked by a service of the program's maker: it sends the manifest there, and without the internet it fails. Roll-out does
not need it.</p>
${rollOut(now)}
<p><small>Ways of rolling out, caches and delays: from the documentation of the program's maker; not tried in the program
itself.</small></p>`,
  );
}
