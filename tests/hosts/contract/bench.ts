import { WorkbookFault, type Area, type CellWrite, type Step, type Workbook } from "../../../src/workbook/port";

/** A fresh workbook of one host, with one empty sheet, and what a person can do to it. */
export interface HostUnderTest {
  readonly workbook: Workbook;
  /** Types into one cell the way a person does. */
  readonly type?: (sheet: string, row: number, column: number, text: string) => Promise<void>;
  /** The undo key. */
  readonly undo?: () => Promise<void>;
  readonly close?: () => Promise<void> | void;
}

/** What a host can do besides; what it cannot is skipped, and the test run says so. */
export interface Abilities {
  /** Formulas have values at once, not only after a file was recalculated. */
  readonly calculates: boolean;
  /** A person can type into it: `type` is given. */
  readonly typedInto: boolean;
  /** It has an undo key: `undo` is given. */
  readonly undoes: boolean;
}

/** The workbook at hand, anew for every test, with what all of them write and read it by. */
export class Bench {
  readonly itCalculates: jest.It;
  readonly itIsTypedInto: jest.It;
  readonly itUndoes: jest.It;
  host!: HostUnderTest;
  sheet!: string;

  constructor(make: () => Promise<HostUnderTest>, abilities: Abilities) {
    this.itCalculates = abilities.calculates ? it : it.skip;
    this.itIsTypedInto = abilities.typedInto ? it : it.skip;
    this.itUndoes = abilities.undoes ? it : it.skip;
    beforeEach(async () => {
      this.host = await make();
      this.sheet = (await this.workbook.sheetNames())[0]!;
    });
    afterEach(async () => this.host.close?.());
  }

  get workbook(): Workbook {
    return this.host.workbook;
  }

  readonly area = (row: number, column: number, rows = 1, columns = 1, on = this.sheet): Area => ({
    sheet: on,
    row,
    column,
    rows,
    columns,
  });

  readonly write = (row: number, column: number, values: CellWrite[][], on = this.sheet): Step => ({
    do: "write",
    at: this.area(row, column, values.length, values[0]!.length, on),
    values,
  });

  readonly values = async (at: Area) => (await this.workbook.read(at)).values;

  /** Why a batch is refused; it must be, in a sentence. */
  readonly refusal = async (batch: readonly Step[]): Promise<WorkbookFault> => {
    const fault = await this.workbook.apply(batch).then(
      () => undefined,
      (error: unknown) => error,
    );
    expect(fault).toBeInstanceOf(WorkbookFault);
    expect((fault as WorkbookFault).message).toMatch(/^[A-Z].*[.]$/su);
    return fault as WorkbookFault;
  };
}
