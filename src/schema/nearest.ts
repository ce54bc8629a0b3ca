import { distance } from 'fastest-levenshtein';

/** Longer names are no slips of the finger; comparing them would cost their product. */
const longest = 64;

/**
 * The candidate that a mistyped name most likely means: one that differs only in case, else that with the fewest changed,
 * missing or added characters, at most two (one in names of two or three characters, none in shorter ones); of equally near
 * ones the first in the order of their characters, however they come. Costs one comparison for each candidate of about the
 * same length.
 */
export function nearest(name: string, candidates: Iterable<string>): string | undefined {
  if (name.length > longest) {
    return undefined;
  }
  const folded = name.toLowerCase();
  let best: string | undefined;
  let least = name.length < 2 ? 0 : name.length < 4 ? 1 : 2;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - name.length) > 2) {
      continue;
    }
    const foldedCandidate = candidate.toLowerCase();
    const changes = foldedCandidate === folded ? 0 : distance(folded, foldedCandidate);
    if (changes < least || (changes === least && (best === undefined || candidate < best))) {
      best = candidate;
      least = changes;
    }
  }
  return best;
}
