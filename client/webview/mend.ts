/** Makes an element's content like another's and leaves alone what is alike, so that place and focus stay. */
export function mend(old: Element, fresh: ParentNode): void {
  const before = [...old.childNodes];
  const after = [...fresh.childNodes];
  let start = 0;
  while (start < before.length && start < after.length && isLike(before[start], after[start])) start++;
  let end = 0;
  const most = Math.min(before.length, after.length) - start;
  while (end < most && isLike(before[before.length - 1 - end], after[after.length - 1 - end])) end++;
  const gone = before.slice(start, before.length - end);
  const come = after.slice(start, after.length - end);
  if (gone.length === come.length) for (const [at, each] of gone.entries()) mendNode(each, come[at] as ChildNode);
  else replace(old, gone, come, before[before.length - end] ?? null);
}

function isLike(a: ChildNode | undefined, b: ChildNode | undefined): boolean {
  return a !== undefined && b !== undefined && a.isEqualNode(b);
}

/** Goes into an element of the same name and attributes; puts anything else in its place. */
function mendNode(old: ChildNode, fresh: ChildNode): void {
  if (old.isEqualNode(fresh)) return;
  const isSame = old instanceof HTMLElement && fresh instanceof HTMLElement && headOf(old) === headOf(fresh);
  if (isSame && fresh.childElementCount > 0) mend(old, fresh);
  else old.replaceWith(fresh);
}

function headOf(element: HTMLElement): string {
  return (element.cloneNode(false) as HTMLElement).outerHTML;
}

function replace(
  parent: Element,
  gone: readonly ChildNode[],
  come: readonly ChildNode[],
  next: ChildNode | null,
): void {
  for (const each of gone) each.remove();
  for (const each of come) parent.insertBefore(each, next);
}
