import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import HtmlWebpackPlugin from "html-webpack-plugin";
import MiniCssExtractPlugin from "mini-css-extract-plugin";
import TerserPlugin from "terser-webpack-plugin";
import { tsImport } from "tsx/esm/api";
import webpack from "webpack";

const root = fileURLToPath(new URL(".", import.meta.url));

/** Adds files of text that the project's own code writes: pairs of path and text. */
class WrittenFilesPlugin {
  constructor(name, write) {
    this.name = name;
    this.write = write;
  }
  apply(compiler) {
    compiler.hooks.thisCompilation.tap(this.name, (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: this.name, stage }, async () => {
        for (const [path, text] of await this.write()) compilation.emitAsset(path, new webpack.sources.RawSource(text));
      });
    });
  }
}

/** The same for one file. */
class WrittenFilePlugin extends WrittenFilesPlugin {
  constructor(name, write) {
    super(name, async () => [[name, await write()]]);
  }
}

/** The functions' metadata, from the declarations themselves. */
async function functionMetadata() {
  const { metadata } = await tsImport("./functions/index.ts", import.meta.url);
  const { deploymentAddress } = await tsImport("./src/command/address.ts", import.meta.url);
  return `${JSON.stringify(metadata(deploymentAddress()), null, 1)}\n`;
}

/** A page a function, and two lists of them. */
async function reference() {
  const { referenceFiles } = await tsImport("./src/command/reference.ts", import.meta.url);
  return referenceFiles();
}

/** The add-in's manifest for the address it will be served from. */
async function manifest() {
  const { deploymentAddress } = await tsImport("./src/command/address.ts", import.meta.url);
  const { manifestFor } = await tsImport("./src/command/manifest.ts", import.meta.url);
  const { version } = JSON.parse(await readFile(new URL("package.json", import.meta.url), "utf8"));
  return manifestFor(
    await readFile(new URL("manifest/manifest.xml", import.meta.url), "utf8"),
    deploymentAddress(),
    version,
  );
}

/** The list of an office's templates while there are none. */
async function emptyIndex() {
  const { indexOf } = await tsImport("./src/office/index.ts", import.meta.url);
  return `${JSON.stringify(indexOf([]), null, 2)}\n`;
}

const icons = ["icon-16.png", "icon-32.png", "icon-64.png", "icon-80.png"];

/** The licences of what is bundled. */
async function thirdParty() {
  const { notices } = await tsImport("./src/command/notices.ts", import.meta.url);
  return notices(root);
}

const { templatePart } = await tsImport("./src/command/templateParts.ts", import.meta.url);
/** The list of templates, and each template in a part of its own, from the templates themselves. */
const templates = {
  include: fileURLToPath(new URL("src/templates/catalogue.ts", import.meta.url)),
  use: [
    {
      loader: fileURLToPath(new URL("src/command/writtenModule.mjs", import.meta.url)),
      options: { write: templatePart },
    },
  ],
};

const { runningPart } = await tsImport("./src/command/runningPart.ts", import.meta.url);
const typescript = {
  transpileOnly: true,
  compilerOptions: { noEmit: false, allowImportingTsExtensions: false, sourceMap: false },
};

/** `--env functions`: the bundle of the functions alone, and nothing beside it. */
export default ({ functions: alone = false } = {}, { mode = "production" } = {}) => ({
  mode,
  target: ["web", "es2022"],
  context: root,
  entry: {
    functions: { import: "./functions/functions.ts", layer: "functions" },
    ...(!alone && { workbench: "./taskpane/workbench/workbench.ts", addin: "./taskpane/addin/addin.ts" }),
  },
  output: {
    path: fileURLToPath(new URL("dist", import.meta.url)),
    filename: "[name].js",
    chunkFilename: "parts/[name].[contenthash:8].js",
    assetModuleFilename: "parts/[hash][ext]",
    clean: true,
  },
  experiments: { layers: true },
  resolve: { extensions: [".ts", ".tsx", ".mjs", ".js", ".json"] },
  module: {
    rules: [
      {
        test: /\.tsx?$/,
        exclude: /node_modules/,
        oneOf: [
          { ...templates, resourceQuery: /./, type: "json" },
          templates,
          // The bundle of the functions alone: the panel shows what is left out there.
          {
            issuerLayer: "functions",
            include: ["formulas", "choosing.ts"].map((name) =>
              fileURLToPath(new URL(`src/core/${name}`, import.meta.url)),
            ),
            loader: "ts-loader",
            options: { ...typescript, instance: "functions", getCustomTransformers: () => ({ before: [runningPart] }) },
          },
          { loader: "ts-loader", options: typescript },
        ],
      },
      {
        test: /\.js$/,
        include: fileURLToPath(new URL("node_modules/@univerjs", import.meta.url)),
        loader: fileURLToPath(new URL("src/command/plainFields.mjs", import.meta.url)),
      },
      { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] },
    ],
  },
  plugins: alone
    ? []
    : [
        new WrittenFilePlugin("functions.json", functionMetadata),
        new WrittenFilesPlugin("reference", reference),
        new WrittenFilePlugin("THIRD-PARTY.txt", thirdParty),
        new WrittenFilePlugin("manifest.xml", manifest),
        // The panel asks for it; an office puts its own there.
        new WrittenFilePlugin("defaults.json", async () => "null\n"),
        // An office puts templates beside it and writes it anew; pages ask for it at every start.
        new WrittenFilePlugin("templates/index.json", emptyIndex),
        ...icons.map(
          (icon) =>
            new WrittenFilePlugin(`icons/${icon}`, () => readFile(new URL(`manifest/icons/${icon}`, import.meta.url))),
        ),
        new MiniCssExtractPlugin({
          filename: "[name].css",
          chunkFilename: "parts/[name].[contenthash:8].css",
          ignoreOrder: true,
        }),
        new HtmlWebpackPlugin({
          filename: "index.html",
          template: "taskpane/workbench/index.html",
          chunks: ["workbench"],
          scriptLoading: "defer",
        }),
        new HtmlWebpackPlugin({
          filename: "taskpane.html",
          template: "taskpane/addin/taskpane.html",
          // The functions before the panel: cells wait for them.
          chunks: ["functions", "addin"],
          chunksSortMode: "manual",
          scriptLoading: "defer",
        }),
      ],
  optimization: {
    minimizer: [
      // Slower, but what nothing uses any more goes with what was left out.
      new TerserPlugin({ include: /^functions\.js$/, extractComments: false }),
      new TerserPlugin({ exclude: /^functions\.js$/, minify: TerserPlugin.esbuildMinify, extractComments: false }),
    ],
  },
  performance: { hints: false },
  devtool: mode === "production" ? false : "source-map",
  stats: "errors-warnings",
});
