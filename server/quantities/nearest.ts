/** Longer words are not compared; so the work for one word is bounded. */
const longest = 40;

/**
 * The candidate that the word was probably meant to be: the smallest Damerau-Levenshtein distance (optimal string
 * alignment: insert, drop, change a letter, swap two neighbours), without regard to case, of at most a third of the
 * word's length (1 for a short word, 0 for a single letter), and at most 3. The first one on a tie; undefined when none is near.
 */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  const wanted = word.trim().toLowerCase();
  if (wanted === '' || wanted.length > longest) return undefined;
  let bound = wanted.length === 1 ? 0 : Math.min(3, Math.max(1, Math.floor(wanted.length / 3)));
  let best: string | undefined;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - wanted.length) > bound) continue;
    const distance = editDistance(wanted, candidate.toLowerCase());
    if (distance > bound) continue;
    best = candidate;
    bound = distance - 1;
    if (bound < 0) break;
  }
  return best;
}

function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1];
      let cost = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + (same ? 0 : 1),
      );
      const swapped = row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (swapped) cost = Math.min(cost, (beforeLast[column - 2] ?? 0) + 1);
      current.push(cost);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length] ?? 0;
}
