/** @jsxImportSource preact */
import type { JSX } from "preact";

/** A check's name with what was read in it; where its one reading has the same name, that is said once. */
export function CheckSaid({ label, read }: { readonly label: string; readonly read: string }): JSX.Element {
  const once = read.startsWith(`${label} `);
  return (
    <>
      <strong>{once ? label : `${label}:`}</strong> {once ? read.slice(label.length + 1) : read}
    </>
  );
}
