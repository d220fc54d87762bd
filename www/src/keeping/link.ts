// A layout in a link: its text gzipped, as letters, behind the `#` of the page's own address, which no server
// ever sees. Gzip's own checksum tells a link that was cut or changed. Knows nothing of what the text says.

const MARK = "#layout=";
/** No layout comes near this many bytes. */
const FAR_TOO_LARGE = 1_000_000;

async function through(
  bytes: Uint8Array<ArrayBuffer>,
  stream: CompressionStream | DecompressionStream,
): Promise<Uint8Array<ArrayBuffer>> {
  const reader = new Blob([bytes]).stream().pipeThrough(stream).getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    parts.push(value);
    size += value.length;
    if (size > FAR_TOO_LARGE) throw new RangeError();
  }
  return new Uint8Array(await new Blob(parts as BlobPart[]).arrayBuffer());
}

/** The page's address with this text in it. */
export async function linkTo(text: string): Promise<string> {
  const bytes = await through(new TextEncoder().encode(text), new CompressionStream("gzip"));
  const letters = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
  const plain = letters.replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
  return `${location.href.split("#")[0]}${MARK}${plain}`;
}

/** Whether an address has a layout in it. */
export function hasLayout(hash: string): boolean {
  return hash.startsWith(MARK);
}

/** The bytes of the layout in an address; an error if it was cut or changed. */
export async function layoutIn(hash: string): Promise<Uint8Array<ArrayBuffer>> {
  const plain = hash.slice(MARK.length).replaceAll("-", "+").replaceAll("_", "/");
  const bytes = Uint8Array.from(atob(plain), (letter) => letter.charCodeAt(0));
  return through(bytes, new DecompressionStream("gzip"));
}
