/** Edit distance with neighbouring letters swapped counting as one (Damerau 1964, restricted form). */
function distance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      row[j] = Math.min(row[j - 1] + 1, last[j] + 1, last[j - 1] + cost);
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) row[j] = Math.min(row[j], before[j - 2] + 1);
    }
    before = last;
    last = row;
  }
  return last[b.length];
}

/**
 * The candidates that were likely meant, nearest first. A different capital counts for little; a word that is
 * half wrong is no candidate.
 */
export function nearest(word: string, candidates: Iterable<string>, most = 3): readonly string[] {
  const found: { readonly candidate: string; readonly far: number }[] = [];
  const lower = word.toLowerCase();
  for (const candidate of new Set(candidates)) {
    if (candidate === word) continue;
    const longest = Math.max(word.length, candidate.length);
    const allowed = longest <= 2 ? 1 : longest <= 4 ? 1.5 : longest <= 7 ? 2.5 : 3.5;
    if (Math.abs(word.length - candidate.length) > allowed) continue;
    const capitals = candidate.toLowerCase() === lower ? 0.1 : distance(lower, candidate.toLowerCase());
    const far = capitals + (candidate[0].toLowerCase() === lower[0] ? 0 : 0.2);
    if (far <= allowed) found.push({ candidate, far });
  }
  found.sort((a, b) => a.far - b.far);
  return found.slice(0, most).map(({ candidate }) => candidate);
}
