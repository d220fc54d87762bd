// Loads the very core that the page carries into Node, to hold its numbers against the native ones.
import { readFileSync } from "node:fs";
import start, * as core from "../../www/generated/page.js";

const wasm = new URL("../../www/generated/page_bg.wasm", import.meta.url);

/** Everything that the core exports, started. Needs `cargo xtask page` to have run. */
export async function openCore() {
  await start({ module_or_path: readFileSync(wasm) });
  return core;
}
