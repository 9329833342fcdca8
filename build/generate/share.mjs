/**
 * Counts how often each part of a forest stands in it. Inside a part that was met before nothing is counted again, so
 * that what stands twice only because its parent does is not taken for shared.
 */
export function countParts(roots, childrenOf) {
  const counts = new Map();
  const count = (part) => {
    const text = JSON.stringify(part);
    const before = counts.get(text) ?? 0;
    counts.set(text, before + 1);
    if (before === 0) childrenOf(part).forEach(count);
  };
  roots.forEach(count);
  return counts;
}
