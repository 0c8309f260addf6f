import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { Workbook } from "../workbook/port";
import type { Drafts, PaneSettings } from "./settings";

/** What every view of the pane works with. */
export interface PaneTools {
  readonly workbook: Workbook;
  readonly settings: PaneSettings;
  readonly drafts: Drafts;
  /** Names of the workbook's sheets, one a line; empty until they are known. */
  readonly sheets: string;
  /** Says something to a screen reader without moving anything. */
  announce(text: string): void;
  /** Runs a workbook call; a failure is shown at the top of the pane with its reason. */
  attempt<T>(work: () => Promise<T>): Promise<T | undefined>;
}

export const PaneContext = createContext<PaneTools | undefined>(undefined);

export function usePane(): PaneTools {
  const tools = useContext(PaneContext);
  if (!tools) throw new Error("This view stands outside the pane.");
  return tools;
}
