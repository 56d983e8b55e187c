/** The transform X[k] = sum x[n] exp(-2 pi i k n / N) as it is defined, the sums taken one term after the other. */
export function directSum(re: Float64Array, im: Float64Array): [re: Float64Array, im: Float64Array] {
  const length = re.length;
  const cos = Float64Array.from({ length }, (_, t) => Math.cos((2 * Math.PI * t) / length));
  const sin = Float64Array.from({ length }, (_, t) => Math.sin((2 * Math.PI * t) / length));
  const [sumsRe, sumsIm] = [new Float64Array(length), new Float64Array(length)];
  for (let k = 0; k < length; k++) {
    for (let n = 0, t = 0; n < length; n++, t = t + k < length ? t + k : t + k - length) {
      sumsRe[k] += re[n] * cos[t] + im[n] * sin[t];
      sumsIm[k] += im[n] * cos[t] - re[n] * sin[t];
    }
  }
  return [sumsRe, sumsIm];
}
