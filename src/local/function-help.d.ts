/** Description of every worksheet function, put in by the build from their doc comments. */
declare const FUNCTION_HELP: readonly import("../hosts/grid/page-grid").FunctionHelp[];
