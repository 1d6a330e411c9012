import { unguarded } from "./csv.ts";

/** A member in the register. */
export interface Entry {
  readonly member: string;
  readonly verdict: string;
  /** The check that the sheet lists first: one that fails where one does, else the highest utilisation. */
  readonly governing: string;
  readonly utilisation: number | null;
  /** Where it governs. */
  readonly place: string;
  /** Max. total loss over the jacking stress. */
  readonly losses: number | null;
  readonly warnings: number | null;
  /** What the warnings, missing inputs or the refusal say. */
  readonly remarks: string;
  readonly change: string;
  readonly template: string;
  readonly version: string;
  /** Of the sheet: template and configuration, whatever the inputs. */
  readonly hash: string;
  /** Office, version and content of the defaults; empty without. */
  readonly defaults: string;
  /** The file or the sheet of the member. */
  readonly file: string;
  /** Of all inputs, template, defaults and version of the functions: the same mark gives the same sheet. */
  readonly inputs: string;
  /** Of the file as it was written; empty where there is none. */
  readonly written: string;
}

/** Verdict of a row that gave no sheet. */
export const notBuilt = "NOT BUILT";
/** Verdict of a member of the last register that the table no longer has. */
export const gone = "REMOVED";

/** The columns of a register: heading, field, and whether it holds numbers. */
export const registerColumns: readonly {
  readonly heading: string;
  readonly field: keyof Entry;
  readonly number?: true;
}[] = [
  { heading: "member", field: "member" },
  { heading: "verdict", field: "verdict" },
  { heading: "governing check", field: "governing" },
  { heading: "utilisation", field: "utilisation", number: true },
  { heading: "location", field: "place" },
  { heading: "max. total loss / jacking stress", field: "losses", number: true },
  { heading: "warnings", field: "warnings", number: true },
  { heading: "remarks", field: "remarks" },
  { heading: "change since the last register", field: "change" },
  { heading: "template", field: "template" },
  { heading: "version", field: "version" },
  { heading: "content hash", field: "hash" },
  { heading: "office defaults", field: "defaults" },
  { heading: "file or sheet", field: "file" },
  { heading: "hash of the inputs", field: "inputs" },
  { heading: "hash of the file", field: "written" },
];

/** Worst first; what is not listed comes before OK, since it is no verdict to rely on. */
const ranks: Readonly<Record<string, number>> = { [notBuilt]: 0, FAIL: 1, WARNINGS: 3, OK: 4, [gone]: 5 };
const rankOf = (verdict: string): number => ranks[verdict] ?? 2;

/** The members by what governs: verdicts first, the worst at the top, then by utilisation. */
export function sorted(entries: readonly Entry[]): readonly Entry[] {
  const use = ({ utilisation }: Entry): number => utilisation ?? -1;
  return [...entries].sort(
    (a, b) =>
      rankOf(a.verdict) - rankOf(b.verdict) ||
      use(b) - use(a) ||
      a.member.localeCompare(b.member, "en", { numeric: true }),
  );
}

/** The worst of some verdicts. */
export function worstOf(verdicts: readonly string[]): string {
  return [...verdicts].sort((a, b) => rankOf(a) - rankOf(b))[0] ?? notBuilt;
}

const twoPlaces = (value: number | null): string => (value === null ? "–" : value.toFixed(2));
const inPercent = (value: number | null): string => (value === null ? "–" : `${(value * 100).toFixed(1)} %`);

/** What is new of a member beside the last register: the verdict first, then what may have changed it. */
export function changeOf(now: Entry, before: Entry | undefined): string {
  if (!before || before.verdict === gone) return "new";
  const parts: string[] = [];
  const turned = (what: string, from: string, to: string): void => {
    if (from !== to) parts.push(`${what} ${from} → ${to}`);
  };
  turned("verdict", before.verdict, now.verdict);
  // Of what has no sheet there is nothing else to compare.
  if (before.verdict === notBuilt || now.verdict === notBuilt) return parts.join("; ");
  turned("utilisation", twoPlaces(before.utilisation), twoPlaces(now.utilisation));
  turned("governing check", before.governing, now.governing);
  turned("location", before.place, now.place);
  turned("losses", inPercent(before.losses), inPercent(now.losses));
  turned("warnings", String(before.warnings ?? "–"), String(now.warnings ?? "–"));
  turned("template", `${before.template} ${before.version}`, `${now.template} ${now.version}`);
  turned("office defaults", before.defaults || "none", now.defaults || "none");
  if (before.hash !== now.hash && before.version === now.version && before.template === now.template)
    parts.push("other configuration");
  if (parts.length > 0) return parts.join("; ");
  return before.inputs === now.inputs ? "" : "inputs changed, same result";
}

const byMember = (entries: readonly Entry[]): ReadonlyMap<string, Entry> =>
  new Map(entries.map((entry) => [entry.member.toLowerCase(), entry]));

/** The entries with what changed since the last register, sorted, and the members that are gone below. */
export function comparedWithLast(entries: readonly Entry[], last: readonly Entry[] | undefined): readonly Entry[] {
  if (!last) return sorted(entries);
  const before = byMember(last);
  const now = byMember(entries);
  const removed = last
    .filter(({ member, verdict }) => verdict !== gone && !now.has(member.toLowerCase()))
    .map((entry) => ({ ...entry, verdict: gone, change: `no longer in the table; was ${entry.verdict}` }));
  return sorted([
    ...entries.map((entry) => ({ ...entry, change: changeOf(entry, before.get(entry.member.toLowerCase())) })),
    ...removed,
  ]);
}

/** The register as rows, its headings first. */
export function registerRows(entries: readonly Entry[]): readonly (readonly (string | number | null)[])[] {
  return [
    registerColumns.map(({ heading }) => heading),
    ...entries.map((entry) => registerColumns.map(({ field }) => entry[field])),
  ];
}

/** A register that cannot be read as one. */
export class NotARegister extends Error {
  override readonly name = "NotARegister";
}

/** Where the headings of a register stand among some rows. */
function headingsIn(rows: readonly (readonly (string | number | null)[])[]): number {
  return rows.findIndex(
    (row) =>
      row[0] === registerColumns[0]!.heading &&
      row[1] === registerColumns[1]!.heading &&
      row.includes("hash of the inputs"),
  );
}

/**
 * The entries of a register as its rows hold them, with texts given back as `writeCsv` got them. Throws NotARegister
 * where the headings are others.
 */
export function entriesOf(rows: readonly (readonly (string | number | null)[])[], fromCsv: boolean): readonly Entry[] {
  const head = headingsIn(rows);
  if (head < 0)
    throw new NotARegister(
      "it has no headings of a register; give another name to the new register, or delete the file",
    );
  const places = registerColumns.map(({ heading }) => rows[head]!.indexOf(heading));
  if (places.includes(-1))
    throw new NotARegister(
      `the column “${registerColumns[places.indexOf(-1)]!.heading}” is missing; give another name to the new register`,
    );
  return rows.slice(head + 1).flatMap((row): readonly Entry[] => {
    const at = (field: keyof Entry): string | number | null =>
      row[places[registerColumns.findIndex((column) => column.field === field)]!] ?? null;
    const text = (field: keyof Entry): string => {
      const value = String(at(field) ?? "");
      return fromCsv ? unguarded(value) : value;
    };
    const number = (field: keyof Entry): number | null => {
      const value = at(field);
      return value === null || value === "" || !Number.isFinite(Number(value)) ? null : Number(value);
    };
    if (text("member") === "") return [];
    return [
      {
        member: text("member"),
        verdict: text("verdict"),
        governing: text("governing"),
        utilisation: number("utilisation"),
        place: text("place"),
        losses: number("losses"),
        warnings: number("warnings"),
        remarks: text("remarks"),
        change: text("change"),
        template: text("template"),
        version: text("version"),
        hash: text("hash"),
        defaults: text("defaults"),
        file: text("file"),
        inputs: text("inputs"),
        written: text("written"),
      },
    ];
  });
}
