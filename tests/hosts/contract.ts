import { Bench, type Abilities, type HostUnderTest } from "./contract/bench";
import { batchContract } from "./contract/batches";
import { formulasContract } from "./contract/formulas";
import { selectionContract } from "./contract/selection";
import { cellsContract, sheetsContract } from "./contract/sheets-and-cells";

/** What every host must do alike; each host's tests call it with its own workbooks. */
export function workbookContract(makeWorkbook: () => Promise<HostUnderTest>, abilities: Abilities): void {
  const bench = new Bench(makeWorkbook, abilities);
  sheetsContract(bench);
  cellsContract(bench);
  formulasContract(bench);
  batchContract(bench);
  selectionContract(bench);
}
