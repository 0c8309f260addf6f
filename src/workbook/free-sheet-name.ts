/** A name for one more sheet of a template: `Job`, `Job 2`, `Job 3` … */
export function freeSheetName(wanted: string, taken: readonly string[]): string {
  const used = new Set(taken.map((name) => name.toUpperCase()));
  for (let n = 1; ; n++) {
    const name = n === 1 ? wanted : `${wanted.slice(0, 31 - String(n).length - 1)} ${n}`;
    if (!used.has(name.toUpperCase())) return name;
  }
}
