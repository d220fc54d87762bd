// Opens the Rust core, which travels inside the page gzipped and as text, five letters for four bytes.
// Knows nothing of what the core computes.
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
  const gzipped = unpack(packed.textContent.trim());
  packed.remove();
  const bytes = new Blob([gzipped]).stream().pipeThrough(new DecompressionStream("gzip"));
  const headers = { "content-type": "application/wasm" };
  await start({ module_or_path: new Response(bytes, { headers }) });
}

/** The letters run on from `#` and leave out `<`; a last group of n + 1 letters stands for n bytes. */
function unpack(text: string): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(Math.floor((text.length * 4) / 5));
  const four = new DataView(new ArrayBuffer(4));
  for (let at = 0, to = 0; at < text.length; at += 5, to += 4) {
    let number = 0;
    for (let i = at; i < at + 5; i++) {
      const code = text.charCodeAt(i);
      number = number * 85 + (i < text.length ? code - 35 - Number(code > 60) : 84);
    }
    four.setUint32(0, number);
    bytes.set(new Uint8Array(four.buffer).subarray(0, Math.min(4, bytes.length - to)), to);
  }
  return bytes;
}
