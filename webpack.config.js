/**
 * Three builds from one source: the command line (`cli`), the Excel add-in (`addin`) and the local
 * page (`local`). Each is a named configuration: `webpack --config-name cli`.
 */
const path = require("node:path");
const webpack = require("webpack");
const HtmlWebpackPlugin = require("html-webpack-plugin");
const MiniCssExtractPlugin = require("mini-css-extract-plugin");
const MinimizerPlugin = require("minimizer-webpack-plugin");
require("./.config/typescript.cjs");

const dist = path.resolve(__dirname, "dist");

function base(name) {
  return {
    name,
    devtool: false,
    resolve: { extensions: [".ts", ".tsx", ".js"] },
    module: {
      rules: [
        {
          test: /\.tsx?$/,
          loader: "ts-loader",
          options: { transpileOnly: true, compilerOptions: { rootDir: __dirname } },
          exclude: /node_modules/,
        },
      ],
    },
    plugins: [withoutHyphenation()],
    performance: false,
    stats: "errors-warnings",
  };
}

/** The grid's text engine brings hyphenation patterns of 60 languages, which no cell ever asks for. */
function withoutHyphenation() {
  return new webpack.IgnorePlugin({
    checkResource: (request, context) =>
      /@univerjs.engine-render/.test(context) && /^\.\/[\w-]+-[\w-]{8}\.js$/.test(request),
  });
}

/**
 * Runs on Node as it is, so it is not minified: that would take five times as long at every install
 * and save nothing. The engine lies in a chunk of its own that only the commands load that need it.
 */
function cli() {
  const config = base("cli");
  return {
    ...config,
    target: "node20",
    entry: { chargewright: "./src/cli/chargewright.ts", "audit-worker": "./src/cli/audit/worker.ts" },
    // Threads are started from the built file beside the program.
    node: { __dirname: false },
    output: { path: path.join(dist, "cli"), filename: "[name].js", chunkFilename: "[name].js", clean: true },
    optimization: { minimize: false },
    plugins: [
      ...config.plugins,
      new webpack.BannerPlugin({ banner: "#!/usr/bin/env node", raw: true, entryOnly: true }),
      executable("chargewright.js"),
    ],
  };
}

/** Marks a built file as a program, which a checkout on any system can then start by its name. */
function executable(file) {
  const { chmodSync } = require("node:fs");
  return {
    apply: (compiler) =>
      compiler.hooks.afterEmit.tap("executable", () => chmodSync(path.join(compiler.outputPath, file), 0o755)),
  };
}

/** The local page: the grid and the pane, served by `chargewright serve` with nothing from elsewhere. */
function local() {
  const config = base("local");
  return {
    ...config,
    target: ["web", "es2022"],
    entry: { page: "./src/local/page.ts" },
    output: { path: path.join(dist, "local"), filename: "[name].js", clean: true },
    module: { rules: [...config.module.rules, { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] }] },
    // The usual minimizer needs most of a minute for the grid, this one a few seconds.
    optimization: { minimizer: [new MinimizerPlugin({ minify: MinimizerPlugin.swcMinify })] },
    plugins: [
      ...config.plugins,
      new MiniCssExtractPlugin({ filename: "[name].css" }),
      new HtmlWebpackPlugin({ template: "./src/local/index.html", scriptLoading: "defer" }),
      new webpack.DefinePlugin({
        FUNCTION_HELP: webpack.DefinePlugin.runtimeValue(() => JSON.stringify(functionHelp()), true),
      }),
    ],
  };
}

/** What the grid says of each function while it is typed: from the same comments as Excel's. */
function functionHelp() {
  const { describeFunctions } = require("./src/tools/function-metadata.ts");
  return describeFunctions().map(({ id, description, parameters }) => ({
    id,
    description,
    parameters: parameters.map(({ name, description, optional }) => ({ name, description, optional })),
  }));
}

module.exports = [cli(), local()];
