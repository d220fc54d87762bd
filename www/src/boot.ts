// Starts the Rust core, which `opening.ts` unpacks. Knows nothing of what the core computes.
import start from "../generated/page.js";

declare global {
  /** What is packed in the page under this id. */
  function unpacked(id: string): ReadableStream<Uint8Array<ArrayBuffer>>;
}

/**
 * Starts the core; afterwards everything exported by `generated/page.js` may be called.
 *
 * @throws Error when the page is damaged.
 */
export async function openCore(): Promise<void> {
  const headers = { "content-type": "application/wasm" };
  await start({ module_or_path: new Response(globalThis.unpacked("core"), { headers }) });
}
