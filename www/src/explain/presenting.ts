// The page as it is shown to a room: the drive and the caption large, nothing else, over the whole screen
// where the browser lets it. Knows nothing of what is shown.

const app = (): HTMLElement | null => document.querySelector("two-turns");

/** Whether the page is shown to a room. */
export function presenting(): boolean {
  return app()?.classList.contains("presenting") ?? false;
}

/** Shows the page to a room, or no longer. A browser without full screen still shows it large. */
export function present(on: boolean): void {
  if (on === presenting()) return;
  app()?.classList.toggle("presenting", on);
  if (on) {
    document.documentElement.requestFullscreen?.().catch(() => {});
  } else if (document.fullscreenElement) {
    document.exitFullscreen().catch(() => {});
  }
}

/** The browser has come to full screen or left it by itself, as on Escape. */
export function onFullScreen(): void {
  if (!document.fullscreenElement) present(false);
}
