import { strict as assert } from 'node:assert';
import { plainStamp } from '../../../src/readers/text/spelt.ts';

describe('plainStamp', () => {
  const cases: readonly (readonly [text: string, plain: string | undefined])[] = [
    ['20250307142231', '2025-03-07 14:22:31'],
    ['20250307142231500', '2025-03-07 14:22:31.500'],
    ['20250307T142231.25Z', '2025-03-07 14:22:31.25Z'],
    ['20250307T142231,123456+01:00', '2025-03-07 14:22:31.123456+01:00'],
    ['20251231235959', '2025-12-31 23:59:59'],
    ['20250131000000', '2025-01-31 00:00:00'],
    ['20250007142231', undefined],
    ['20251307142231', undefined],
    ['20250300142231', undefined],
    ['20250332142231', undefined],
    ['20250307242231', undefined],
    ['18250307142231', undefined],
    ['7 Mar 2025 14:22:31', '2025-03-07 14:22:31'],
    ['07-Mar-2025 14:22:31.5', '2025-03-07 14:22:31.5'],
    ['Fri, 7. März 2025 14:22:31 UTC', '2025-03-07 14:22:31UTC'],
    ['Mar 7, 2025 2:22:31 PM', '2025-03-07 2:22:31 PM'],
    ['Fri Mar  7 14:22:31 2025', '2025-03-07 14:22:31'],
    ['Fri Mar  7 14:22:31 UTC 2025', '2025-03-07 14:22:31UTC'],
    ['7 Foo 2025 14:22:31', undefined],
    ['2025-03-07 14:22:31', undefined],
    ['14:22:31', undefined],
  ];
  for (const [text, plain] of cases)
    it(`makes ${String(plain)} of ${text}`, () => assert.equal(plainStamp(text), plain));

  it('knows the months in English, German and French', () => {
    const names = [
      'Jan January Januar janvier',
      'Feb February Februar février fév',
      'Mar March März Mrz mars',
      'Apr April avril',
      'May Mai mai',
      'Jun June Juni juin',
      'Jul July Juli juillet',
      'Aug August août aout',
      'Sep September septembre Sept',
      'Oct October Oktober Okt octobre',
      'Nov November novembre',
      'Dec December Dezember Dez décembre déc',
    ];
    for (const [month, list] of names.entries())
      for (const name of list.split(' '))
        assert.equal(plainStamp(`7 ${name} 2025 14:22:31`)?.slice(5, 7), String(month + 1).padStart(2, '0'), name);
  });
});
