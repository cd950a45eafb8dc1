/** An item's data, in the shape of schema `beadwright/practice/1`. */
interface BwItemData {
  readonly schema: string;
  readonly id: string;
  readonly lesson: string;
  readonly objective: string | null;
  readonly ask: string;
  readonly frame_is: string;
  readonly timed: boolean;
  readonly frame?: { readonly columns: number; readonly upper: number; readonly lower: number };
  readonly pool: readonly BwEntry[];
}

/** What the items of a page share, in the shape of schema `beadwright/practice-page/1`. */
interface BwPracticePage {
  readonly causes: readonly BwCause[];
  readonly sentences: readonly string[];
  readonly workings: Readonly<Record<string, { readonly steps: readonly number[]; readonly id?: string }>>;
  readonly places: Readonly<Record<string, string>>;
  readonly marker: string;
  readonly grouping: string;
  readonly lesson: string;
  readonly edition: string;
  readonly pass_mark: number;
}

/** What an item says of an answer. */
interface BwFeedback {
  /** Null where nothing is right or wrong yet. */
  readonly right: boolean | null;
  readonly verdict: string;
  /** Further sentences, text each. */
  readonly more?: readonly string[];
  /** HTML of the page's own data, such as an author's reason. */
  readonly html?: readonly string[];
  readonly causes?: readonly number[];
  readonly two?: readonly number[];
}

interface BwAnswered {
  readonly response: string;
  readonly right: boolean | null;
  readonly key?: string;
  readonly slip?: string | null;
  readonly digits_right?: number;
}

/** One item of a page; what kinds of item see of it. */
interface BwItem extends HTMLElement {
  readonly data: BwItemData;
  readonly entry: BwEntry;
  readonly shared: BwPracticePage;
  /** An element inside it, which has to be there. */
  part<T extends HTMLElement>(selector: string): T;
  /** Say what is missing, tie it to the fields, and move the focus to the first of them. */
  refuse(message: string, fields: Iterable<HTMLElement>): void;
  tell(feedback: BwFeedback): void;
  /** Do all of that but show it: code that has never run takes a slow device longer, and no answer should wait for it. */
  rehearse(feedback: BwFeedback): void;
  /** Do what no answer should wait for, once it has been painted. */
  later(task: () => void): void;
  /** Keep an attempt; the page's progress follows. */
  keep(answered: BwAnswered): void;
  /** The hints that the key gives from now on, from the first. */
  offerHints(hints: readonly string[] | undefined): void;
  /** Move the focus to where a learner begins, or goes on. */
  begin(): void;
  /** What changed in the item is kept as a draft. */
  touch(): void;
}

/** What the fields of a typed answer need of whoever asks. */
type BwAsker = Pick<BwItem, "part" | "refuse"> & { readonly shared: BwSigns & { readonly causes: readonly BwCause[] } };

/** How one kind of item works: made once for an item. */
interface BwKind {
  /** Put an entry's texts and lines in the place of those before it; nothing is filled in afterwards. */
  show(entry: BwEntry): void;
  /** Check what the learner has done. */
  check?(): void;
  /** Another task of the kind's own, by its `data-bw-do`. */
  act?(task: string, button: HTMLElement): void;
  /** What is filled in, to be kept over a reload, and back. */
  draft?(): Readonly<Record<string, unknown>>;
  restore?(draft: Readonly<Record<string, unknown>>): void;
  /** Called when a learner first comes to the item. */
  warm?(): void;
  /** Where a learner begins, or goes on. */
  start?(): HTMLElement | null;
  /** The step that a learner is at, from 1; null where the item is done. */
  step?(): number | null;
  /** Go to a step as if those before it had been done. */
  goTo?(step: number): void;
}

/** The fields of a typed answer. */
interface BwFields {
  readonly inputs: HTMLInputElement[];
  readonly text: string;
  /** The same, as it is said. */
  readonly shown: string;
  clear(): void;
  /** The answer judged; null when it had to be refused, which has then been said. */
  judge(entry: BwEntry, read?: (text: string) => string): BwVerdict | null;
  draft(): Readonly<Record<string, unknown>>;
  restore(draft: Readonly<Record<string, unknown>>): void;
}

/** What an item says of an answer. */
interface BwTelling {
  tell(feedback: BwFeedback): void;
  /** What would be shown of it. */
  compose(feedback: BwFeedback): HTMLElement;
  /** What was said stands no longer. */
  clear(): void;
  /** Another entry is shown: nothing has been answered yet. */
  forget(): void;
  toggleWorking(): void;
  toggleOtherWay(): void;
  goToStep(event: Event, step: number): void;
}

/** Seconds of work on an item; they stop while the page is hidden. */
interface BwStopwatch {
  readonly runs: boolean;
  /** All seconds since it was started. */
  readonly seconds: number;
  /** Those since this was asked last, so that laps add up to all of them. */
  lap(): number;
  /** Run while a box is checked. */
  follow(box: Element | null): void;
  /** Run from now on, from 0. */
  start(): void;
  restart(): void;
  stop(): void;
  /** Run on after a stop. */
  resume(): void;
}

/** Plays parts one after another with a pause after each. */
interface BwPlayer {
  readonly plays: boolean;
  /** Whether it came to the end; `pause` in seconds. Rejects where a part cannot be played. */
  play(pieces: readonly ((signal: AbortSignal) => Promise<void>)[], pause: number): Promise<boolean>;
  stop(): void;
}

interface Beadwright {
  Stopwatch: new () => BwStopwatch;
  Telling: new (item: BwItem) => BwTelling;
  /** Kinds of item by `ask`. */
  kinds: Record<string, (item: BwItem) => BwKind>;
  /** Texts of several things in a row: `a, b and c`. */
  listWords(items: readonly string[]): string;
  Fields: new (item: BwAsker) => BwFields;
  /** Sound of entries: built files, else the browser's voice. */
  heard: {
    Player: new () => BwPlayer;
    findPieces(entry: BwEntry): ((signal: AbortSignal) => Promise<void>)[];
    sayNoVoice(): string;
  };
  OpenedFrame: new (item: BwItem) => { show(): void; act(task: string, button: HTMLElement): void };
  /** Work on boxes to choose and on lists of lines, for the kinds of item that have them. */
  chosen: {
    boxes(within: ParentNode): HTMLInputElement[];
    /** The values of the checked boxes. */
    chosen(within: ParentNode): string[];
    choose(within: ParentNode, values: readonly string[]): void;
    /** Put as many lines into a list as there are options, made like its first. */
    relist(list: HTMLElement, options: readonly BwOption[], fill: (line: HTMLElement, option: BwOption) => void): void;
    fillChoice(line: HTMLElement, option: BwOption): void;
    /** A kept value as a list of texts. */
    texts(kept: unknown): string[];
  };
  /** Tell and keep what was found about an answer. */
  tellVerdict(item: BwItem, verdict: BwVerdict, told: BwFeedback): void;
  /** Show other beads in an item's figure, leftmost column first. */
  drawFigure(item: BwItem, beads: readonly (readonly [number, number])[]): void;
}

interface HTMLElementTagNameMap {
  "bw-item": BwItem;
}

interface WindowEventMap {
  /** An item has been answered. */
  "bw-answered": CustomEvent<{ readonly item: string; readonly right: boolean | null }>;
}
