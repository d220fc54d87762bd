// The only script that stands in the page as it is: it unpacks the other one and lets it run. Both are
// allowed by their fingerprints. Core and script travel gzipped and as text, five letters for four
// bytes. Knows nothing of what they do.

/** What is packed under this id, unpacked; once, since the packed text is taken out of the page. */
function unpacked(id: string): ReadableStream<Uint8Array<ArrayBuffer>> {
  const packed = document.getElementById(id);
  if (!packed?.textContent)
    throw new Error("This copy of the page is damaged: part of it is missing.");
  if (!("DecompressionStream" in window)) {
    throw new Error("This browser is too old for the page: it needs one from 2023 or later.");
  }
  const bytes = unpack(packed.textContent.trim());
  packed.remove();
  return new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
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

/** A function, because WebKit says nothing of an error after an `await` of the module itself. */
async function open(): Promise<void> {
  try {
    Object.assign(globalThis, { unpacked });
    const script = document.createElement("script");
    script.type = "module";
    script.textContent = await new Response(unpacked("script")).text();
    document.body.append(script);
  } catch (problem) {
    const place = document.getElementById("app");
    const told = document.createElement("p");
    told.setAttribute("role", "alert");
    told.textContent = problem instanceof Error ? problem.message : String(problem);
    place?.replaceChildren(told);
    place?.removeAttribute("aria-busy");
    throw problem;
  }
}

open();
