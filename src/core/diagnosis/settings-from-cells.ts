import { isBlank, type Block, type Cell } from "../cell";
import { fail, ok, type Result } from "../result";
import { faultNamed } from "./fault-names";
import type { FaultId } from "./faults";
import { IN_ORDER_BEFOREHAND, type ProvenRepairs } from "./starting-chances";

/** Names of settings as they stand in a sheet. */
const SETTINGS: Readonly<Record<string, { readonly key: SettingKey; readonly min: number; readonly max: number }>> = {
  "faulty from": { key: "faulty", min: 0.5, max: 1 },
  "serviceable up to": { key: "serviceable", min: 0, max: 0.5 },
  [IN_ORDER_BEFOREHAND]: { key: "inOrder", min: 0.01, max: 0.99 },
};
type SettingKey = "faulty" | "serviceable" | "inOrder";

/** As many proven repairs of one fault as a shop may count. */
const MOST_PROVEN = 1_000_000;

/** Settings of a verdict as a sheet gives them; what it leaves out is left out here. */
interface Settings extends Readonly<Partial<Record<SettingKey, number>>> {
  readonly proven: ProvenRepairs;
}

/**
 * Settings of a verdict from two columns, name and value: the shares of `SETTINGS`, and faults with how many
 * repairs of each were proven. Rows without a number, and headings, are passed over.
 */
export function settingsFromCells(block: Block): Result<Settings> {
  const proven = new Map<FaultId, number>();
  const out: { [K in SettingKey]?: number } = {};
  for (const [name, value] of block) {
    const said = typeof name === "string" ? name.trim() : "";
    const key = said.toLowerCase();
    const setting = Object.hasOwn(SETTINGS, key) ? SETTINGS[key] : undefined;
    if (isBlank(value)) continue;
    const number = typeof value === "number" ? value : Number.parseFloat(String(value).replace(",", "."));
    const percent = String(value).includes("%");
    if (setting) {
      const share = percent ? number / 100 : number;
      if (!(share >= setting.min && share <= setting.max))
        return notThis(`setting "${said}"`, value, `a share from ${setting.min} to ${setting.max}`);
      out[setting.key] = share;
      continue;
    }
    // A row of headings has no number.
    if (key === "" || Number.isNaN(number)) continue;
    const fault = faultNamed(said);
    if (!fault) return notThis("setting", said, `one of ${Object.keys(SETTINGS).join(", ")}, or the name of a fault`);
    if (percent || !(number >= 0 && number <= MOST_PROVEN))
      return notThis(`setting "${said}"`, value, `a number of proven repairs, from 0 to ${MOST_PROVEN}`);
    proven.set(fault, (proven.get(fault) ?? 0) + number);
  }
  return ok({ ...out, proven });
}

function notThis(what: string, came: Cell, expected: string): Result<never> {
  return fail({ code: "not-understood", what, came: String(came), expected });
}
