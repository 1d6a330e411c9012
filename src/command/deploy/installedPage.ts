import { namespace } from "../../../functions/index.ts";
import { cautions, version } from "../../core/index.ts";
import { html, printedDocument, type Markup } from "../../reference/index.ts";
import { changesSince, type Installed } from "./record.ts";

/** The page that says what is installed, and the one for those who run the server. */
export const pageNames = { installed: "installed.html", forIt: "for-it.html" } as const;

const listOf = (lines: readonly (string | Markup)[]): Markup =>
  html`<ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>`;

function table(head: readonly string[], rows: readonly (readonly string[])[]): Markup {
  return html`<div class="kr-scroll"><table class="kr-table kr-lookup"><thead><tr>${head.map(
    (cell) => html`<th scope="col">${cell}</th>`,
  )}</tr></thead><tbody>${rows.map(
    ([first = "", ...rest]) =>
      html`<tr><th scope="row">${first}</th>${rest.map((cell) => html`<td>${cell}</td>`)}</tr>`,
  )}</tbody></table></div>`;
}

const short = (sha256: string): string => sha256.slice(0, 12);

function facts(now: Installed): Markup {
  const { defaults } = now;
  return table(
    ["what", "installed"],
    [
      ["version", now.version],
      ["address", now.address],
      ["made on", now.date],
      ["add-in", `${now.addIn.name}, id ${now.addIn.id}${now.pinned ? ", pinned" : ""}`],
      ["worksheet functions", `${now.functions.length} in the namespace ${now.namespace}; their ids are frozen`],
      ["templates shipped", String(now.shippedTemplates.length)],
      ["templates of the office", String(now.officeTemplates.length)],
      [
        "office defaults",
        defaults
          ? `${defaults.office}, version ${defaults.version} of ${defaults.date}, SHA-256 ${short(defaults.sha256)}…`
          : "none",
      ],
    ],
  );
}

function templates({ shippedTemplates, officeTemplates }: Installed): Markup {
  const head = ["template", "version", "title", "SHA-256"];
  const office = officeTemplates.map(({ id, version, title, sha256 }) => [id, version, title, short(sha256)]);
  return html`<h2>Templates</h2>
<h3>Of the office</h3>
${office.length > 0 ? table(head, office) : html`<p>None.</p>`}
<h3>Shipped</h3>
${table(
  head,
  shippedTemplates.map(({ id, version, title, sha256 }) => [id, version, title, short(sha256)]),
)}`;
}

function changes(now: Installed, before: Installed | undefined): Markup {
  if (!before) return html`<h2>What has changed</h2><p>No earlier folder was compared (<code>--since</code>).</p>`;
  return html`<h2>What has changed since ${before.version} of ${before.date}</h2>${listOf(changesSince(before, now))}`;
}

function updating({ pinned }: Installed): Markup {
  if (pinned)
    return html`<h2>Updates</h2><p>This folder is pinned: leave its files as they are. Newer versions go to another
address.</p>`;
  return html`<h2>Updates</h2>
<ol>
<li>Keep a copy of the present folder. It is the way back.</li>
<li>Make the new folder with the same command and <code>--force</code>, or with <code>--since</code> and the present
folder. The list above then says what has changed. <code>--force</code> replaces no folder in which other files stand, such
as a pinned version or settings of the server.</li>
<li>Try it with a few people first: make it for a test address with <code>--pin</code>, and see the rules for pinned
versions below.</li>
<li>Copy the new files to the address. Delete old files last: panels that are open still ask for them. Leave pinned
versions that stand below this address.</li>
<li>Give <code>manifest.xml</code> out again only where version, address or name in it changed. Templates and defaults
need no new manifest: people get them when they open the panel again.</li>
<li>By its maker's documentation the program may keep the old functions for a day. <code>=KERN.VERSION()</code> says
which version computes.</li>
</ol>`;
}

const oldWorkbooks = html`<h2>Old workbooks</h2>
<ul>
<li>Ids of functions and the order, units and defaults of their arguments are frozen. A later version adds; it takes
nothing away. Old formulas go on computing.</li>
<li>A check sheet remembers the version it was built with. Where another one is loaded its head says CHANGED instead of
SAME: check the sheet again. Compare, under Check, lists what differs and by how much.</li>
<li>“Change configuration or standard” brings a sheet of an older template version up to date, beside the old sheet.</li>
<li>A workbook that calls functions which the loaded version does not have yet shows #NAME? there. Load the newer
version, then press “Repair the formulas”.</li>
<li>Keep the file of an office template in the folder as long as sheets of it are in use.</li>
</ul>`;

const pinning = ({ address, pinned }: Installed): Markup => html`<h2>Pinning a version beside a newer one</h2>
<p>A job may have to stay with one version until it is finished. Make that version's folder for an address of its own
which ends in the version, with <code>--pin</code> and with Kernbook's files of that version, so before they are brought up
to date:</p>
<p><code>npm run -s deploy -- --address ${pinned ? address : `${address}/${version}`} --pin --out folder-${version}</code></p>
<p>Give it the same <code>--defaults</code> and <code>--templates</code> as the job uses: the pinned folder keeps its own.</p>
<ul>
<li>The pinned manifest has an add-in id and a name of its own, always the same for that address and version. The program
takes it for another add-in.</li>
<li>The namespace stays ${namespace}, since the formulas in the workbooks say ${namespace}.</li>
<li>Give each person one of the two, by groups in the admin centre, never both. By its maker's documentation the program
tells functions apart by namespace and name: two add-ins with the same ones are in conflict, and formulas give #REF! or
#NAME?.</li>
<li>One person, both versions: load the newer add-in, and open the workbook in the workbench of the pinned address,
<code>index.html</code> there. It runs in the browser without the add-in. Two versions on one server share the workbooks
that the workbench keeps in the browser.</li>
</ul>
<p>This follows the documentation of the program's maker and has not been tried in the program.</p>`;

/** The page that says what is installed at an address; `before`: an earlier folder. */
export function installedPage(now: Installed, before: Installed | undefined): string {
  return printedDocument(
    `Kernbook ${now.version} at ${now.address}`,
    html`<h1>What is installed: Kernbook ${now.version}</h1>
${facts(now)}
<p><a href="index.html">Workbench</a> · <a href="reference/index.html">Reference</a> · <a href="${pageNames.forIt}">For
IT: roll-out, server, permissions</a> · <a href="manifest.xml">Manifest</a> · <a href="THIRD-PARTY.txt">Licences of
packages</a> · <a href="installed.json">This page as data</a> · <a href="SHA256SUMS.txt">Hash of every file</a></p>
${changes(now, before)}
${updating(now)}
${oldWorkbooks}
${pinning(now)}
${templates(now)}
<p><small>${cautions.competence}</small></p>`,
  );
}
