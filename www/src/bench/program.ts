// The hold on the program: passes actions on, tells everybody when something changed, and drives the frames.
// Keeps no copy of the program's truth beyond what it last said. Knows nothing of what else is asked of it.
import {
  type Action,
  type EnginePart,
  type ExercisePart,
  type Labels,
  type LessonPart,
  type Panel,
  type ProblemLine,
  type Told,
  Workbench,
} from "../../generated/page.js";
import { keepPreferences, type Preferences, readPreferences } from "../preferences.ts";

/** Readings go to the page at most this often while something moves, ms. */
const READINGS_EVERY_MS = 100;

/** From one step of a replay to the next, ms. */
const REPLAY_EVERY_MS = 900;

/**
 * Events: `panel` (the readings changed), `paint` (the picture changed), `labels` (language, units or
 * theme), `palette` (the colours changed), `layout` (another layout is on the bench), `draft` (a typed layout is sketched or given up), `told` (with a sentence), `stopped` (the program
 * has stopped; only its layout text is left), `moved` (a wheel was moved to another place), `opened` (a
 * layout was opened in place of the one before, not written on from it), `look` (a demonstration looks
 * somewhere else), `settle` (whoever has something typed and not handed on hands it on now).
 */
export class ProgramBench extends EventTarget {
  readonly preferences: Preferences;
  labels: Labels;
  panel: Panel;
  /** Text of the layout on the bench; what is left to copy after the program has stopped. */
  layoutText: string;
  /** The layout's text as it is being written, and what is wrong with it. */
  draftText: string;
  draftProblems: ProblemLine[] = [];
  /** Its title, as it is being written. */
  layoutTitle: string;
  /** Titles of the layouts that ship. */
  shipped: string[];
  picked = -1;
  /** What was said last of something done. */
  lastTold = "";
  /** Whether the belt's teeth are shown counted. */
  counted = false;
  /** The demonstration on the bench, while there is one. */
  lesson: LessonPart | undefined;
  /** The blind exercise on the bench, while there is one. */
  exercise: ExercisePart | undefined;
  protected readonly firstLayout: string;
  #shown = "";
  #replay: ReturnType<typeof setTimeout> | undefined;
  /** Steps that a replay has still before it. */
  protected toReplay = 0;
  #core: Workbench;
  #frame = 0;
  #last = 0;
  protected runs = false;
  #readAt = 0;
  #dirty = false;
  /** Whether a wheel was moved since the readings were last read. */
  protected arranged = false;
  #stopped = false;
  protected engineSaid: EnginePart | undefined;

  constructor() {
    super();
    this.preferences = readPreferences();
    this.#core = new Workbench(this.preferences.lang, this.preferences.inch);
    this.labels = this.#core.labels();
    this.panel = this.#core.panel(false, false, false);
    this.layoutText = this.#core.layoutText();
    this.draftText = this.layoutText;
    this.layoutTitle = this.#core.layoutTitle();
    this.firstLayout = this.layoutText;
    this.shipped = this.#titles();
  }

  /** Whether a replay is under way. */
  get replaying(): boolean {
    return this.toReplay > 0;
  }

  get running(): boolean {
    return this.runs;
  }

  #titles(): string[] {
    const count = Workbench.shippedCount();
    return Array.from({ length: count }, (_, i) => this.call((core) => core.shippedTitle(i)) ?? "");
  }

  /** Every call into the program goes through here: a trap ends the page's hold on it. */
  protected call<T>(what: (core: Workbench) => T): T | undefined {
    if (this.#stopped) return undefined;
    try {
      return what(this.#core);
    } catch (problem) {
      this.#stopped = true;
      this.runs = false;
      cancelAnimationFrame(this.#frame);
      this.dispatchEvent(new Event("stopped"));
      throw problem;
    }
  }

  act(action: Action, goesOn = false): void {
    this.endReplay();
    this.tell(this.call((core) => core.act(action, goesOn)));
  }

  /** Does actions one after the other as one step, up to the first that cannot be done. */
  actAll(actions: Action[]): void {
    this.endReplay();
    const all: Told = { done: true, text: "", stopped: false, other_layout: false };
    for (const [i, action] of actions.entries()) {
      const told = this.call((core) => core.act(action, i > 0));
      if (!told) return;
      all.done = told.done;
      all.text = `${all.text} ${told.text}`.trim();
      if (!told.done) break;
    }
    if (actions.length > 0) this.tell(all);
  }

  undo(): void {
    this.endReplay();
    const told = this.call((core) => core.undo());
    if (told?.done) this.tell({ ...told, text: `${this.labels.undo}: ${told.text}` });
  }

  redo(): void {
    this.endReplay();
    this.#tellUndone(this.call((core) => core.redo()));
  }

  #tellUndone(told: Told | undefined): void {
    if (told?.done) this.tell({ ...told, text: `${this.labels.redo}: ${told.text}` });
  }

  /** Back to how the layout was put on the bench; redo does everything again. */
  rewind(): void {
    this.endReplay();
    this.call((core) => core.rewind());
    this.lastTold = "";
    this.runs = false;
    this.changed(true);
  }

  /** From the beginning, step by step, until it is where it was or something else is done. */
  replay(): void {
    this.endReplay();
    this.toReplay = this.call((core) => core.rewind()) ?? 0;
    this.runs = false;
    this.changed(true);
    const next = (): void => {
      if (this.toReplay === 0) return;
      this.toReplay -= 1;
      this.#tellUndone(this.call((core) => core.redo()));
      if (this.toReplay > 0) this.#replay = setTimeout(next, REPLAY_EVERY_MS);
    };
    this.#replay = setTimeout(next, REPLAY_EVERY_MS);
  }

  protected endReplay(): void {
    clearTimeout(this.#replay);
    this.toReplay = 0;
  }

  /** Which task is shown, so that its own readings are wanted. */
  show(task: string): void {
    if (this.#shown === task) return;
    this.#shown = task;
    this.readNow();
  }

  /** Assumes a range for one of the panel's assumptions. */
  assume(place: number, low: number, high: number): void {
    this.call((core) => core.assume(place, low, high));
    this.changed(true);
  }

  /** Takes a wheel to seize, by index; below 0 none. */
  supposeSeized(wheel: number): void {
    this.call((core) => core.supposeSeized(wheel));
    this.changed(true);
  }

  /** Looks at the marks so many degrees off square; 0 is square again. */
  setSight(deg: number): void {
    this.call((core) => core.setSight(deg));
    this.changed(true);
  }

  runBy(deg: number): void {
    this.#run(this.call((core) => core.runBy(deg, still())));
  }

  runTo(deg: number): void {
    this.#run(this.call((core) => core.runTo(deg, still())));
  }

  stopRun(): void {
    this.call((core) => core.stopRun());
    this.runs = false;
    this.changed(true);
  }

  /** Has everything that is typed handed on at once. */
  settle(): void {
    this.dispatchEvent(new Event("settle"));
  }

  /** When something was kept, as the reader writes it. */
  when(ms: number): string {
    return new Date(ms).toLocaleString(this.preferences.lang, {
      dateStyle: "medium",
      timeStyle: "short",
    });
  }

  protected otherLayout(): void {
    this.endReplay();
    this.layoutText = this.call((core) => core.layoutText()) ?? this.layoutText;
    this.draftText = this.call((core) => core.writtenText()) ?? this.draftText;
    this.#readWords();
    this.picked = -1;
    this.lastTold = "";
    this.runs = false;
    this.readNow();
    this.dispatchEvent(new Event("layout"));
    this.changed(true);
  }

  /** What is said of the text as it is being written. */
  #readWords(): void {
    this.draftProblems = this.call((core) => core.writtenProblems())?.problems ?? [];
    this.layoutTitle = this.call((core) => core.layoutTitle()) ?? this.layoutTitle;
  }

  prefer(change: Partial<Preferences>): void {
    Object.assign(this.preferences, change);
    keepPreferences(this.preferences);
    const { lang, inch } = this.preferences;
    this.call((core) => core.setReader(lang, inch));
    this.labels = this.call((core) => core.labels()) ?? this.labels;
    this.shipped = this.#titles();
    // What was said last was said in other words.
    this.lastTold = "";
    this.#readWords();
    this.readNow();
    this.dispatchEvent(new Event("labels"));
    this.changed(true);
  }

  pick(wheel: number): void {
    this.picked = wheel;
    this.call((core) => core.pick(wheel));
    this.changed(true);
  }

  /** The JSON that the command line prints: for tests, and for whoever wants the figures. */
  json(which: "report" | "pose" | "fitting" | "tension" | "moment"): string {
    return this.call((core) => core[`${which}Json`]()) ?? "";
  }

  #run(told: Told | undefined): void {
    this.endReplay();
    this.runs = told?.done ?? false;
    this.tell(told);
  }

  protected tell(told: Told | undefined): void {
    if (!told) return;
    this.lastTold = told.text;
    this.dispatchEvent(new CustomEvent("told", { detail: told }));
    if (told.other_layout) this.otherLayout();
    this.changed(!this.runs);
  }

  protected readNow(): void {
    const fitting = this.#shown === "fitting" || this.counted;
    const engine = this.#shown === "what_if";
    const wearing = this.#shown === "two_turns";
    this.lesson = this.call((core) => core.lesson()) ?? undefined;
    this.exercise = this.call((core) => core.exercise()) ?? undefined;
    this.panel = this.call((core) => core.panel(fitting, engine, wearing)) ?? this.panel;
    this.#readAt = performance.now();
    this.#dirty = false;
    this.engineSaid = undefined;
    this.dispatchEvent(new Event("panel"));
    if (this.arranged) {
      this.arranged = false;
      this.dispatchEvent(new Event("moved"));
    }
  }

  /** Something is other than before: paint with the next frame, and read now or soon. */
  protected changed(readNow: boolean): void {
    if (this.#stopped) return;
    if (readNow) this.readNow();
    else this.#dirty = true;
    if (!this.#frame) {
      this.#last = performance.now();
      this.#frame = requestAnimationFrame((now) => this.#step(now));
    }
  }

  #step(now: number): void {
    this.#frame = 0;
    const elapsed = now - this.#last;
    this.#last = now;
    if (this.runs) {
      this.runs = this.call((core) => core.frame(elapsed)) ?? false;
      this.#dirty = true;
    }
    this.dispatchEvent(new Event("paint"));
    if (this.#dirty && now - this.#readAt > READINGS_EVERY_MS) this.readNow();
    if (this.runs || this.#dirty) {
      this.#frame = requestAnimationFrame((next) => this.#step(next));
    }
  }
}

/** Whether the person wants no motion. */
export function still(): boolean {
  return matchMedia("(prefers-reduced-motion: reduce)").matches;
}
