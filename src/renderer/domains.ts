/** A name for the signal that holds a scale's domain. */
export const domainSignal = (scale: string): string => `domain_${scale}`;

interface Scale {
  readonly name: string;
  readonly domain?: unknown;
}

/** A scale's two numbers, if these are what its domain is. */
export const numbersOf = ({ domain }: Scale): readonly [number, number] | undefined =>
  Array.isArray(domain) && domain.length === 2 && domain.every((end) => typeof end === 'number')
    ? (domain as unknown as readonly [number, number])
    : undefined;

/** A specification whose scales take their numeric domains from signals, so that a view can be given others. */
export function withDomains(spec: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const { scales = [], signals = [] } = spec as {
    readonly scales?: readonly Scale[];
    readonly signals?: readonly object[];
  };
  const domains = scales.flatMap((scale) => {
    const numbers = numbersOf(scale);
    return numbers === undefined ? [] : [{ name: domainSignal(scale.name), value: [...numbers] }];
  });
  return {
    ...spec,
    signals: [...signals, ...domains],
    scales: scales.map((scale) =>
      numbersOf(scale) === undefined ? scale : { ...scale, domain: { signal: domainSignal(scale.name) } },
    ),
  };
}
