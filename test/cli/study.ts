/** The recording of scripts/reference/makeStudyVectors.py, made by the same formula. */
export function studyRecording(): string {
  const rate = 349.6;
  let state = 20260301;
  const noise = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32 - 0.5;
  };
  const rows = ['t (s),x (g),y (g),z (g)'];
  for (let i = 0; i < Math.floor(rate * 85); i++) {
    const t = i / rate;
    const bump = i % 4001 < 3 ? 1.5 : 0;
    const x = 0.02 + 0.1 * noise();
    const y = -0.01 + 0.08 * Math.sin(2 * Math.PI * 7.3 * t) + 0.05 * noise();
    const z = 0.98 + 0.3 * Math.sin(2 * Math.PI * 17.77 * t) + 0.4 * noise() + bump;
    rows.push(`${t.toFixed(3)},${x.toFixed(5)},${y.toFixed(5)},${z.toFixed(5)}`);
  }
  return rows.join('\n') + '\n';
}
