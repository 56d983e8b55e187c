// Two packages bring a decoder of Brotli each, with its dictionary of 120 kB. Node has one built in, which the bundles for Node use
// in their place. The reader of Parquet keeps its own wherever it isn't bundled.

const replacements = [
  {
    filter: /[\\/]hyparquet-compressors[\\/]src[\\/]brotli\.js$/,
    contents: `export const decompressBrotli = (input) => {
  if (globalThis.brotliOfSystem === undefined) throw new Error('nothing unpacks Brotli in a browser');
  return new Uint8Array(globalThis.brotliOfSystem(input));
};`,
  },
  {
    filter: /[\\/]brotli[\\/]decompress\.js$/,
    contents: `const { brotliDecompressSync } = require('node:zlib');
module.exports = (input) => new Uint8Array(brotliDecompressSync(input));`,
  },
];

/** An esbuild plugin that does so. */
export const nodeBrotli = {
  name: 'node-brotli',
  setup({ onLoad }) {
    for (const { filter, contents } of replacements) onLoad({ filter }, () => ({ contents, loader: 'js' }));
  },
};
