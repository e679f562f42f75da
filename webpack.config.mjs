/** The functions script, and the two pages over it. `scripts/build.mjs` runs this. */
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
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

/** @param {string} name @param {string} outDir */
function common(name, outDir) {
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
        {
          test: /\.tsx?$/,
          loader: "ts-loader",
          options: {
            // Types are checked by `npm run check`.
            transpileOnly: true,
            compilerOptions: { noEmit: false },
          },
        },
        { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] },
      ],
    },
    cache: {
      type: "filesystem",
      cacheDirectory: resolve(PROJECT, ".cache/webpack"),
      name,
      buildDependencies: { config: [fileURLToPath(import.meta.url)] },
    },
    performance: { hints: false },
    infrastructureLogging: { level: "warn" },
  };
}

/** @param {string} outDir */
function functionsScript(outDir) {
  const config = common("functions", outDir);
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

/** @param {{ script: string, style: string }} vendor @param {string} outDir */
function pages(vendor, outDir) {
  const config = common("pages", outDir);
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
 * @param {{ script: string, style: string }} vendor Names of the bundled spreadsheet's files.
 * @param {string} outDir
 */
export default function configurations(vendor, outDir) {
  return [functionsScript(outDir), pages(vendor, outDir)];
}
