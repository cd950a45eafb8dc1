/** What the shell gives to every script of a page. Other rooms add members of their own to this interface. */
interface Beadwright {
  /** The page's own facts, from its #bw-page island. */
  page: BwPage;
  /** The words of a key such as "shell.search_found", with fields filled in and the plural chosen by `count`. */
  say(key: string, fields?: Readonly<Record<string, string | number>>): string;
  /** Begin with an element of a page that arrives in pieces, at once where it is there already. */
  whenThere(element: Element, begin: () => void): void;
  /** Start the search engine; resolves with a function that looks words up, rejects when a file cannot be read. */
  startSearch(): Promise<(query: string) => Promise<BwHit[][]>>;
}

interface BwPage {
  readonly base: string;
  readonly course: string;
  readonly language: string;
  readonly lesson: string | null;
  readonly search: { readonly worker: string; readonly index: string } | null;
}

/** One section found: where it is, and its title and text as HTML with the words found in <mark>. */
interface BwHit {
  readonly location: string;
  readonly title: string;
  readonly text: string;
}

interface Window {
  beadwright: Beadwright;
  /** The words that scripts say, where scripts are one file that brings them along; elsewhere a page has them as #bw-words. */
  bwWords?: { readonly [key: string]: any };
  /** The lessons of the course, each with its address from the first page; beside `bwWords`, and none elsewhere. */
  bwLessons?: readonly BwLessonLink[];
  /** The search index, set by its script. */
  __index?: { readonly config: unknown; readonly docs: readonly unknown[] };
  IFrameWorker?: unknown;
}
