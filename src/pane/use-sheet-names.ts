import { useEffect, useState } from "preact/hooks";
import type { Workbook } from "../workbook/port";

/**
 * The names of the workbook's sheets, one a line; empty until they are known. No host tells of a sheet that is
 * added, renamed or removed: they are read again where the user goes to another sheet or comes to the pane.
 */
export function useSheetNames(workbook: Workbook): string {
  const [names, setNames] = useState("");
  useEffect(() => {
    let wanted = true;
    let last: string | undefined;
    // Who cannot be reached now is asked the next time; what fails for it says so itself.
    const look = () =>
      void workbook.sheetNames().then(
        (found) => wanted && setNames(found.join("\n")),
        () => undefined,
      );
    look();
    const stop = workbook.onSelection(({ sheet }) => {
      if (sheet !== last) look();
      last = sheet;
    });
    for (const coming of COMING) document.addEventListener(coming, look);
    return () => {
      wanted = false;
      stop();
      for (const coming of COMING) document.removeEventListener(coming, look);
    };
  }, [workbook]);
  return names;
}

const COMING = ["pointerdown", "focusin"] as const;
