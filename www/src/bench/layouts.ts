// What is asked of the bench about layouts: opened, written as text and as a form, started from three counts,
// brought back. Knows nothing of where they come from.
import {
  type AddsUpPart,
  type ArrangementPart,
  type Filled,
  type FormRow,
  type Left,
  type Opened,
  type StartedPart,
  Workbench,
} from "../../generated/page.js";
import { ViewBench } from "./view.ts";

/** The document that the layout is, as it stands. */
export interface Sheet {
  /** Which one: every layout opened is one of its own. */
  number: number;
  title: string;
  /** The text of the layout on the bench. */
  layout: string;
  /** The text as it is being written. */
  written: string;
  /** How the job on the layout stands; nothing after the program has stopped. */
  left?: Left;
}

export class LayoutBench extends ViewBench {
  /** The layout's text, as it is being written, as a form. */
  form(): FormRow[] {
    return this.call((core) => core.form())?.rows ?? [];
  }

  /** How what is typed into a field would be understood. */
  understand(path: string, texts: string[]): Filled {
    return this.call((core) => core.understand(path, texts)) ?? { done: false, text: "" };
  }

  /** Fills a field of the form in. */
  fill(path: string, texts: string[]): Filled {
    const filled = this.call((core) => core.fill(path, texts)) ?? { done: false, text: "" };
    if (filled.done) this.otherLayout();
    return filled;
  }

  addEntry(list: string, at: number): void {
    if (this.call((core) => core.addEntry(list, at))) this.otherLayout();
  }

  removeAt(path: string): void {
    if (this.call((core) => core.removeAt(path))) this.otherLayout();
  }

  moveEntry(list: string, from: number, to: number): void {
    if (this.call((core) => core.moveEntry(list, from, to))) this.otherLayout();
  }

  /** Puts one of the layouts that ship on the bench. */
  openShipped(index: number): void {
    this.openText(Workbench.shippedText(index));
  }

  /** Opens a layout's text, which is sound. */
  openText(text: string): void {
    this.open(new TextEncoder().encode(text));
  }

  /** Opens a layout file's bytes; gives its problems, none if it is on the bench now. */
  open(bytes: Uint8Array): Opened {
    this.settle();
    return this.#opened(this.call((core) => core.open(bytes)));
  }

  /** The same with what a link brings, which need not be sound yet to be gone on with. */
  openLinked(bytes: Uint8Array): Opened {
    this.settle();
    return this.#opened(this.call((core) => core.openLinked(bytes)));
  }

  #opened(opened: Opened = { problems: [] }): Opened {
    if (opened.problems.length === 0) {
      this.otherLayout();
      this.dispatchEvent(new Event("opened"));
    }
    return opened;
  }

  /** Puts the layout that the page begins with on the bench. */
  startAfresh(): void {
    this.openText(this.firstLayout);
  }

  /**
   * Puts a layout that was kept on the bench, the job on it as it was left, and beside it the text as it was
   * being written. Whether the job stands as it was left; if not, it stands in time on its marks, or what was
   * on the bench stays where the layout cannot be opened.
   */
  restore({
    layout,
    written,
    left,
  }: Pick<Sheet, "layout" | "written" | "left">): "left" | "in_time" | "unopened" {
    const opened = this.call((core) => core.open(new TextEncoder().encode(layout)));
    if (opened?.problems.length !== 0) return "unopened";
    const stands = left !== undefined && this.call((core) => core.takeUpLeft(left)) === true;
    if (written !== layout) this.call((core) => core.edit(written, false));
    this.otherLayout();
    return stands ? "left" : "in_time";
  }

  /** Which document is on the bench, or put aside while something is shown in its place. */
  get sheetNumber(): number {
    return this.call((core) => core.sheet()) ?? -1;
  }

  /** That document, as it stands. */
  sheet(): Sheet {
    const {
      sheetNumber: number,
      layoutTitle: title,
      layoutText: layout,
      draftText: written,
    } = this;
    const left = this.call((core) => core.left());
    return { number, title, layout, written, ...(left && { left }) };
  }

  /** Whether a text is that of a layout that ships. */
  isShipped(text: string): boolean {
    return this.shipped.some((_, i) => Workbench.shippedText(i) === text);
  }

  /** Takes the layout's text as it is written: a sound one is on the bench at once, another one is kept beside it. */
  edit(text: string, goesOn: boolean): void {
    this.draftText = text;
    this.call((core) => core.edit(text, goesOn));
    this.otherLayout();
  }

  /** Whether a text that makes no sound drive yet is sketched in place of the bench. */
  sketch(on: boolean): void {
    const sketched = this.panel.draft !== null;
    this.call((core) => core.sketch(on));
    this.readNow();
    if (!sketched && this.panel.draft === null) return;
    this.dispatchEvent(new Event("draft"));
    this.changed(true);
  }

  paintShipped(
    index: number,
    canvas: CanvasRenderingContext2D,
    width: number,
    height: number,
    density: number,
  ): void {
    this.call((core) => core.paintShipped(index, canvas, width, height, density));
  }

  /** The arrangements that a layout can be started from. */
  arrangements(): ArrangementPart[] {
    return this.call((core) => core.arrangements())?.all ?? [];
  }

  /** What comes of three counts as they were typed; nothing is put on the bench. */
  startFrom(arrangement: number, typed: string[]): StartedPart | undefined {
    return this.call((core) => core.startFrom(arrangement, typed)) ?? undefined;
  }

  paintArrangement(
    index: number,
    canvas: CanvasRenderingContext2D,
    width: number,
    height: number,
    density: number,
  ): void {
    this.call((core) => core.paintArrangement(index, canvas, width, height, density));
  }

  /** Whether the text being written adds up; nothing where it cannot be read. */
  addsUp(): AddsUpPart | undefined {
    return this.call((core) => core.addsUp()) ?? undefined;
  }
}
