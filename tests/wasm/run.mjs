// Runs a WebAssembly program that may read one folder: node run.mjs PROGRAM FOLDER [ARGUMENT…]
import { readFileSync } from 'node:fs';
import { WASI } from 'node:wasi';

const [program, folder, ...rest] = process.argv.slice(2);
const wasi = new WASI({ version: 'preview1', args: [program, ...rest], preopens: { [folder]: folder } });
const module = await WebAssembly.compile(readFileSync(program));
const instance = await WebAssembly.instantiate(module, { wasi_snapshot_preview1: wasi.wasiImport });
process.exitCode = wasi.start(instance) ?? 0;
