/**
 * Four builds from one source: the command line (`cli`), the audit for warehouses (`warehouse`), the
 * local page (`local`) and the Excel add-in (`addin`). Each is a named configuration: `webpack --config-name cli`.
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

/**
 * The grid's text engine brings hyphenation patterns of 60 languages, and asks for none but its
 * default's.
 */
function withoutHyphenation() {
  return new webpack.IgnorePlugin({
    checkResource: (request, context) =>
      /@univerjs.engine-render/.test(context) && /^\.\/(?!en-gb-)[\w-]+-[\w-]{8}\.js$/.test(request),
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
    // The queue's library loads parts of itself by name; it lies beside the program once installed.
    externals: { bullmq: "commonjs bullmq", ioredis: "commonjs ioredis" },
    output: { path: path.join(dist, "cli"), filename: "[name].js", chunkFilename: "[name].js", clean: true },
    optimization: { minimize: false },
    plugins: [
      ...config.plugins,
      new webpack.BannerPlugin({ banner: "#!/usr/bin/env node", raw: true, entryOnly: true }),
      executable("chargewright.js"),
    ],
  };
}

/**
 * The audit as one script that needs nothing around it: a database or warehouse with JavaScript
 * functions loads it and calls `chargewright.auditRow`.
 */
function warehouse() {
  const config = base("warehouse");
  return {
    ...config,
    target: ["es2020"],
    entry: { audit: "./src/warehouse/audit.ts" },
    output: {
      path: path.join(dist, "warehouse"),
      filename: "chargewright-[name].js",
      library: { name: "chargewright", type: "var" },
      chunkFormat: false,
      chunkLoading: false,
      clean: true,
    },
    optimization: { minimizer: [new MinimizerPlugin({ minify: MinimizerPlugin.swcMinify })] },
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
    entry: {
      page: "./src/local/page.ts",
      phone: "./src/local/phone.ts",
      "service-worker": "./src/local/service-worker.ts",
    },
    output: { path: path.join(dist, "local"), filename: "[name].js", chunkFilename: "[name].js", clean: true },
    module: { rules: [...config.module.rules, { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] }] },
    // The usual minimizer needs most of a minute for the grid, this one a few seconds.
    optimization: { minimizer: [new MinimizerPlugin({ minify: MinimizerPlugin.swcMinify })] },
    plugins: [
      ...config.plugins,
      new MiniCssExtractPlugin({ filename: "[name].css" }),
      new HtmlWebpackPlugin({ template: "./src/local/index.html", scriptLoading: "defer", chunks: ["page"] }),
      new HtmlWebpackPlugin({
        template: "./src/local/phone.html",
        filename: "phone.html",
        scriptLoading: "defer",
        chunks: ["phone"],
      }),
      new webpack.DefinePlugin({
        FUNCTION_HELP: webpack.DefinePlugin.runtimeValue(() => JSON.stringify(functionHelp()), true),
      }),
      installableFiles(),
    ],
  };
}

/** The icons and the web manifest of the page, and for its service worker the list of all files of the build. */
function installableFiles() {
  const { iconPng } = require("./src/tools/icon.ts");
  const { webManifest, buildList, PAGE_ICONS } = require("./src/tools/installable.ts");
  const { Compilation, sources } = webpack;
  return {
    apply: (compiler) =>
      compiler.hooks.thisCompilation.tap("installable", (compilation) => {
        const at = (stage, work) => compilation.hooks.processAssets.tap({ name: "installable", stage }, work);
        at(Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL, () => {
          for (const size of PAGE_ICONS)
            compilation.emitAsset(`icon-${size}.png`, new sources.RawSource(iconPng(size)));
          compilation.emitAsset("chargewright.webmanifest", new sources.RawSource(webManifest()));
        });
        at(Compilation.PROCESS_ASSETS_STAGE_REPORT, (assets) => {
          const files = Object.entries(assets).map(([name, source]) => [name, source.buffer()]);
          compilation.updateAsset("service-worker.js", (script) => new sources.ConcatSource(buildList(files), script));
        });
      }),
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

/** Where Excel's own library comes from: its maker's network, or beside our own files. */
const OFFICE_JS = {
  cdn: {
    address: "https://appsforoffice.microsoft.com/lib/1/hosted/office.js",
    origin: " https://appsforoffice.microsoft.com",
  },
  local: { address: "office/office.js", origin: "" },
};

/**
 * The Excel add-in: one page, the functions ready at once, the pane fetched when it is first seen.
 * `--env base=https://…` (or CHARGEWRIGHT_BASE) is the address it will be served from;
 * `--env office=local` (or CHARGEWRIGHT_OFFICE) brings Excel's library along for a shop without internet.
 */
function addin(env) {
  const { DEFAULT_BASE } = require("./src/tools/manifest.ts");
  const address = env.base ?? process.env.CHARGEWRIGHT_BASE ?? DEFAULT_BASE;
  const office = env.office ?? process.env.CHARGEWRIGHT_OFFICE ?? "cdn";
  if (!Object.hasOwn(OFFICE_JS, office)) throw new Error(`--env office is cdn or local, not ${office}.`);
  const config = base("addin");
  return {
    ...config,
    target: ["web", "es2020"],
    entry: { functions: "./src/hosts/excel/entry.ts" },
    output: {
      path: path.join(dist, "addin"),
      filename: "[name].js",
      chunkFilename: "[name].js",
      publicPath: "auto",
      clean: true,
    },
    module: { rules: [...config.module.rules, { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] }] },
    optimization: {
      minimizer: [
        // Every shop fetches it, so a second and a third look for what can be shorter are worth their seconds.
        new MinimizerPlugin({
          minify: MinimizerPlugin.swcMinify,
          minimizerOptions: { compress: { passes: 3 }, mangle: true },
          exclude: /^office\//,
        }),
        new MinimizerPlugin({ test: /\.css$/, minify: MinimizerPlugin.cleanCssMinify }),
      ],
      // The diagnosis is one piece that functions and pane share; all else of the pane is another.
      splitChunks: {
        cacheGroups: {
          default: false,
          defaultVendors: false,
          // What lays sheets out is asked for in several places, and is one piece for all of them.
          sheets: {
            name: "sheets",
            chunks: "async",
            enforce: true,
            test: /[\\/]templates[\\/][a-z]+\.json$|node_modules.zod\b|src.(?:pane.start-job|workbook.(?:templates|place-templates|quote-(?:write|held)|[a-z]+-schema|schema-words|[a-z]+-plan|page-[a-z]+|sheet-draft|sheet-head|text-lines|list-layout))\b/,
          },
          // What several pieces of the pane need comes once, not with each of them.
          cells: {
            name: "cells",
            chunks: "async",
            enforce: true,
            test: /src.(?:core.fleet.audit-columns|pane.sheets-language|workbook.(?:audit-columns|audit-formula|blank-guard|input-cells|look|quote-(?:read|record)|sheet-language))\b/,
          },
          // What is done at each check, which the pane says and its Spanish words are told apart by.
          steps: {
            name: "steps",
            chunks: "async",
            enforce: true,
            test: /src.core.readings.(?:check-steps|cautions)\b/,
          },
          // Sentences in Spanish are one piece that functions and pane share, but for those that a quote says as well.
          phrases: {
            name: "phrases-spanish",
            chunks: "async",
            enforce: true,
            test: /src.core.words.spanish.(?:phrases|catalogue|diodes|evidence|judged|limits|proof|refusals)\b/,
          },
          diagnosis: {
            name: "diagnosis",
            chunks: "async",
            enforce: true,
            // What proves a part or a repair is asked at the counter alone, and travels with it; a fleet's audit,
            // its trends and notices are asked by cells.
            test: /src.(?:core.(?:diagnosis\b(?!.(?:pro(?:of|ven-by)|faults)\.)|fleet\b(?!.(?:audit|trend|robust|join|named|risk|history|growing|notices|issue)))|functions.(?:verdict|fleet)\b)/,
          },
        },
      },
    },
    plugins: [
      ...config.plugins,
      new MiniCssExtractPlugin({ filename: "[name].css", chunkFilename: "[name].css" }),
      new HtmlWebpackPlugin({
        template: "./src/hosts/excel/addin.html",
        filename: "addin.html",
        scriptLoading: "defer",
        templateParameters: {
          officeJs: OFFICE_JS[office].address,
          policy: `default-src 'self'; script-src 'self'${OFFICE_JS[office].origin}; style-src 'self' 'unsafe-inline'; img-src 'self' data:`,
        },
      }),
      addinFilesPlugin(address),
      ...(office === "local" ? [officeLibrary()] : []),
    ],
  };
}

/** Adds what no bundler makes (metadata, help, icons, manifest) and checks the manifest against the finished files. */
function addinFilesPlugin(address) {
  const { addinFiles, checkAddinFiles } = require("./src/tools/addin-files.ts");
  const { version } = require("./package.json");
  const { Compilation, sources, WebpackError } = webpack;
  return {
    apply: (compiler) =>
      compiler.hooks.thisCompilation.tap("addin-files", (compilation) => {
        const at = (stage, work) => compilation.hooks.processAssets.tap({ name: "addin-files", stage }, work);
        at(Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL, () => {
          for (const [name, content] of addinFiles(address, version))
            compilation.emitAsset(name, new sources.RawSource(content));
        });
        at(Compilation.PROCESS_ASSETS_STAGE_REPORT, (assets) => {
          const files = new Map(Object.entries(assets).map(([name, source]) => [name, source.source()]));
          for (const wrong of checkAddinFiles(address, files))
            compilation.errors.push(new WebpackError(`manifest.xml: ${wrong}`));
        });
      }),
  };
}

/** Excel's library as its maker delivers it; its licence forbids changes, so it is not minified again. */
function officeLibrary() {
  const CopyPlugin = require("copy-webpack-plugin");
  const from = path.join(path.dirname(require.resolve("@microsoft/office-js/package.json")), "dist");
  const parts = [
    "office.js",
    "o15apptofilemappingtable.js",
    "excel-*.js",
    "custom-functions-runtime.js",
    "es6-promise.js",
    "*/office_strings.js",
    "*telemetry/**",
  ];
  return new CopyPlugin({
    patterns: parts.map((part) => ({
      from: part,
      context: from,
      to: "office/[path][name][ext]",
      globOptions: { ignore: ["**/*.debug.js", "**/excel-15*", "**/excel-ios*", "**/excel-android*"] },
      info: { minimized: true },
    })),
  });
}

module.exports = (env = {}) => [cli(), warehouse(), local(), addin(env)];
