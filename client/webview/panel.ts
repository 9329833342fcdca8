// The one script of a panel: it takes in content, shows what rests on the entry at the cursor, and tells which entry
// was chosen.
import { mend } from './mend.ts';

interface Editor {
  postMessage(message: { readonly ready: true } | { readonly go: number }): void;
  setState(state: unknown): void;
}
declare function acquireVsCodeApi(): Editor;

interface Follow {
  readonly words: string;
  readonly anchors: readonly string[];
}
interface Told {
  /** Escaped content; made by the server. */
  readonly show?: string;
  readonly state?: unknown;
  /** A plain text in place of content. */
  readonly text?: string;
  readonly follow?: Follow;
}

const editor = acquireVsCodeApi();
const content = document.getElementById('content') as HTMLElement;
const followed = document.getElementById('follow') as HTMLElement;
let anchors: readonly string[] = [];

addEventListener('message', ({ data }: MessageEvent<Told>) => {
  if (data.show !== undefined) show(data.show, data.state);
  if (data.text !== undefined) say(data.text);
  if (data.follow !== undefined) follow(data.follow);
});

document.addEventListener('click', (event) => {
  const link = event.target instanceof Element ? event.target.closest('[data-place]') : null;
  if (!(link instanceof HTMLElement)) return;
  event.preventDefault();
  editor.postMessage({ go: Number(link.dataset.place) });
});

function show(html: string, state: unknown): void {
  const fresh = document.createElement('template');
  fresh.innerHTML = html;
  // What is marked here is no news from the server.
  unmark();
  mend(content, fresh.content);
  editor.setState(state);
  mark();
  reach();
}

/** In place of content. */
function say(text: string): void {
  const main = document.createElement('main');
  main.textContent = text;
  content.replaceChildren(main);
}

function follow(news: Follow): void {
  followed.textContent = news.words;
  const isNews = news.anchors.join() !== anchors.join();
  anchors = news.anchors;
  mark();
  if (isNews) bringIntoView();
}

function mark(): void {
  for (const each of content.querySelectorAll('.followed')) each.removeAttribute('class');
  for (const each of elements()) each.className = 'followed';
}

function unmark(): void {
  for (const each of content.querySelectorAll('.followed')) each.removeAttribute('class');
  for (const each of pictures()) each.removeAttribute('tabindex');
}

/** A picture that is wider than its place can be moved by keyboard too. */
function reach(): void {
  for (const each of pictures()) {
    if (each.scrollWidth > each.clientWidth) each.tabIndex = 0;
    else each.removeAttribute('tabindex');
  }
}

function pictures(): Iterable<HTMLElement> {
  return content.querySelectorAll<HTMLElement>('.picture');
}

function elements(): readonly Element[] {
  return anchors.map((id) => document.getElementById(id)).filter((each) => each !== null);
}

/** Scrolls only where nothing of it can be seen: a page that moves by itself loses its reader. */
function bringIntoView(): void {
  const all = elements();
  if (all.some(isInView)) return;
  all[0]?.scrollIntoView({ block: 'center' });
}

function isInView(element: Element): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= 0 && bottom <= innerHeight;
}

addEventListener('resize', reach);
editor.postMessage({ ready: true });
