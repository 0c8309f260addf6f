import type { Injector, IRange } from "@univerjs/core";
import {
  IDependencyManagerService,
  IFeatureCalculationManagerService,
  IFormulaCurrentConfigService,
  IFormulaDependencyGenerator,
  IFormulaRuntimeService,
} from "@univerjs/engine-formula";
import {
  standAlike,
  standingFormulas,
  type Formulas,
  type OtherFormulas,
  type SheetNames,
  type Sheets,
} from "./formulas-standing";

/** A range that a formula reads. */
interface RangeRead {
  readonly unitId: string;
  readonly sheetId: string;
  readonly range: IRange;
}

/** A part of a parsed formula. */
interface Node {
  readonly nodeType: number;
  getChildren(): readonly Node[];
  /** What it stands for where it names a part of a table. */
  readonly _tableReferenceObject?: unknown;
}
/** A cell, and the range from one to another. */
const REFERENCE = 1;
const RANGE = 10;

/** One formula as the engine follows it. */
interface Tree {
  readonly treeId: number;
  readonly formula: string;
  /** It was filled down, and reads what the first one reads, so much further on. */
  readonly isVirtual: boolean;
  readonly refOffsetX: number;
  readonly refOffsetY: number;
  readonly row: number;
  readonly column: number;
  readonly rowCount: number;
  readonly columnCount: number;
  readonly unitId: string;
  readonly subUnitId: string;
  readonly rangeList: RangeRead[];
  isDirty: boolean;
  resetState(): void;
}

/** What is used of the part of the engine that lists what every formula reads. */
interface Lister {
  _dependencyTreeCache: Map<number, Tree>;
  _generateTreeList(formulas: Formulas, others: OtherFormulas, sheets: Sheets): Promise<Tree[]>;
  _getTreeNode(tree: Tree): Node;
  _includeTree(tree: Tree, node: Node): boolean;
  _detectForcedRecalculationNode(tree: Tree, node: Node): boolean;
  _nodeTraversalRef(node: Node, found: Node[]): void;
  /** Calls of OFFSET and INDIRECT. */
  _getAddressFunctionNodeList(node: Node): readonly Node[];
  _getRangeListByNode(data: { node: Node; refOffsetX: number; refOffsetY: number }): Promise<RangeRead[]>;
}

/** What is used of the part that finds the readers of a range in these lists. */
interface Readers {
  reset(): void;
  _removeAllTreeMap(treeId: number): void;
  _removeDependencyRTreeCacheById(unitId: string, sheetId: string): void;
  searchDependency(ranges: readonly RangeRead[], except?: ReadonlySet<number>): Set<number>;
  openKdTree(): void;
  closeKdTree(): void;
}

interface Kept {
  readonly standing: readonly unknown[];
  readonly formulas: readonly KeptFormula[];
  /** Who reads a cell, once it was asked. */
  readonly readersOf: Map<string, readonly number[]>;
}

interface KeptFormula {
  readonly tree: Tree;
  readonly node: Node | undefined;
  readonly reads: readonly RangeRead[];
  /** What it reads is written in it; parts of tables and the spill of a cell have to be looked up each time. */
  readonly plain: boolean;
}

/**
 * At every edit, and once more after the formulas that spill, the engine lists anew what each formula
 * of the workbook reads, and puts the lists beside those that it has: half of what the calculation of
 * one reading took, and more after each. With this they are kept for as long as no formula, sheet or
 * name is another one, and made anew in their place where one is.
 */
export function keepDependencies(injector: Injector): void {
  const lister = injector.get(IFormulaDependencyGenerator) as unknown as Partial<Lister>;
  const readers = injector.get(IDependencyManagerService) as unknown as Partial<Readers>;
  if (!isWhole(lister, LISTER) || !isWhole(readers, READERS)) return;
  const config = injector.get(IFormulaCurrentConfigService);
  const runtime = injector.get(IFormulaRuntimeService);
  const features = injector.get(IFeatureCalculationManagerService);
  let kept: Kept | undefined;
  forgetOnRemoval(readers, () => (kept = undefined));
  askOnce(readers, () => kept);
  detectOnce(lister);

  const list = lister._generateTreeList.bind(lister);
  lister._generateTreeList = async (formulas, others, sheets) => {
    const standing = standingFormulas(formulas, others, sheets, config.getSheetNameMap() as SheetNames);
    if (kept && !config.isForceCalculate() && standAlike(kept.standing, standing)) {
      if (await readAsBefore(kept)) return takeUp(lister, kept.formulas);
    }
    readers.reset();
    const trees = await list(formulas, others, sheets);
    const listed = trees.map((tree) => keptFormula(lister, tree));
    // What OFFSET and INDIRECT point at is known only while they are calculated.
    const pointing = listed.some(({ node }) => node && lister._getAddressFunctionNodeList(node).length > 0);
    if (!pointing && features.getReferenceExecutorMap().size === 0)
      kept = { standing, formulas: listed, readersOf: new Map() };
    return trees;
  };

  async function readAsBefore({ formulas }: Kept): Promise<boolean> {
    for (const { tree, node, reads, plain } of formulas) {
      if (plain) continue;
      const { row, column, rowCount, columnCount, subUnitId, unitId, refOffsetX, refOffsetY } = tree;
      runtime.setCurrent(row, column, rowCount, columnCount, subUnitId, unitId);
      const now = await (lister as Lister)._getRangeListByNode({ node: node!, refOffsetX, refOffsetY });
      if (now.length !== reads.length || !now.every((read, at) => sameRange(read, reads[at]!))) return false;
    }
    return true;
  }
}

function keptFormula(lister: Lister, tree: Tree): KeptFormula {
  if (!tree.formula) return { tree, node: undefined, reads: [...tree.rangeList], plain: true };
  const node = lister._getTreeNode(tree);
  const named: Node[] = [];
  lister._nodeTraversalRef(node, named);
  const plain = tree.isVirtual || named.every(isPlain);
  return { tree, node, reads: tree.isVirtual ? [] : [...tree.rangeList], plain };
}

function isPlain(node: Node): boolean {
  return node.nodeType === RANGE
    ? node.getChildren().every(isPlain)
    : node.nodeType === REFERENCE && !node._tableReferenceObject;
}

/** Lists are used up by each calculation. */
function takeUp(lister: Lister, formulas: readonly KeptFormula[]): Tree[] {
  for (const { tree, node, reads } of formulas) {
    tree.resetState();
    if (!tree.isVirtual && tree.rangeList.length === 0) tree.rangeList.push(...reads);
    tree.isDirty = node !== undefined && lister._includeTree(tree, node);
    lister._dependencyTreeCache.set(tree.treeId, tree);
  }
  return formulas.map(({ tree }) => tree);
}

/** Whatever takes a formula out of the lists of readers comes through one of these. */
function forgetOnRemoval(readers: Readers, forget: () => void): void {
  const { reset, _removeAllTreeMap: removeOne, _removeDependencyRTreeCacheById: removeSheet } = readers;
  readers.reset = () => {
    forget();
    reset.call(readers);
  };
  readers._removeAllTreeMap = (treeId) => {
    forget();
    removeOne.call(readers, treeId);
  };
  readers._removeDependencyRTreeCacheById = (unitId, sheetId) => {
    forget();
    removeSheet.call(readers, unitId, sheetId);
  };
}

/** Remembers who reads a cell, which the engine asks twice of each formula that it calculates. */
function askOnce(readers: Readers, keptNow: () => Kept | undefined): void {
  const { searchDependency: search, openKdTree: open, closeKdTree: close } = readers;
  let opened: Kept | undefined;
  readers.searchDependency = (ranges, except) => {
    const kept = keptNow();
    const [only] = ranges;
    if (!kept || !only || ranges.length > 1 || !isCell(only.range)) return search.call(readers, ranges, except);
    const key = `${only.unitId} ${only.sheetId} ${only.range.startRow} ${only.range.startColumn}`;
    let all = kept.readersOf.get(key);
    if (!all) kept.readersOf.set(key, (all = [...search.call(readers, ranges)]));
    return new Set(except ? all.filter((id) => !except.has(id)) : all);
  };
  readers.openKdTree = () => {
    const kept = keptNow();
    if (kept && kept === opened) return;
    open.call(readers);
    opened = kept;
  };
  readers.closeKdTree = () => {
    if (opened && opened === keptNow()) return;
    opened = undefined;
    close.call(readers);
  };
}

/** Whether a formula is one to be calculated each time, as NOW() is, stands in its words. */
function detectOnce(lister: Lister): void {
  const detect = lister._detectForcedRecalculationNode.bind(lister);
  const known = new WeakMap<Node, boolean>();
  lister._detectForcedRecalculationNode = (tree, node) => {
    let forced = known.get(node);
    if (forced === undefined) known.set(node, (forced = detect(tree, node)));
    return forced;
  };
}

function isCell({ startRow, startColumn, endRow, endColumn }: IRange): boolean {
  return startRow === endRow && startColumn === endColumn;
}

function sameRange(one: RangeRead, other: RangeRead): boolean {
  return (
    one.unitId === other.unitId &&
    one.sheetId === other.sheetId &&
    (["startRow", "startColumn", "endRow", "endColumn"] as const).every((end) =>
      Object.is(one.range[end], other.range[end]),
    )
  );
}

const LISTER = [
  "_generateTreeList",
  "_getTreeNode",
  "_includeTree",
  "_detectForcedRecalculationNode",
  "_nodeTraversalRef",
  "_getAddressFunctionNodeList",
  "_getRangeListByNode",
] as const;
const READERS = [
  "reset",
  "_removeAllTreeMap",
  "_removeDependencyRTreeCacheById",
  "searchDependency",
  "openKdTree",
  "closeKdTree",
] as const;

function isWhole<T extends object>(part: Partial<T>, steps: readonly (keyof T)[]): part is T {
  return steps.every((step) => typeof part[step] === "function");
}
