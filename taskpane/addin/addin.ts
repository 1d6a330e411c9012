/**
 * The page of the add-in: shows the panel in the one runtime that the program keeps; functions.js, before it on the page,
 * registers the functions.
 */
import { openExcel, requiredSets, sideLoading } from "../../src/hosts/index.ts";
import { mountPanel } from "../index.ts";
import { whyNot } from "../loading.ts";
import "./addin.css";
import { missingSets, missingText } from "./missing.ts";
import { lostSentences, repairedSentences } from "./repair.ts";
import { sweptText } from "./swept.ts";
import { themeOf } from "./theme.ts";

const panel = document.getElementById("panel")!;
const notice = document.getElementById("notice")!;

/** Instead of the panel: what is the matter, in words. */
function alone(heading: string, sentences: readonly string[]): void {
  const place = document.createElement("div");
  place.className = "alone";
  const title = document.createElement("h1");
  title.textContent = heading;
  place.append(
    title,
    ...sentences.map((sentence) => Object.assign(document.createElement("p"), { textContent: sentence })),
  );
  panel.replaceChildren(place);
}

/** Errors nobody waits for are said above the panel. */
function report(error: unknown): void {
  notice.textContent = whyNot(error);
  notice.hidden = false;
  console.error(error);
}

/** Removes what broken-off work left in the workbook, now and when what is too young now has become old; says what it did. */
async function sweep(excel: ReturnType<typeof openExcel>): Promise<void> {
  try {
    const swept = await excel.sweep();
    // Nothing goes from a workbook without a word.
    const text = sweptText(swept);
    if (text !== "") {
      notice.textContent = text;
      notice.hidden = false;
    }
    if (swept.again !== undefined) setTimeout(() => void sweep(excel), swept.again);
  } catch (error) {
    report(new Error(`Unfinished sheets of an earlier session could not be looked for: ${whyNot(error)}`));
  }
}

/** The program takes a moment to know the functions: what is only late is not lost. */
const late = 5_000;

/** Finds formulas that met the program without the functions, and offers to enter them anew. */
async function offerRepair(excel: ReturnType<typeof openExcel>): Promise<void> {
  if ((await excel.lostCells()).length === 0) return;
  await new Promise((resolve) => setTimeout(resolve, late));
  const lost = await excel.lostCells();
  if (lost.length === 0) return;
  const place = document.createElement("section");
  place.className = "repair";
  place.setAttribute("aria-label", "Formulas without their functions");
  const text = Object.assign(document.createElement("p"), { textContent: lostSentences(lost) });
  text.setAttribute("role", "alert");
  const button = Object.assign(document.createElement("button"), {
    type: "button",
    textContent: "Repair the formulas",
  });
  button.addEventListener("click", () => {
    button.disabled = true;
    excel.repair(lost).then(
      (done) => {
        text.textContent = repairedSentences(done);
        button.remove();
      },
      (error: unknown) => {
        text.textContent = `The formulas could not be repaired: ${whyNot(error)}`;
        button.disabled = false;
      },
    );
  });
  place.append(text, button);
  notice.after(place);
}

const outside = [
  "Kernbook adds worksheet functions for prestressed concrete (their names begin with KERN.) and live " +
    "check sheets to the spreadsheet program. This page is its side panel: it works inside the program " +
    "only.",
  "To load it there, give the program the file manifest.xml that stands beside this page:",
  ...sideLoading.map(({ where, steps }) => `${where}: ${steps}`),
];

async function open(): Promise<void> {
  if (typeof Office === "undefined") {
    alone("The program's script could not be loaded", [
      "Kernbook needs the script office.js of the spreadsheet program's maker, which could not be fetched. " +
        "Check the connection and whether it is blocked here, then open the panel again.",
    ]);
    return;
  }
  const { host } = await Office.onReady();
  if (host !== Office.HostType.Excel) {
    alone("Kernbook, outside the spreadsheet program", outside);
    return;
  }
  const supports = (set: string, version: string): boolean => Office.context.requirements.isSetSupported(set, version);
  const missing = missingSets(requiredSets, supports);
  if (missing.length > 0) {
    const [first = "", ...rest] = missingText(missing);
    alone(first, rest);
    return;
  }
  const theme = themeOf(Office.context.officeTheme);
  if (theme) document.documentElement.dataset["theme"] = theme;
  // Where the program can, workbooks that use the functions load them on opening.
  if (Office.addin) await Office.addin.setStartupBehavior(Office.StartupBehavior.load).catch(report);
  panel.replaceChildren();
  const excel = openExcel({ run: Excel.run.bind(Excel), supports, report });
  mountPanel(panel, excel);
  await sweep(excel);
  await offerRepair(excel).catch(report);
}

open().catch((error: unknown) => {
  report(error);
  alone("Kernbook could not be opened", ["The message above says why. Close the panel and open it again."]);
});
