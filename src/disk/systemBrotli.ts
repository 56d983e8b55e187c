import { brotliDecompressSync } from 'node:zlib';

// The bundles' reader of Parquet takes the system's, which is smaller than its own by a dictionary, where there is one.
Object.assign(globalThis, { brotliOfSystem: brotliDecompressSync });
