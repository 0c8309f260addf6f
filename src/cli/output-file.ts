import { accessSync, closeSync, constants, existsSync, openSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { InputFault, UsageFault } from "./command";

/** Where a workbook may be written: a name that ends in .xlsx, and no file that is there already unless asked. */
export function workbookOutput(output: string | undefined, force: boolean | undefined, example: string): string {
  if (output === undefined) throw new UsageFault(`say where the workbook goes, as in: ${example}.`);
  if (path.extname(output).toLowerCase() !== ".xlsx") throw new UsageFault(`"${output}" does not end in .xlsx.`);
  if (existsSync(output) && !force)
    throw new InputFault(`"${output}" is there already; choose another name, or add --force to replace it.`);
  return output;
}

/** Reads a file whole; every way in which that can go wrong has its own sentence. */
export function readBytes(file: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT") throw new InputFault(`there is no file "${file}"; check the name and the folder.`);
    if (code === "EISDIR") throw new InputFault(`"${file}" is a folder; name the file in it.`);
    throw new InputFault(`"${file}" cannot be read (${code ?? "unknown reason"}).`);
  }
}

export function writeBytes(file: string, bytes: Uint8Array): void {
  try {
    writeFileSync(file, bytes);
  } catch (error) {
    throw notWritten(file, error);
  }
}

function notWritten(file: string, error: unknown): InputFault {
  const code = (error as NodeJS.ErrnoException).code ?? "unknown reason";
  return new InputFault(`"${file}" cannot be written (${code}); check the folder.`);
}

/** Refuses what cannot be written before long work goes into it: no folder, a folder of this name, no leave. */
export function mustBeWritable(file: string): void {
  try {
    accessSync(path.dirname(file), constants.W_OK);
    if (existsSync(file)) closeSync(openSync(file, "r+"));
  } catch (error) {
    throw notWritten(file, error);
  }
}
