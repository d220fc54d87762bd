// A canvas that is as sharp as the screen. Knows nothing of what is painted.

/** Clears `canvas`, made to fit `width` × `height` px, and gives its context and pixel density. */
export function clear(
  canvas: HTMLCanvasElement,
  width: number,
  height: number,
): { context: CanvasRenderingContext2D; density: number } | undefined {
  const density = Math.min(window.devicePixelRatio || 1, 3);
  const [across, down] = [Math.round(width * density), Math.round(height * density)];
  if (canvas.width !== across || canvas.height !== down) {
    canvas.width = across;
    canvas.height = down;
  }
  const context = canvas.getContext("2d");
  if (!context) return undefined;
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, across, down);
  return { context, density };
}

/** Paints each of some canvases, cleared, at the size that it has on the page. */
export function paintEach(
  canvases: Iterable<HTMLCanvasElement>,
  paint: (
    index: number,
    context: CanvasRenderingContext2D,
    width: number,
    height: number,
    density: number,
  ) => void,
): void {
  for (const [i, canvas] of [...canvases].entries()) {
    const { clientWidth: width, clientHeight: height } = canvas;
    const painting = clear(canvas, width, height);
    if (painting) paint(i, painting.context, width, height, painting.density);
  }
}

/** Light or dark, as the page is dressed just now: what is painted once is painted anew for another. */
export function dress(): string {
  const dark = matchMedia("(prefers-color-scheme: dark)").matches;
  return getComputedStyle(document.documentElement).colorScheme + dark;
}
