import type { ChoiceEntry, QuantityEntry, Stage } from "./types";

/** Small makers that keep the catalogue's files readable as tables. */

type QuantityRest = Omit<QuantityEntry, "kind" | "id" | "label" | "stage" | "unit" | "min" | "max" | "decimals">;

/** Makes the quantities of one stage; `check` names the step of the work that they are taken in. */
export function quantityOf(stage: Stage, check?: string) {
  return (
    id: string,
    label: string,
    unit: QuantityEntry["unit"],
    [min, max]: readonly [number, number],
    decimals: number,
    rest: QuantityRest = {},
  ): QuantityEntry => ({
    kind: "quantity",
    id,
    label,
    stage,
    ...(check === undefined ? {} : { check }),
    unit,
    min,
    max,
    decimals,
    ...rest,
  });
}

export function choiceOf(
  stage: Stage,
  id: string,
  label: string,
  choices: ChoiceEntry["choices"],
  rest: { readonly check?: string; readonly synonyms?: readonly string[] } = {},
): ChoiceEntry {
  return { kind: "choice", id, label, stage, choices, ...rest };
}

/** The three pairs of a stator's terminals, and the three phases of a regulator-rectifier. */
export const PAIRS = ["ab", "bc", "ca"] as const;
export const PHASES = ["a", "b", "c"] as const;
/** Ids of readings that come three at a time. */
export const NO_LOAD_IDS = PAIRS.map((p) => `no-load-${p}`);
export const LOADED_IDS = PAIRS.map((p) => `loaded-${p}`);
export const WINDING_IDS = PAIRS.map((p) => `winding-${p}`);
export const GROUND_IDS = PHASES.map((p) => `ground-${p}`);
export const PHASE_DROP_IDS = PHASES.map((p) => `phase-drop-${p}`);

export const YES_NO = [
  { value: "yes", label: "Yes", synonyms: ["y", "true", "1", "sí", "si", "oui", "ja"] },
  { value: "no", label: "No", synonyms: ["n", "false", "0", "non", "nein"] },
] as const;
