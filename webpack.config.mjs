/** The functions script, and the two pages over it. `scripts/build.mjs` runs this. */
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { transform } from "esbuild";
import HtmlWebpackPlugin from "html-webpack-plugin";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import webpack from "webpack";

const PROJECT = fileURLToPath(new URL(".", import.meta.url));
const FUNCTIONS_MODULE = resolve(PROJECT, "functions/downfeed.js");

/** Everything from the page's own origin; styles in elements are how the spreadsheet lays itself out. */
const POLICY = {
  "default-src": "'none'",
  "script-src": "'self'",
  "style-src": "'self' 'unsafe-inline'",
  "img-src": "'self' data: blob:",
  "font-src": "'self' data:",
  "connect-src": "'self'",
  "worker-src": "'self' blob:",
  "base-uri": "'none'",
  "form-action": "'none'",
};

/** What office.js needs on top: itself, what it loads and what it asks at its own origin. */
const OFFICE_POLICY = {
  ...POLICY,
  "script-src": "'self' https://appsforoffice.microsoft.com",
  "style-src": "'self' 'unsafe-inline' https://appsforoffice.microsoft.com",
  "connect-src": "'self' https://appsforoffice.microsoft.com",
  "frame-src": "https://appsforoffice.microsoft.com",
};

/** @param {Readonly<Record<string, string>>} policy */
function policyText(policy) {
  return Object.entries(policy)
    .map(([directive, origins]) => `${directive} ${origins}`)
    .join("; ");
}

/**
 * Under development: by esbuild, in a tenth of the time that webpack's own way takes to make a twentieth less of it.
 * @param {webpack.Compiler} compiler
 */
function minifyScripts(compiler) {
  const name = "minify scripts";
  const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_OPTIMIZE_SIZE;
  compiler.hooks.compilation.tap(name, (compilation) =>
    compilation.hooks.processAssets.tapPromise({ name, stage }, async (assets) => {
      for (const [file, source] of Object.entries(assets)) {
        if (!file.endsWith(".js")) continue;
        const { code } = await transform(String(source.source()), {
          minify: true,
          target: "es2022",
          legalComments: "none",
        });
        compilation.updateAsset(file, new webpack.sources.RawSource(code), { minimized: true });
      }
    }),
  );
}

/** @param {string} name @param {Target} target */
function common(name, { outDir, development }) {
  return {
    name,
    mode: "production",
    target: ["web", "es2022"],
    context: PROJECT,
    devtool: false,
    output: { path: outDir, publicPath: "auto" },
    resolve: {
      extensions: [".ts", ".tsx", ".js"],
      extensionAlias: { ".js": [".ts", ".tsx", ".js"] },
    },
    module: {
      rules: [
        // Types are checked by `npm run check`.
        { test: /\.tsx?$/, loader: resolve(PROJECT, "scripts/script-loader.mjs") },
        { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] },
      ],
    },
    cache: {
      type: "filesystem",
      cacheDirectory: resolve(PROJECT, ".cache/webpack"),
      name,
      buildDependencies: {
        config: [fileURLToPath(import.meta.url), resolve(PROJECT, "scripts/script-loader.mjs")],
      },
    },
    optimization: development ? { minimizer: [{ apply: minifyScripts }] } : {},
    performance: { hints: false },
    infrastructureLogging: { level: "warn" },
  };
}

/** @param {Target} target */
function functionsScript(target) {
  const config = common("functions", target);
  return {
    ...config,
    entry: { functions: "./functions/main.ts" },
    output: { ...config.output, filename: "[name].js" },
  };
}

/** The pages take the engine from the functions script, so that a page holds one copy of it. */
function fromFunctionsScript({ context, request }, callback) {
  const isIt = request.startsWith(".") && resolve(context, request) === FUNCTIONS_MODULE;
  if (isIt) callback(null, "Downfeed", "var");
  else callback();
}

/** @param {{ script: string, style: string }} vendor @param {Target} target */
function pages(vendor, target) {
  const config = common("pages", target);
  return {
    ...config,
    entry: {
      workbench: "./taskpane/pages/workbench/workbench.ts",
      taskpane: "./taskpane/pages/excel/excel-page.ts",
    },
    output: {
      ...config.output,
      filename: "[name].js",
      chunkFilename: "chunks/[name]-[contenthash:8].js",
    },
    externals: [fromFunctionsScript],
    plugins: [
      new MiniCssExtractPlugin({
        filename: "[name].css",
        chunkFilename: "chunks/[name]-[contenthash:8].css",
      }),
      new webpack.DefinePlugin({
        VENDOR_SCRIPT: JSON.stringify(`vendor/${vendor.script}`),
        VENDOR_STYLE: JSON.stringify(`vendor/${vendor.style}`),
      }),
      page("index.html", "taskpane/pages/workbench/workbench.html", POLICY, vendor),
      page("taskpane.html", "taskpane/pages/excel/taskpane.html", OFFICE_POLICY, vendor),
    ],
  };
}

/** Scripts and styles stand in the templates, where their order can be seen. */
function page(filename, template, policy, vendor) {
  return new HtmlWebpackPlugin({
    filename,
    template: resolve(PROJECT, template),
    inject: false,
    minify: false,
    templateParameters: (compilation) => ({
      policy: policyText(policy),
      vendorScript: `vendor/${vendor.script}`,
      version: compilation.hash,
    }),
  });
}

/**
 * @typedef {{ outDir: string, development: boolean }} Target
 * @param {{ script: string, style: string }} vendor Names of the bundled spreadsheet's files.
 * @param {Target} target
 */
export default function configurations(vendor, target) {
  return [functionsScript(target), pages(vendor, target)];
}
