// Files out of the page: asked for a place where the browser can, else downloaded. Knows nothing of what is
// in them.

/** A place that somebody chose, to be written to again. */
export interface Place {
  name: string;
  createWritable(): Promise<{ write(text: string): Promise<void>; close(): Promise<void> }>;
}

type Picker = (options: object) => Promise<Place>;

/** Whether the browser asks for places. */
export function asksForPlaces(): boolean {
  return "showSaveFilePicker" in window;
}

/** Asks where to save; nothing where somebody thought better of it. */
export async function askPlace(name: string): Promise<Place | undefined> {
  const picker = (window as unknown as { showSaveFilePicker: Picker }).showSaveFilePicker;
  try {
    return await picker({ suggestedName: name });
  } catch (problem) {
    if (problem instanceof DOMException && problem.name === "AbortError") return undefined;
    throw problem;
  }
}

export async function writeTo(place: Place, text: string): Promise<void> {
  const file = await place.createWritable();
  await file.write(text);
  await file.close();
}

export function download(name: string, content: Blob): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(content);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** A drawing as pixels, so many to each of its own. */
export async function pixels(svg: string, times: number): Promise<Blob> {
  const url = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    await new Promise((resolve, reject) => {
      image.onload = resolve;
      image.onerror = reject;
      image.src = url;
    });
    const canvas = document.createElement("canvas");
    canvas.width = image.naturalWidth * times;
    canvas.height = image.naturalHeight * times;
    const context = canvas.getContext("2d");
    context?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise<Blob>((resolve, reject) => {
      canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error())), "image/png");
    });
  } finally {
    URL.revokeObjectURL(url);
  }
}
