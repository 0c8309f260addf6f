/**
 * Three builds from one source: the command line (`cli`), the Excel add-in (`addin`) and the local
 * page (`local`). Each is a named configuration: `webpack --config-name cli`.
 */
const path = require("node:path");

const dist = path.resolve(__dirname, "dist");

function base(name) {
  return {
    name,
    devtool: false,
    resolve: { extensions: [".ts", ".tsx", ".js"] },
    module: {
      rules: [{ test: /\.tsx?$/, loader: "ts-loader", options: { transpileOnly: true }, exclude: /node_modules/ }],
    },
    performance: false,
    stats: "errors-warnings",
  };
}

function cli() {
  return {
    ...base("cli"),
    target: "node20",
    entry: { chargewright: "./src/cli/main.ts" },
    output: { path: path.join(dist, "cli"), filename: "[name].js" },
  };
}

module.exports = [cli()];
