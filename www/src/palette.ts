// The colours of the style sheet as the painter takes them. Knows names of classes, not what they show.
import { Workbench } from "../generated/page.js";

/**
 * For each class its fill, then its line, from `--paint-NAME` and `--paint-NAME-line`; empty where the
 * style sheet has none. Read through an element, so that `light-dark()` is resolved.
 */
export function readPalette(probe: HTMLElement): string[] {
  const sheet = getComputedStyle(document.documentElement);
  const colour = (name: string): string => {
    if (!sheet.getPropertyValue(name).trim()) return "";
    probe.style.color = `var(${name})`;
    return getComputedStyle(probe).color;
  };
  return Workbench.classNames().flatMap((name) => [
    colour(`--paint-${name}`),
    colour(`--paint-${name}-line`),
  ]);
}
