/** What the build puts before the worker: a version, and the hash of each file by its path below the site's folder. */
declare const KEPT: { readonly version: string; readonly files: Readonly<Record<string, string>> };

/** As much of a service worker's global scope as ours uses; its whole types cannot be loaded beside those of a page. */
interface KeptScope {
  readonly location: { readonly href: string };
  readonly registration: { unregister(): Promise<boolean> };
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: "install" | "activate", listener: (event: KeptEvent) => void): void;
  addEventListener(type: "message", listener: (event: KeptEvent & { readonly data: unknown }) => void): void;
  addEventListener(type: "fetch", listener: (event: KeptFetch) => void): void;
}

interface KeptEvent {
  waitUntil(work: Promise<unknown>): void;
}

interface KeptFetch extends KeptEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
