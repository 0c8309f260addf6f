import {
  BaseFunction,
  ErrorType,
  ErrorValueObject,
  type BaseReferenceObject,
  type FunctionVariantType,
} from "@univerjs/engine-formula";

/**
 * The whole spill of the formula in one cell (`A1#`), which files store as `_xlfn.ANCHORARRAY(A1)`
 * and the engine does not know by itself.
 */
export class AnchorArray extends BaseFunction {
  override minParams = 1;
  override maxParams = 1;
  override needsReferenceObject = true;

  override calculate(anchor: FunctionVariantType): ReturnType<BaseFunction["calculate"]> {
    if (anchor.isError()) return anchor;
    if (!anchor.isReferenceObject()) return ErrorValueObject.create(ErrorType.REF);
    const reference = anchor as BaseReferenceObject;
    const { startRow, startColumn } = reference.getRangePosition();
    // What this calculation has spilled so far comes before what the last one left.
    for (const spills of [reference.getRuntimeArrayFormulaRange(), reference.getArrayFormulaRange()]) {
      const spill = spills?.[reference.getUnitId()]?.[reference.getSheetId()]?.[startRow]?.[startColumn];
      if (spill) return this.createReferenceObject(reference, spill);
    }
    return reference;
  }
}
