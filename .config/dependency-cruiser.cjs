/**
 * The arrows of the house: cli, local, pane → hosts → workbook → core, functions → core; inside
 * core everything may use readings, judgement and the shared leaves, diagnosis uses all rooms.
 * An import that points back, and every cycle, fails.
 */
const rule = (name, from, to, comment) => ({ name, comment, severity: "error", from: { path: from }, to });
const only = (room, allowed) =>
  rule(
    `core-${room}`,
    `^src/core/${room}/`,
    { path: "^src/", pathNot: `^src/core/(?:${[room, ...allowed].join("|")})/|^src/core/[a-z-]+\\.ts$` },
    `${room} may use: ${allowed.join(", ") || "only itself"}`,
  );

module.exports = {
  forbidden: [
    { name: "no-cycle", severity: "error", from: {}, to: { circular: true } },
    rule("core-is-pure", "^src/core/", { path: "^src/(?!core/)" }, "core imports nothing outside itself"),
    rule("core-has-no-host", "^src/core/", { dependencyTypes: ["core"] }, "no Node module inside core"),
    only("readings", []),
    only("judgement", ["readings"]),
    only("battery", ["judgement", "readings"]),
    only("stator", ["judgement", "readings"]),
    only("rectifier", ["judgement", "readings"]),
    only("wiring", ["judgement", "readings"]),
    only("circuit", ["judgement", "readings", "battery", "stator", "wiring"]),
    only("limits", ["judgement", "readings", "battery", "stator", "rectifier", "wiring", "circuit"]),
    only("diagnosis", ["limits", "judgement", "readings", "battery", "stator", "rectifier", "wiring", "circuit"]),
    only("words", ["diagnosis", "readings"]),
    only("quote", ["diagnosis", "words", "judgement", "readings"]),
    only("fleet", ["diagnosis", "limits", "judgement", "readings", "battery"]),
    rule("functions", "^src/functions/", { path: "^src/(?!core/|functions/)" }, "functions use core only"),
    rule("warehouse", "^src/warehouse/", { path: "^src/(?!core/|warehouse/)" }, "the warehouse script uses core only"),
    rule("workbook", "^src/workbook/", { path: "^src/(?!core/|workbook/)" }, "workbook uses core only"),
    // The entry of the add-in is where its parts are put together: functions, pane and workbook.
    rule(
      "hosts",
      "^src/hosts/(?!excel/entry)",
      { path: "^src/(?!core/|workbook/|functions/|hosts/)" },
      "hosts use workbook, functions, core",
    ),
    rule("pane", "^src/pane/", { path: "^src/(?:cli|local|tools)/" }, "the pane knows no command line and no page"),
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
  },
};
