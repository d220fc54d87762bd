// Opens the Rust core, which travels inside the page gzipped and in base64. Knows nothing of what
// the core computes.
import start from "../generated/page.js";

/**
 * Unpacks and starts the core; afterwards everything exported by `generated/page.js` may be called.
 * The packed text is taken out of the page, so this works once.
 *
 * @throws Error when the page is damaged, or the browser is too old to unpack it.
 */
export async function openCore(): Promise<void> {
  const packed = document.getElementById("core");
  if (!packed?.textContent) {
    throw new Error("This copy of the page is damaged: its computing core is missing.");
  }
  if (!("DecompressionStream" in window)) {
    throw new Error("This browser is too old for the page: it needs one from 2023 or later.");
  }
  const gzipped = Uint8Array.from(atob(packed.textContent.trim()), (letter) =>
    letter.charCodeAt(0),
  );
  packed.remove();
  const bytes = new Blob([gzipped]).stream().pipeThrough(new DecompressionStream("gzip"));
  const headers = { "content-type": "application/wasm" };
  await start({ module_or_path: new Response(bytes, { headers }) });
}
